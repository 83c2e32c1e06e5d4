// node tests/support/convergence.mjs: makes src/features/explanation/convergence.json anew (a quarter of an hour).
// With --keep-reference only the meshes on offer are flown again (two minutes): right where nothing but those meshes
// has changed. With --rows=4,5 only those rows, reference and all: right where only their formulas have.
import { readFileSync, writeFileSync } from 'node:fs'
import { fileURLToPath } from 'node:url'
import { runnerImport } from 'vite'

const at = (path) => fileURLToPath(new URL(path, import.meta.url))

const { module } = await runnerImport(at('./convergence-table.ts'), {
  configFile: false,
  root: at('../..'),
  logLevel: 'error',
})
const table = at('../../src/features/explanation/convergence.json')
const keepsReference = process.argv.includes('--keep-reference')
const only = process.argv
  .find((word) => word.startsWith('--rows='))
  ?.slice('--rows='.length)
  .split(',')
  .map(Number)
const { rows } = JSON.parse(readFileSync(table, 'utf8'))
for (const [i, varied] of module.VARIED.entries()) {
  if (only && !only.includes(i)) continue
  const begun = Date.now()
  rows[i] = module.convergenceRow(varied, keepsReference ? rows[i].reference : undefined)
  console.log(`${varied.file} ${varied.caster}: ${((Date.now() - begun) / 1000).toFixed(1)} s`)
  // After each, since the whole takes long.
  writeFileSync(table, `${JSON.stringify({ rows }, null, 2)}\n`)
}
