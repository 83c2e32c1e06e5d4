import type { CastCase, FlightResult } from '../engine/cast'
import type { DeliveryCase, Done, Errand, Known } from '../engine/delivery'

/** What the workers can be asked. Everything in it is plain data. */
export type Job =
  | { readonly kind: 'flight'; readonly input: CastCase }
  /** Many cases, or one at many speeds. */
  | { readonly kind: 'extensions'; readonly inputs: readonly CastCase[] }
  /** A piece of a delivery. */
  | { readonly kind: 'errand'; readonly asked: DeliveryCase; readonly errand: Errand }
  | {
      readonly kind: 'room-sample'
      readonly asked: DeliveryCase
      readonly known: Known
      readonly seed: number
    }

export interface Results {
  readonly flight: FlightResult
  /** What each case reaches at its own line speed. */
  readonly extensions: readonly number[]
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
