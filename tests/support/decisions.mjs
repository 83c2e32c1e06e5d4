// node tests/support/decisions.mjs [mesh]: flies every shipped leader with every shipped fly at six speeds about its
// least line speed, once until decided and once whole, and prints where the two differ (ten minutes).
import { fileURLToPath } from 'node:url'
import { runnerImport } from 'vite'

const at = (path) => fileURLToPath(new URL(path, import.meta.url))

const { module } = await runnerImport(at('./decisions-trial.ts'), {
  configFile: false,
  root: at('../..'),
  logLevel: 'error',
})
let [verdicts, wrong, decided, whole] = [0, 0, 0, 0]
for (const verdict of module.trial(process.argv[2] ?? 'coarse')) {
  verdicts++
  decided += verdict.decidedSteps
  whole += verdict.wholeSteps
  if (verdict.decided === verdict.whole) continue
  wrong++
  console.log(JSON.stringify(verdict))
}
const share = ((100 * decided) / whole).toFixed(0)
console.log(`${verdicts} verdicts, ${wrong} wrong, for ${share} % of the steps of whole flights`)
