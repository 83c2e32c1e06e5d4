/** Questions as jobs: long ones as many small ones, so that all workers share them and a short one never waits for long. */
import type { CastCase, FlightResult } from '../engine/cast'
import type {
  Delivered,
  DeliveryCase,
  DeliveryMap,
  Done,
  Known,
  RoomBand,
} from '../engine/delivery'
import type { CastClient } from './client'
import type { Job } from './protocol'
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
  | (Job & { readonly kind: 'flight' | 'extensions' })
  /** What this caster would choose, and how it lies; all of it, room over what is not known, and lay over speed and aim. */
  | ({ readonly kind: 'delivery' | 'map' } & DeliveryCase)
  | ({ readonly kind: 'room-band'; readonly known: Known; readonly samples: number } & DeliveryCase)

interface Values {
  readonly flight: FlightResult
  readonly extensions: readonly number[]
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
    case 'flight':
      return pool.run(question, { lane })
    case 'extensions':
      return runExtensions(pool, question.inputs, lane, hear)
    case 'delivery':
      return runDelivery(pool, question, lane)
    case 'map':
      return runMap(pool, question, lane, hear)
    case 'room-band':
      return runRoomBand(pool, question, lane, hear)
  }
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
