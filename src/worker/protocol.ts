import type { CastCase, CastChoices, FlightResult, Reach, Sensitivity } from '../engine/cast'
import type { DeliveryCase, Done, Errand, Known } from '../engine/delivery'
import type { Remedy } from '../engine/checks'
import type { Leader } from '../engine/leader'

/** What the workers can be asked. Everything in it is plain data. */
export type Job =
  | {
      readonly kind: 'verdict'
      readonly input: CastCase
      readonly target: number
      /** A coarser mesh for the search of the least speed, which takes many flights. */
      readonly searchMesh?: CastCase['mesh']
    }
  | { readonly kind: 'flight'; readonly input: CastCase }
  | {
      readonly kind: 'band'
      readonly input: CastCase
      readonly target: number
      /** Least speed of the case itself, as far as it is known. */
      readonly from_m_s: number
      /** One sample each: a band is many such jobs, see spread.ts. */
      readonly seeds: readonly number[]
    }
  /** Many cases, or one at many speeds. */
  | { readonly kind: 'extensions'; readonly inputs: readonly CastCase[] }
  | { readonly kind: 'sensitivity'; readonly input: CastCase; readonly segment: number }
  | {
      readonly kind: 'reach'
      readonly leader: Leader
      readonly choices: CastChoices
      readonly limit: keyof Reach
    }
  | {
      readonly kind: 'cures'
      readonly leader: Leader
      readonly choices: CastChoices
      readonly candidates: readonly Remedy[]
    }
  /** A piece of a delivery. */
  | { readonly kind: 'errand'; readonly asked: DeliveryCase; readonly errand: Errand }
  | {
      readonly kind: 'room-sample'
      readonly asked: DeliveryCase
      readonly known: Known
      readonly seed: number
    }

/** One flight at the caster's speed and the least speed that would do. */
export interface Verdict {
  readonly status: string
  readonly extension: number
  readonly flySpeedAtTurn_m_s: number | null
  readonly leastSpeed_m_s: number | null
}

export interface Results {
  readonly verdict: Verdict
  readonly flight: FlightResult
  /** Least speeds of the samples, m/s; null where none up to 40 m/s turned over. */
  readonly band: readonly (number | null)[]
  /** What each case reaches at its own line speed. */
  readonly extensions: readonly number[]
  readonly sensitivity: Sensitivity
  readonly reach: number | null
  readonly cures: readonly Remedy[]
  readonly errand: Done
  readonly 'room-sample': number
}
export type Result = Results[Job['kind']]
export type ResultOf<J extends Job> = Results[J['kind']]

/** What a job has so far, for long ones: share done and the result as it stands. */
export interface Progress<R = Result> {
  readonly done: number
  readonly partial: R | null
}

export type ToWorker =
  | { readonly type: 'run'; readonly id: number; readonly job: Job }
  | { readonly type: 'cancel'; readonly id: number }
  /** Answered at once, or within a step of the job: silence means that the worker is gone. */
  | { readonly type: 'ping' }

export type FromWorker =
  | { readonly type: 'alive' }
  | { readonly type: 'progress'; readonly id: number; readonly progress: Progress }
  | { readonly type: 'done'; readonly id: number; readonly result: Result }
  | { readonly type: 'failed'; readonly id: number; readonly message: string }
