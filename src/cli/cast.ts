import type { CastJob } from '../documents'
import type { Search } from '../engine/cast'
import { bandOf, leastSpeedSteps, runCast, sampleSteps } from '../engine/cast'
import { deliverySteps, mapSteps, roomBandOf, roomSampleSteps } from '../engine/delivery'
import { readCastCases } from '../documents'
import { messageOf } from '../engine/messageOf'
import { printed } from './delivered'
import { print, say, sayProblems, textOf } from './terminal'

const BAND_SAMPLES = 60
const FRAME_S = 1 / 50

/**
 * Flies the cases of a file and prints what is wanted as JSON, SI throughout; see README.md.
 * @returns exit code: 0, or 1 where the file could not be read.
 */
export function main(paths: readonly string[]): number {
  const [path] = paths
  if (path === undefined || paths.length > 1) {
    say('Name one case file: npm run --silent cast -- case.json')
    return 1
  }
  const json = readJson(path)
  if (json === undefined) return 1
  const read = readCastCases(json.value)
  if (!read.ok) {
    sayProblems(path, read.problems)
    return 1
  }
  const { jobs } = read
  const results = jobs.map((job, i) =>
    flyCase(job, new Work(`case ${i + 1} of ${jobs.length}`, sayProgress())),
  )
  print(Array.isArray(json.value) ? results : results[0])
  return 0
}

function readJson(path: string): { value: unknown } | undefined {
  const text = textOf(path)
  if (text === undefined) return undefined
  try {
    return { value: JSON.parse(text) as unknown }
  } catch (error) {
    say(`${path}: ${messageOf(error)}`)
    return undefined
  }
}

const PROGRESS_MS = 10_000

/** Says a line at most every ten seconds, so that a long case is known to be alive. */
function sayProgress(): (line: string) => void {
  let last = Date.now()
  return (line) => {
    if (Date.now() - last < PROGRESS_MS) return
    last = Date.now()
    say(line)
  }
}

/**
 * Nodes times steps that the searches of one case may take: about a minute. A least speed on the mesh `fine` takes a
 * third of it, the whole of a standard case with its band a hundredth.
 */
export const MOST_CASE_NODE_STEPS = 1_000_000_000

/** What a case may still take. */
export class Work {
  #left = MOST_CASE_NODE_STEPS
  #flights = 0
  readonly #name: string
  readonly #tell: (line: string) => void

  constructor(name = 'case', tell: (line: string) => void = () => undefined) {
    this.#name = name
    this.#tell = tell
  }

  /** Does a search whose flights take so many node-steps each; undefined where that is more than is left. */
  search<R>(search: Search<R>, perFlight: number): R | undefined {
    for (;;) {
      if (this.#left < perFlight) return undefined
      const step = search.next()
      if (step.done) return step.value
      this.#left -= perFlight
      this.#tell(`${this.#name}: ${++this.#flights} flights`)
    }
  }
}

/**
 * Share of its energy that the account of a flight may be off before that is said. The engine's tests hold 0.005
 * through the straightening, the shipped leaders on the usual mesh at most 0.02; estimate.
 */
const CLOSED = 0.05

/** Up to where the drag of a cylinder is fitted: Cheng, J. Hydraul. Eng. 139 (2013). */
const MOST_REYNOLDS = 2e5

/** Why a case is outside what the model means; undefined where it is not. */
function outsideOf({ line, segments, cast, air, wind_m_s }: CastJob['input']): string | undefined {
  const strands = [...line, ...segments]
  const length = strands.reduce((sum, { length_m }) => sum + length_m, 0)
  const needed = cast.loopStart_m + (Math.PI / 2) * cast.loopHeight_m
  if (needed > length)
    return `the loop starts at ${cast.loopStart_m} m and takes ${(needed - cast.loopStart_m).toFixed(2)} m, which is beyond the ${length.toFixed(2)} m of line and leader: nothing is thrown`
  const stoutest = Math.max(...strands.flatMap((s) => [s.diameterFrom_m, s.diameterTo_m]))
  const reynolds =
    ((cast.lineSpeed_m_s + Math.abs(wind_m_s)) * stoutest) / air.kinematicViscosity_m2_s
  return reynolds > MOST_REYNOLDS
    ? `a Reynolds number of ${reynolds.toPrecision(2)}; the law of drag holds to ${MOST_REYNOLDS}`
    : undefined
}

/** The flight's measures always; least speed, band and ledger where they are wanted. */
export function flyCase(job: CastJob, work = new Work()) {
  const { input, targetExtension: target, want } = job
  const wantsFrames = want.includes('flight')
  const flight = runCast(input, {
    audit: true,
    ...(wantsFrames ? { frameEvery_s: FRAME_S } : {}),
  })
  // What is of use only to those who draw the nodes, or said elsewhere, is left out.
  const { frames, ledger, buttNode: _b, jointNodes: _j, isReached: _r, ...measures } = flight
  const isFlown = flight.status === 'ok'
  const wantsLeast = want.includes('leastSpeed') || want.includes('band')
  const perFlight = isFlown ? flight.steps * flight.nodes : Infinity
  const least = wantsLeast ? leastSpeed(input, target, work, perFlight) : undefined
  const drawn =
    want.includes('band') && least !== undefined
      ? band(input, target, least, work, perFlight)
      : undefined
  const wantsDelivery = isFlown && want.includes('delivery')
  const delivery = wantsDelivery ? delivered(job, work) : undefined
  const isStopped =
    (wantsLeast && least === undefined) ||
    (want.includes('band') && !drawn) ||
    (wantsDelivery && delivery === undefined)
  return {
    ...measures,
    status: statusOf(flight, input, isStopped),
    // What is still in the air lies on no water.
    slackOnWater: measures.touchTime_s === null ? null : measures.slackOnWater,
    ...(wantsLeast ? { leastLineSpeed_m_s: least ?? null } : {}),
    ...(want.includes('band') ? { band: drawn ?? null } : {}),
    ...(want.includes('delivery') ? { delivery: delivery ?? null } : {}),
    ...(want.includes('ledger') ? { ledger: plainLedger(ledger) } : {}),
    ...(wantsFrames ? { flight: frames.map(plainFrame) } : {}),
  }
}

function statusOf(
  { status, energyError }: Pick<Flight, 'status' | 'energyError'>,
  input: CastJob['input'],
  isStopped: boolean,
): string {
  const outside = outsideOf(input)
  if (outside !== undefined) return `outside what the model means: ${outside}`
  if (status !== 'ok') return status
  if (energyError !== null && energyError > CLOSED)
    return `the account of energy does not close: it is off by ${energyError.toPrecision(2)} of the energy of motion; a finer mesh may do, or a figure of the case is beyond the model`
  return isStopped
    ? `the search was stopped after ${MOST_CASE_NODE_STEPS} node-steps; a coarser mesh, a shorter endTime_s or less strand takes fewer`
    : 'ok'
}

/**
 * Bracketed on the coarse mesh, which is quick, and settled on the mesh of the case; null where no speed does, and
 * undefined where that takes too long.
 */
function leastSpeed(
  input: CastJob['input'],
  target: number,
  work: Work,
  perFlight: number,
): number | null | undefined {
  const coarse = { ...input, mesh: 'coarse' } as const
  const guess = work.search(
    leastSpeedSteps(coarse, { target, from_m_s: 3, tolerance_m_s: 0.2 }),
    perFlight,
  )
  if (guess === undefined) return undefined
  const from_m_s = guess ?? input.cast.lineSpeed_m_s
  return work.search(leastSpeedSteps(input, { target, from_m_s, tolerance_m_s: 0.05 }), perFlight)
}

function band(
  input: CastJob['input'],
  target: number,
  least: number | null,
  work: Work,
  perFlight: number,
) {
  const from = least ?? input.cast.lineSpeed_m_s
  const quick = { ...input, mesh: 'coarse' as const }
  const samples: (number | null)[] = []
  for (let seed = 1; seed <= BAND_SAMPLES; seed++) {
    const sample = work.search(
      sampleSteps(quick, seed, target, from),
      Math.min(perFlight, MOST_COARSE),
    )
    if (sample === undefined) return undefined
    samples.push(sample)
  }
  return bandOf(samples, input.cast.lineSpeed_m_s)
}

/** Draws of a room's band: what is merely unknown moves it little. */
const ROOM_SAMPLES = 24

/** The delivery with its map, and the band of its room where that is wanted; undefined where that takes too long. */
function delivered({ delivery: asked, want }: CastJob, work: Work) {
  const found = work.search(deliverySteps(asked), MOST_COARSE)
  if (found === undefined || 'failed' in found) return found && printed(found)
  const rooms: number[] = []
  for (let seed = 1; want.includes('band') && seed <= ROOM_SAMPLES; seed++) {
    const known = { ...found, ...found.best }
    const room = work.search(roomSampleSteps(asked, known, seed), MOST_COARSE)
    if (room === undefined) return undefined
    rooms.push(room)
  }
  const map = work.search(mapSteps(asked), MOST_COARSE)
  if (map === undefined) return undefined
  const { straight: _, ...shown } = map
  return { ...printed(found), ...(rooms.length > 0 ? { band: roomBandOf(rooms) } : {}), map: shown }
}

/** What a flight on the coarse mesh takes at most, whatever the mesh of the case: several times a standard one. */
const MOST_COARSE = 1_000_000

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
