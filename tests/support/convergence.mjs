// node tests/support/convergence.mjs: makes tests/engine/cast/convergence.json anew (several minutes).
import { writeFileSync } from 'node:fs'
import { fileURLToPath } from 'node:url'
import { runnerImport } from 'vite'

const at = (path) => fileURLToPath(new URL(path, import.meta.url))

const { module } = await runnerImport(at('./convergence-table.ts'), {
  configFile: false,
  root: at('../..'),
  logLevel: 'error',
})
const rows = []
for (const varied of module.VARIED) {
  const begun = performance.now()
  rows.push(module.convergenceRow(varied))
  console.log(
    `${varied.file} ${varied.caster}: ${((performance.now() - begun) / 1000).toFixed(1)} s`,
  )
  writeFileSync(at('../engine/cast/convergence.json'), `${JSON.stringify({ rows }, null, 2)}\n`)
}
