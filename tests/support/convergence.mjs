// node tests/support/convergence.mjs: makes src/features/model/convergence.json anew (a quarter of an hour).
// With --keep-reference only the meshes on offer are flown again (two minutes).
import { readFileSync, writeFileSync } from 'node:fs'
import { fileURLToPath } from 'node:url'
import { runnerImport } from 'vite'

const at = (path) => fileURLToPath(new URL(path, import.meta.url))

const { module } = await runnerImport(at('./convergence-table.ts'), {
  configFile: false,
  root: at('../..'),
  logLevel: 'error',
})
const table = at('../../src/features/model/convergence.json')
const known = process.argv.includes('--keep-reference')
  ? JSON.parse(readFileSync(table, 'utf8')).rows.map((row) => row.reference)
  : []
const rows = []
for (const [i, varied] of module.VARIED.entries()) {
  const begun = Date.now()
  rows.push(module.convergenceRow(varied, known[i]))
  console.log(`${varied.file} ${varied.caster}: ${((Date.now() - begun) / 1000).toFixed(1)} s`)
}
writeFileSync(table, `${JSON.stringify({ rows }, null, 2)}\n`)
