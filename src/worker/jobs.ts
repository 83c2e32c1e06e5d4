import type { Job, Progress, Result, ResultOf } from './protocol'
import type { CastCase } from '../engine/cast'
import { extensionAt, runCast } from '../engine/cast'
import { errandSteps, roomSampleSteps } from '../engine/delivery'

/** A job as steps of a flight each, so that it can be stopped between them. Pure. */
export type Steps<R> = Generator<Progress<R> | null, R>

/** Frames this often, s: as a screen shows them. */
const FRAME_S = 1 / 60

export function stepsOf<J extends Job>(job: J): Steps<ResultOf<J>>
export function stepsOf(job: Job): Steps<Result> {
  switch (job.kind) {
    case 'flight':
      return flightSteps(job.input)
    case 'extensions':
      return listSteps(job.inputs, (input) => extensionAt(input, input.cast.lineSpeed_m_s))
    case 'errand':
      return errandSteps(job.asked, job.errand)
    case 'room-sample':
      return roomSampleSteps(job.asked, job.known, job.seed)
  }
}

function* flightSteps(input: CastCase): Steps<ResultOf<Job & { kind: 'flight' }>> {
  yield null
  return runCast(input, { audit: true, frameEvery_s: FRAME_S })
}

function* listSteps<T, R>(list: readonly T[], compute: (item: T) => R): Steps<readonly R[]> {
  const found: R[] = []
  for (const item of list) {
    found.push(compute(item))
    yield { done: found.length / list.length, partial: [...found] }
  }
  return found
}
