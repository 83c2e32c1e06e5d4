// ESLint rule: the direction of imports in src, as import-table.mjs has it.
import { dirname, relative, resolve, sep } from 'node:path'
import { fileURLToPath } from 'node:url'
import { objection, packageObjection } from './import-table.mjs'

const src = fileURLToPath(new URL('../../src', import.meta.url))
const ENDING = /(\.d)?\.(ts|js|mjs|vue|css|json)$/

// "../formulas/x" and the like: outside src, the table speaks of top-level folders by their name.
function place(file) {
  const path = relative(src, file).split(sep).join('/').replace(ENDING, '')
  return path.startsWith('../') ? path.slice(3) : path
}

function complaint(file, source, typeOnly) {
  const from = place(file)
  const name = source.replace(/\?.*$/, '')
  return name.startsWith('.')
    ? objection(from, place(resolve(dirname(file), name)))
    : packageObjection(from, name, typeOnly)
}

const isGlob = ({ callee }) =>
  callee.type === 'MemberExpression' &&
  callee.object.type === 'MetaProperty' &&
  callee.property.name === 'glob'

export const importDirection = {
  meta: { type: 'problem', schema: [], messages: { wrong: '{{ reason }}' } },
  create(context) {
    const check = (node, source, typeOnly = false) => {
      if (typeof source?.value !== 'string') return
      const reason = complaint(context.filename, source.value, typeOnly)
      if (reason) context.report({ node: source, messageId: 'wrong', data: { reason } })
    }
    return {
      ImportDeclaration: (node) => check(node, node.source, node.importKind === 'type'),
      ExportNamedDeclaration: (node) => check(node, node.source, node.exportKind === 'type'),
      ExportAllDeclaration: (node) => check(node, node.source, node.exportKind === 'type'),
      ImportExpression: (node) => check(node, node.source),
      TSImportType: (node) => check(node, node.source ?? node.argument?.literal, true),
      CallExpression: (node) => isGlob(node) && check(node, node.arguments[0]),
    }
  },
}
