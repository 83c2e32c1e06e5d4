/** Questions as jobs: long ones as many small ones, so that all workers share them and a short one never waits for long. */
import type { Band, CastCase, CastChoices, FlightResult, Reach, Sensitivity } from '../engine/cast'
import type {
  Delivered,
  DeliveryCase,
  DeliveryMap,
  Done,
  Known,
  RoomBand,
} from '../engine/delivery'
import type { Remedy } from '../engine/checks'
import type { Leader } from '../engine/leader'
import type { CastClient } from './client'
import type { Job, Verdict } from './protocol'
import { bandOf, REACHES } from '../engine/cast'
import {
  deliveryRounds,
  landingsOf,
  MAP_AIMS_DEG,
  mapOf,
  mapRow,
  roomBandOf,
} from '../engine/delivery'

/** What may be asked of casts: what is wanted (its kind), and of which case or cases. Plain data. */
export type Question =
  | (Job & { readonly kind: 'verdict' | 'flight' | 'extensions' | 'cures' })
  | ({ readonly kind: 'band' } & BandQuestion)
  | { readonly kind: 'sensitivity'; readonly input: CastCase }
  | { readonly kind: 'reach'; readonly leader: Leader; readonly choices: CastChoices }
  /** What this caster would choose, and how it lies; all of it, room over what is not known, and lay over speed and aim. */
  | ({ readonly kind: 'delivery' | 'map' } & DeliveryCase)
  | ({ readonly kind: 'room-band'; readonly known: Known; readonly samples: number } & DeliveryCase)

interface Values {
  readonly verdict: Verdict
  readonly flight: FlightResult
  readonly band: Band
  readonly extensions: readonly number[]
  readonly sensitivity: readonly Sensitivity[]
  readonly reach: Reach
  readonly cures: readonly Remedy[]
  readonly delivery: Delivered
  readonly map: DeliveryMap
  readonly 'room-band': RoomBand
}
export type ValueOf<Q extends Question> = Values[Q['kind']]

/** Has a question worked out under its lane; a long one lets hear what is known so far. */
export function work<Q extends Question>(
  pool: CastClient,
  question: Q,
  lane: string,
  hear: (partial: ValueOf<Question>) => void,
): Promise<ValueOf<Q>>
export function work(
  pool: CastClient,
  question: Question,
  lane: string,
  hear: (partial: ValueOf<Question>) => void,
): Promise<ValueOf<Question>> {
  switch (question.kind) {
    case 'verdict':
      return pool.run(question, { lane })
    case 'flight':
      return pool.run(question, { lane })
    case 'band':
      return runBand(pool, question, lane, seldom(hear))
    case 'extensions':
      return runExtensions(pool, question.inputs, lane, hear)
    case 'sensitivity':
      return runSensitivity(pool, question.input, lane, hear)
    case 'reach':
      return runReach(pool, question, lane)
    case 'cures':
      return runCures(pool, question, lane)
    case 'delivery':
      return runDelivery(pool, question, lane)
    case 'map':
      return runMap(pool, question, lane, hear)
    case 'room-band':
      return runRoomBand(pool, question, lane, hear)
  }
}

/** How many more samples it takes for a growing band to be heard of anew. */
const HEARD_EVERY = 30

function seldom(hear: (band: Band) => void): (band: Band) => void {
  let heard = 0
  return (band) => {
    if (band.samples < heard + HEARD_EVERY) return
    heard = band.samples
    hear(band)
  }
}

/** Samples a job: some tenths of a second. */
const SAMPLES_A_JOB = 5

export interface BandQuestion {
  readonly input: CastCase
  readonly target: number
  readonly from_m_s: number
  readonly samples: number
}

/** The band of a case; while it grows, the band of what is there in order of seeds, at every job that ends. */
export async function runBand(
  pool: CastClient,
  { samples, ...question }: BandQuestion,
  lane: string,
  onProgress: (band: Band) => void = () => {},
): Promise<Band> {
  const all = Array.from({ length: samples }, (_, i) => i + 1)
  const jobs = inParts(all, SAMPLES_A_JOB).map(
    (seeds) => ({ ...question, kind: 'band', seeds }) as const,
  )
  const { lineSpeed_m_s } = question.input.cast
  const band = (parts: readonly (readonly (number | null)[])[]) =>
    bandOf(parts.flat(), lineSpeed_m_s)
  return band(await pool.runAll(jobs, { lane, onResult: (parts) => onProgress(band(parts)) }))
}

function inParts<T>(list: readonly T[], size: number): T[][] {
  return Array.from({ length: Math.ceil(list.length / size) }, (_, i) =>
    list.slice(i * size, (i + 1) * size),
  )
}

/** Flights a job: some hundredths of a second, so that a curve grows point by point. */
const FLIGHTS_A_JOB = 2

/** What each case reaches at its own line speed; while it grows, as many as are known in their order. */
async function runExtensions(
  pool: CastClient,
  inputs: readonly CastCase[],
  lane: string,
  onProgress: (known: readonly number[]) => void = () => {},
): Promise<readonly number[]> {
  const jobs = inParts(inputs, FLIGHTS_A_JOB).map(
    (part) => ({ kind: 'extensions', inputs: part }) as const,
  )
  const onResult = (parts: readonly (readonly number[])[]) => onProgress(parts.flat())
  return (await pool.runAll(jobs, { lane, onResult })).flat()
}

/** How least speed answers to each segment, butt first; while it grows, as many as are known in that order. */
export function runSensitivity(
  pool: CastClient,
  input: CastCase,
  lane: string,
  onResult: (known: readonly Sensitivity[]) => void,
): Promise<readonly Sensitivity[]> {
  const jobs = input.segments.map(
    (_, segment) => ({ kind: 'sensitivity', input, segment }) as const,
  )
  return pool.runAll(jobs, { lane, onResult })
}

export async function runReach(
  pool: CastClient,
  { leader, choices }: { readonly leader: Leader; readonly choices: CastChoices },
  lane: string,
): Promise<Reach> {
  const jobs = REACHES.map((limit) => ({ kind: 'reach', leader, choices, limit }) as const)
  const found = await pool.runAll(jobs, { lane })
  return Object.fromEntries(
    REACHES.map((limit, i) => [limit, found[i] ?? null]),
  ) as unknown as Reach
}

/** Of each kind of remedy the mildest that cures, in the order of the candidates. */
export async function runCures(
  pool: CastClient,
  question: Omit<Job & { kind: 'cures' }, 'kind'>,
  lane: string,
): Promise<readonly Remedy[]> {
  const { candidates } = question
  const kinds = [...new Set(candidates.map(({ id }) => id))]
  const jobs = kinds.map((kind) => {
    const ofKind = candidates.filter(({ id }) => id === kind)
    return { ...question, kind: 'cures', candidates: ofKind } as const
  })
  const found = (await pool.runAll(jobs, { lane })).flat()
  const place = (cure: Remedy) => candidates.findIndex((c) => isSame(c, cure))
  return found.sort((a, b) => place(a) - place(b))
}

/** The errands of each round are shared out; the next one goes by what came of them. */
async function runDelivery(
  pool: CastClient,
  asked: DeliveryCase,
  lane: string,
): Promise<Delivered> {
  const { input, wanted, greatest_m_s } = asked
  const whole = { input, wanted, greatest_m_s }
  const rounds = deliveryRounds(whole)
  let step = rounds.next()
  while (!step.done) {
    const jobs = step.value.map((errand) => ({ kind: 'errand', asked: whole, errand }) as const)
    step = rounds.next(await pool.runAll(jobs, { lane }))
  }
  return step.value
}

/** An aim a job; while it grows, the rows that are there, the lowest aim first. */
async function runMap(
  pool: CastClient,
  asked: DeliveryCase,
  lane: string,
  onProgress: (map: DeliveryMap) => void,
): Promise<DeliveryMap> {
  const jobs = MAP_AIMS_DEG.map((aim) => {
    const errand = { kind: 'casts', throws: mapRow(asked, aim) } as const
    return { kind: 'errand', asked, errand } as const
  })
  const map = (rows: readonly Done[]) => mapOf(asked, rows.map(landingsOf))
  return map(await pool.runAll(jobs, { lane, onResult: (rows) => onProgress(map(rows)) }))
}

async function runRoomBand(
  pool: CastClient,
  { known, samples, input, wanted, greatest_m_s }: Question & { kind: 'room-band' },
  lane: string,
  onProgress: (band: RoomBand) => void,
): Promise<RoomBand> {
  const asked = { input, wanted, greatest_m_s }
  const jobs = Array.from(
    { length: samples },
    (_, i) => ({ kind: 'room-sample', asked, known, seed: i + 1 }) as const,
  )
  const onResult = (rooms: readonly number[]) => onProgress(roomBandOf(rooms))
  return roomBandOf(await pool.runAll(jobs, { lane, onResult }))
}

const isSame = (a: Remedy, b: Remedy): boolean => JSON.stringify(a) === JSON.stringify(b)
