import type { Job, Progress, Result, ResultOf } from './protocol'
import type { CastCase } from '../engine/cast'
import {
  extensionAt,
  leastSpeedSteps,
  reachSteps,
  runCast,
  sampleSteps,
  sensitivitySteps,
  startingSpeed,
  turnsOver,
  unrolledExtension,
} from '../engine/cast'
import { errandSteps, roomSampleSteps } from '../engine/delivery'
import { applyEdit } from '../engine/leader'

/** A job as steps of a flight each, so that it can be stopped between them. Pure. */
export type Steps<R> = Generator<Progress<R> | null, R>

/** Frames this often, s: as a screen shows them. */
const FRAME_S = 1 / 60

export function stepsOf<J extends Job>(job: J): Steps<ResultOf<J>>
export function stepsOf(job: Job): Steps<Result> {
  switch (job.kind) {
    case 'verdict':
      return verdictSteps(job)
    case 'flight':
      return flightSteps(job.input)
    case 'band':
      return bandSteps(job)
    case 'extensions':
      return listSteps(job.inputs, (input) => extensionAt(input, input.cast.lineSpeed_m_s))
    case 'sensitivity':
      return sensitivitySteps(job.input, job.segment)
    case 'reach':
      return reachSteps(job.limit, job.leader, job.choices)
    case 'cures':
      return curesSteps(job)
    case 'errand':
      return errandSteps(job.asked, job.errand)
    case 'room-sample':
      return roomSampleSteps(job.asked, job.known, job.seed)
  }
}

function* verdictSteps({
  input,
  target,
  searchMesh,
}: Job & { kind: 'verdict' }): Steps<ResultOf<Job & { kind: 'verdict' }>> {
  const flight = runCast(input, { stopWhenStraight: true })
  const extension = unrolledExtension(flight)
  const { status, flySpeedAtTurn_m_s } = flight
  const so_far = { status, extension, flySpeedAtTurn_m_s, leastSpeed_m_s: null }
  yield { done: 0.2, partial: so_far }
  if (status !== 'ok') return so_far
  const from_m_s = startingSpeed(input, { isReached: extension >= target, extension })
  const search = { ...input, mesh: searchMesh ?? input.mesh }
  const leastSpeed_m_s = yield* leastSpeedSteps(search, { target, from_m_s, tolerance_m_s: 0.2 })
  return { ...so_far, leastSpeed_m_s }
}

function* flightSteps(input: CastCase): Steps<ResultOf<Job & { kind: 'flight' }>> {
  yield null
  return runCast(input, { audit: true, frameEvery_s: FRAME_S })
}

function* bandSteps({
  input,
  seeds,
  target,
  from_m_s,
}: Job & { kind: 'band' }): Steps<ResultOf<Job & { kind: 'band' }>> {
  const found: (number | null)[] = []
  for (const seed of seeds) {
    found.push(yield* sampleSteps(input, seed, target, from_m_s))
    yield { done: found.length / seeds.length, partial: [...found] }
  }
  return found
}

function* listSteps<T, R>(list: readonly T[], compute: (item: T) => R): Steps<readonly R[]> {
  const found: R[] = []
  for (const item of list) {
    found.push(compute(item))
    yield { done: found.length / list.length, partial: [...found] }
  }
  return found
}

/** Of each kind of remedy the mildest that a simulated cast shows to cure. */
function* curesSteps({
  leader,
  choices,
  candidates,
}: Job & { kind: 'cures' }): Steps<ResultOf<Job & { kind: 'cures' }>> {
  const cures: (typeof candidates)[number][] = []
  for (const [i, remedy] of candidates.entries()) {
    const known = cures.some((cure) => cure.id === remedy.id)
    if (!known && turnsOver(applyEdit(leader, remedy.edit), choices)) cures.push(remedy)
    yield { done: (i + 1) / candidates.length, partial: [...cures] }
  }
  return cures
}
