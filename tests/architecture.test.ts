// @vitest-environment node
import { readdirSync, readFileSync } from 'node:fs'
import { fileURLToPath } from 'node:url'
import { Linter } from 'eslint'
import ts from 'typescript-eslint'
import { describe, expect, it } from 'vitest'
import { parse } from 'vue/compiler-sfc'
import { importDirection } from './support/import-direction.mjs'
import { rowOf, table } from './support/import-table.mjs'

const root = fileURLToPath(new URL('..', import.meta.url))
const linter = new Linter({ configType: 'flat', cwd: root })

function complaints(file: string, code: string): string[] {
  const config = {
    files: ['**/*.ts', '**/*.vue', '**/*.mjs'],
    languageOptions: { parser: ts.parser },
    plugins: { house: { rules: { 'import-direction': importDirection } } },
    rules: { 'house/import-direction': 'error' },
  } as Linter.Config
  return linter
    .verify(code, [config], { filename: `${root}src/${file}` })
    .map(({ message }) => message)
}

const sourceFiles = readdirSync(`${root}src`, { recursive: true, encoding: 'utf8' })
  .map((file) => file.replaceAll('\\', '/'))
  .filter((file) => /\.(ts|mjs|vue)$/.test(file))

function scriptOf(file: string): string {
  const text = readFileSync(`${root}src/${file}`, 'utf8')
  if (!file.endsWith('.vue')) return text
  const { script, scriptSetup } = parse(text).descriptor
  return `${script?.content ?? ''}\n${scriptSetup?.content ?? ''}`
}

const WRONG: [file: string, code: string, reason: string][] = [
  ['engine/units/a.ts', "import { a } from '../leader'", 'engine/units/a may not import'],
  ['engine/leader/a.ts', "import { a } from '../checks/b'", 'each stands only on earlier ones'],
  ['engine/profile/a.ts', "export * from '../strength'", 'each stands only on earlier ones'],
  ['engine/units/a.ts', "import { a } from '../index'", 'each stands only on earlier ones'],
  ['engine/tying/a.ts', "import { a } from '../cast'", 'cutting takes the leader as it stands'],
  ['engine/cast/a.ts', "import type { A } from '../../stores/b'", 'may not import stores/b'],
  ['engine/cast/a.ts', "type A = import('../../ui/b').A", 'may not import ui/b'],
  ['engine/cast/forces/a.ts', "import { ref } from 'vue'", 'may not import the package vue'],
  ['engine/checks/a.ts', "import { readFileSync } from 'node:fs'", 'the package node:fs'],
  ['documents/a.ts', "import { a } from '../storage'", 'may not import storage'],
  ['wording/a.ts', "import { a } from '../stores/b'", 'wording turns findings'],
  ['charts/a.ts', "import { Chart } from 'chart.js'", 'only types from chart.js'],
  ['storage/a.ts', "import { a } from '../engine'", 'storage keeps documents'],
  ['worker/a.ts', "import { a } from '../stores/b'", 'thin shell'],
  ['stores/a.ts', "import { a } from '../worker/shell'", 'may not import worker/shell'],
  ['stores/a.ts', "import { a } from '../charts'", 'stores hold the state'],
  ['ui/a.vue', "import { a } from '../stores/b'", 'by props'],
  ['ui/a.vue', "import { storeToRefs } from 'pinia'", 'the package pinia'],
  ['ui/a.ts', "import { a } from '../engine/leader'", 'by props'],
  ['features/one/View.vue', "import { a } from '../two'", 'no other feature'],
  ['features/one/View.vue', "const a = () => import('../two/View.vue')", 'no other feature'],
  ['features/one/a.ts', "import { a } from '../../storage'", 'through the stores'],
  ['features/one/a.ts', "import.meta.glob('../../../formulas/*.json')", 'may not import formulas'],
  ['app/a.ts', "import { a } from '../features/one/View.vue'", 'by their door'],
  ['cli/a.ts', "import { a } from '../ui/b.vue'", 'commands run in Node'],
  ['stores/a.ts', "import { a } from '../../tests/support/b'", 'may not import tests'],
  ['other/a.ts', "import { a } from '../engine'", 'has no row'],
]

const RIGHT: [file: string, code: string][] = [
  ['engine/leader/a.ts', "import { a } from '../units'"],
  ['engine/cast/step.ts', "import { a } from './forces/drag'"],
  ['engine/index.ts', "export * from './checks'"],
  ['documents/a.ts', "import * as v from 'valibot'"],
  ['charts/a.ts', "import type { ChartData } from 'chart.js'"],
  ['stores/a.ts', "import { a } from '../worker/client'"],
  ['stores/a.ts', "import.meta.glob('../../formulas/*.json')"],
  ['ui/a.vue', "import { a } from '../engine/units'"],
  ['features/one/View.vue', "import { a } from './parts/b'"],
  ['app/a.ts', "const a = () => import('../features/one')"],
  ['app/a.ts', "import { a } from '../features/one/index'"],
  ['main.ts', "import './styles/screen.css'"],
]

describe('direction of imports', () => {
  it.each(WRONG)('%s: "%s" is refused, saying why', (file, code, reason) => {
    expect(complaints(file, code)).toEqual([expect.stringContaining(reason)])
  })

  it.each(RIGHT)('%s: "%s" is allowed', (file, code) => {
    expect(complaints(file, code)).toEqual([])
  })

  it('every folder of src has a row in the table', () => {
    const rows = sourceFiles.map((file) => rowOf(file.replace(/(\.d)?\.\w+$/, '')))
    expect(rows.filter((row) => !table[row])).toEqual([])
  })

  it('no file of src imports against it', () => {
    expect(sourceFiles.length).toBeGreaterThan(0)
    expect(sourceFiles.flatMap((file) => complaints(file, scriptOf(file)))).toEqual([])
  })
})
