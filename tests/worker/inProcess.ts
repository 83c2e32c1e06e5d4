/** Workers without a thread: for the client to hold, answering from this very process. */
import type { WorkerLike } from '../../src/worker/client'
import type { FromWorker, Job, Progress, Result, ToWorker } from '../../src/worker/protocol'
import type { fly } from '../../src/engine/delivery'
import { errandSteps } from '../../src/engine/delivery'
import { CastClient } from '../../src/worker/client'
import { stepsOf } from '../../src/worker/jobs'

type MessageListener = (event: { data: FromWorker }) => void
type ErrorListener = (event: { message?: string }) => void

/** Keeps what it was told and says only what the test has it say. */
export class PuppetWorker implements WorkerLike {
  readonly told: ToWorker[] = []
  terminated = false
  readonly #message: MessageListener[] = []
  readonly #error: ErrorListener[] = []

  postMessage(message: ToWorker): void {
    // As between threads: whatever cannot be copied throws here.
    this.told.push(structuredClone(message))
  }
  terminate(): void {
    this.terminated = true
  }
  addEventListener(type: 'message' | 'error', listener: MessageListener | ErrorListener): void {
    if (type === 'message') this.#message.push(listener as MessageListener)
    else this.#error.push(listener as ErrorListener)
  }

  say(message: FromWorker): void {
    for (const listener of this.#message) listener({ data: structuredClone(message) })
  }
  crash(message?: string): void {
    for (const listener of this.#error) listener(message === undefined ? {} : { message })
  }
}

type Answer = Result | Error

export interface Ways {
  /** Kinds that are taken and never answered. */
  readonly silent?: readonly Job['kind'][]
  /** Answers in place of the computed ones; an error fails the job. */
  readonly answers?: Partial<Record<Job['kind'], Answer>>
  /** Flies the casts of deliveries in place of the engine: quick, and of a kind that the test knows. */
  readonly flying?: typeof fly
}

type Step = IteratorResult<Progress | null, Result>

/** What each job said, step by step, when it was first done in this file of tests. */
const recorded = new Map<string, readonly Step[]>()

/** The engine says the same each time, so a job is flown once and after that answered from the record. */
function* stepsTaken(job: Job): Generator<Step> {
  const question = JSON.stringify(job)
  const known = recorded.get(question)
  if (known) return yield* known
  const taken: Step[] = []
  const steps = stepsOf(job)
  for (let step = steps.next(); ; step = steps.next()) {
    taken.push(step)
    if (step.done) recorded.set(question, taken)
    yield step
  }
}

/** Does its jobs here, a step a turn of the event loop; ways may be changed as the test goes on. */
class InProcessWorker extends PuppetWorker {
  readonly #cancelled = new Set<number>()
  readonly #ways: Ways

  constructor(ways: Ways = {}) {
    super()
    this.#ways = ways
  }

  override postMessage(message: ToWorker): void {
    super.postMessage(message)
    if (message.type === 'cancel') this.#cancelled.add(message.id)
    else if (message.type === 'ping') this.say({ type: 'alive' })
    else if (!this.#ways.silent?.includes(message.job.kind))
      void this.#run(message.id, structuredClone(message.job))
  }

  #stepsOf(job: Job): Generator<Step> {
    const { flying } = this.#ways
    return flying && job.kind === 'errand'
      ? stepByStep(errandSteps(job.asked, job.errand, flying))
      : stepsTaken(job)
  }

  async #run(id: number, job: Job): Promise<void> {
    await turn()
    const given = this.#ways.answers?.[job.kind]
    if (given instanceof Error) return this.say({ type: 'failed', id, message: given.message })
    if (given) return this.say({ type: 'done', id, result: given })
    for (const step of this.#stepsOf(job)) {
      if (this.#cancelled.has(id) || this.terminated) return
      if (step.done) return this.say({ type: 'done', id, result: step.value })
      if (step.value) this.say({ type: 'progress', id, progress: step.value })
      await turn()
    }
  }
}

/** Steps one after another, the last with the result. */
function* stepByStep(steps: Iterator<null, Result>): Generator<Step> {
  for (let step = steps.next(); ; step = steps.next()) {
    yield step
    if (step.done) return
  }
}

const turn = () => new Promise<void>((resolve) => setTimeout(resolve))

/** A pool of such workers, with all that it was asked. */
export function inProcessPool(ways: Ways = {}) {
  const workers: InProcessWorker[] = []
  const pool = new CastClient(() => {
    const worker = new InProcessWorker(ways)
    workers.push(worker)
    return worker
  })
  /** In the order in which they were asked, whoever of the workers was asked. */
  const asked = (): Job[] =>
    workers
      .flatMap(({ told }) => told.flatMap((m) => (m.type === 'run' ? [m] : [])))
      .toSorted((a, b) => a.id - b.id)
      .map(({ job }) => job)
  return { pool, asked }
}
