// node tests/support/rooms.mjs [draws] [mesh]: the room of shipped leaders by the quick way beside casts drawn directly,
// ten leaders and two casters (some minutes for 400 draws on the mesh `usual`).
import { fileURLToPath } from 'node:url'
import { runnerImport } from 'vite'

const at = (path) => fileURLToPath(new URL(path, import.meta.url))

const { module } = await runnerImport(at('./rooms-trial.ts'), {
  configFile: false,
  root: at('../..'),
  logLevel: 'error',
})
const two = (value) => value.toFixed(2)
const off = []
for (const row of module.trial(Number(process.argv[2] ?? 400), process.argv[3] ?? 'usual')) {
  const { leader, caster, quick, direct, halves, best } = row
  off.push(Math.abs(quick - direct))
  console.log(
    `${leader.padEnd(36)} ${caster.padEnd(9)} quick ${two(quick)} direct ${two(direct)} (halves ${halves.map(two).join(' ')}) at ${best.lineSpeed_m_s.toFixed(1)} m/s, ${best.launchAngle_deg.toFixed(0)} degrees`,
  )
}
console.log(
  `most off ${two(Math.max(...off))}, mean ${two(off.reduce((a, b) => a + b, 0) / off.length)}`,
)
