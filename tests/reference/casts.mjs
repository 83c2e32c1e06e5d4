// node tests/reference/casts.mjs: writes casts.json anew, whole casts flown by castSimulator.mjs (an hour);
// with numbers only these casts, with --lays=0,4 only these landings. The cases are our own; what is known from
// outside is how to integrate their equations of motion.
import { readFileSync, writeFileSync } from 'node:fs'
import { fileURLToPath } from 'node:url'
import { NEIGHBOURS, PITCH, flyCase, landingOf, leastSpeed } from './castSimulator.mjs'
import { CASES } from './cases.mjs'
import { LANDINGS } from './landings.mjs'

/** So much less and more line speed shows whether a cast stands on an edge, where a little decides how it lies. */
const SPEED_STEP = 0.02

const at = fileURLToPath(new URL('casts.json', import.meta.url))
const words = process.argv.slice(2)
const lays = words.find((word) => word.startsWith('--lays='))?.slice('--lays='.length)
const only = {
  casts: words.filter((word) => !word.startsWith('--')).map(Number),
  lays: lays?.split(',').map(Number) ?? [],
}
const isWhole = words.length === 0

function flown({ name, bracket, case: given }) {
  const flight = flyCase(given)
  const least = bracket ? leastSpeed(given, ...bracket, 0.2) : null
  return { name, case: given, flight, leastLineSpeed_m_s: least }
}

/** How it lands on the finest mesh, and beside it how it lies with a little less, as much and a little more speed. */
function landed({ name, case: given }) {
  const layAt = (factor) => {
    const lineSpeed_m_s = given.cast.lineSpeed_m_s * factor
    return landingOf({ ...given, cast: { ...given.cast, lineSpeed_m_s } }, NEIGHBOURS).lay
  }
  const around = { slower: layAt(1 - SPEED_STEP), same: layAt(1), faster: layAt(1 + SPEED_STEP) }
  return { name, case: given, landing: landingOf(given), around }
}

const made =
  'tests/reference/casts.mjs with odex 2.0.4; links of 12 mm in the line, 18 mm in the leader'
const known = JSON.parse(readFileSync(at, 'utf8'))
const written = {
  made,
  pitch: PITCH,
  pitchAround: NEIGHBOURS,
  casts: known.casts,
  lays: known.lays ?? [],
}

/** Written after each, since the whole takes long. */
function write(list, make, into, chosen) {
  for (const [i, one] of list.entries()) {
    if (!isWhole && !chosen.includes(i)) continue
    const begun = Date.now()
    into[i] = make(one)
    console.log(
      JSON.stringify({ ...into[i], case: undefined }),
      `${((Date.now() - begun) / 1000).toFixed(0)} s`,
    )
    writeFileSync(at, `${JSON.stringify(written, null, 2)}\n`)
  }
}

write(CASES, flown, written.casts, only.casts)
write(LANDINGS, landed, written.lays, only.lays)
