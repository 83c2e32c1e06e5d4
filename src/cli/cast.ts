import { readFileSync } from 'node:fs'
import type { CastJob } from '../documents'
import { bandOf, leastLineSpeed, runCast, sampleLeastSpeed } from '../engine/cast'
import { problemText, readCastCases } from '../documents'
import { messageOf } from '../engine/messageOf'

const BAND_SAMPLES = 60
const FRAME_S = 1 / 50

/**
 * Flies the cases of a file and prints what is wanted as JSON, SI throughout; see README.md.
 * @returns exit code: 0, or 1 where the file could not be read.
 */
export function main(paths: readonly string[]): number {
  const [path] = paths
  if (path === undefined || paths.length > 1) {
    process.stderr.write('Name one case file: npm run --silent cast -- case.json\n')
    return 1
  }
  const json = readJson(path)
  if (json === undefined) return 1
  const read = readCastCases(json.value)
  if (!read.ok) {
    for (const problem of read.problems) process.stderr.write(`${path}: ${problemText(problem)}\n`)
    return 1
  }
  const results = read.jobs.map(flyCase)
  process.stdout.write(
    `${JSON.stringify(Array.isArray(json.value) ? results : results[0], null, 2)}\n`,
  )
  return 0
}

function readJson(path: string): { value: unknown } | undefined {
  try {
    return { value: JSON.parse(readFileSync(path, 'utf8')) as unknown }
  } catch (error) {
    process.stderr.write(`${path}: ${messageOf(error)}\n`)
    return undefined
  }
}

/** The flight's measures always; least speed, band and ledger where they are wanted. */
export function flyCase({ input, targetExtension: target, want }: CastJob) {
  const wantsFrames = want.includes('flight')
  const flight = runCast(input, {
    audit: true,
    ...(wantsFrames ? { frameEvery_s: FRAME_S } : {}),
  })
  // What is of use only to those who draw the nodes, or said elsewhere, is left out.
  const { frames, ledger, buttNode: _b, jointNodes: _j, isReached: _r, ...measures } = flight
  const least =
    want.includes('leastSpeed') || want.includes('band') ? leastSpeed(input, target) : undefined
  return {
    ...measures,
    // What is still in the air lies on no water.
    slackOnWater: measures.touchTime_s === null ? null : measures.slackOnWater,
    ...(least === undefined ? {} : { leastLineSpeed_m_s: least }),
    ...(want.includes('band')
      ? { band: band({ input, targetExtension: target, want }, least ?? null) }
      : {}),
    ...(want.includes('ledger') ? { ledger: plainLedger(ledger) } : {}),
    ...(wantsFrames ? { flight: frames.map(plainFrame) } : {}),
  }
}

/** Bracketed on the coarse mesh, which is quick, and settled on the mesh of the case. */
function leastSpeed(input: CastJob['input'], target: number): number | null {
  const guess = leastLineSpeed(
    { ...input, mesh: 'coarse' },
    { target, from_m_s: 3, tolerance_m_s: 0.2 },
  )
  return leastLineSpeed(input, {
    target,
    from_m_s: guess ?? input.cast.lineSpeed_m_s,
    tolerance_m_s: 0.05,
  })
}

function band({ input, targetExtension }: CastJob, least: number | null) {
  const from = least ?? input.cast.lineSpeed_m_s
  const quick = { ...input, mesh: 'coarse' as const }
  const samples = Array.from({ length: BAND_SAMPLES }, (_, seed) =>
    sampleLeastSpeed(quick, seed + 1, targetExtension, from),
  )
  return bandOf(samples, input.cast.lineSpeed_m_s)
}

type Flight = ReturnType<typeof runCast>

function plainFrame({ time_s, x, y }: Flight['frames'][number]) {
  return { time_s, x_m: [...x].map(rounded), y_m: [...y].map(rounded) }
}

function rounded(value: number): number {
  return Number(value.toFixed(4))
}

function plainLedger(ledger: Flight['ledger']) {
  if (!ledger) return null
  const sum = (column: Float64Array) => column.reduce((total, part) => total + part, 0)
  const { start_J, kinetic_J, gravity_J, stored_J, fly_J } = ledger
  return {
    start_J,
    kinetic_J,
    gravity_J,
    stored_J,
    fly_J,
    acrossStrand_J: sum(ledger.cross_J),
    alongStrand_J: sum(ledger.axial_J),
    bending_J: sum(ledger.bending_J),
  }
}
