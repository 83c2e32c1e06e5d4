import type { FromWorker, Job, Progress, ResultOf, ToWorker } from './protocol'

/** As much of a Worker as the client needs, so that tests can stand one in. */
export interface WorkerLike {
  postMessage(message: ToWorker): void
  terminate(): void
  addEventListener(type: 'message', listener: (event: { data: FromWorker }) => void): void
  addEventListener(type: 'error', listener: (event: { message?: string }) => void): void
}

/** A newer job of the same lane took this one's place, or its owner gave it up. */
export class Superseded extends Error {
  constructor() {
    super('A newer question took the place of this one.')
    this.name = 'Superseded'
  }
}

export interface RunOptions<R> {
  /** Jobs of one lane supersede each other: only the newest answer matters. */
  readonly lane?: string
  readonly onProgress?: (progress: Progress<R>) => void
}

export interface RunAllOptions<R> {
  readonly lane: string
  /** The results so far, as many as are there without a gap. */
  readonly onResult?: (results: readonly R[]) => void
}

interface Waiting {
  readonly id: number
  readonly job: Job
  readonly lane: string | undefined
  /** One of many of its lane: whatever of the same rank is asked alone goes before it. */
  readonly isPart: boolean
  readonly onProgress: ((progress: Progress<never>) => void) | undefined
  readonly resolve: (result: never) => void
  readonly reject: (error: Error) => void
  tries: number
}

interface Hand {
  /** undefined while a new one is waited for. */
  worker: WorkerLike | undefined
  busy: Waiting | undefined
  /** Pings since the worker was last heard. */
  unanswered: number
  beat: ReturnType<typeof setInterval> | undefined
}

const MOST_TRIES = 2

/**
 * Pauses before a worker that crashed is replaced, ms, by how often workers have crashed since one was last heard.
 * After the last the pool stops: a worker that cannot be fetched would be asked for hundreds of times a second.
 */
const PAUSES_MS = [0, 0, 1000, 4000, 15_000] as const

/** A worker that works is pinged so often, and taken for dead after so many pings without any word from it. */
const [BEAT_MS, MOST_UNANSWERED] = [5000, 4] as const

const STOPPED =
  'The simulation does not run: its part of the app could not be fetched or was stopped.'

/** A pool of workers: one job at a time each, most urgent first, newest of a lane wins, a crashed worker is replaced. */
export class CastClient {
  readonly #hire: () => WorkerLike
  readonly #hands: Hand[] = []
  readonly #size: number
  #queue: Waiting[] = []
  #nextId = 1
  #rankOf: (lane: string | undefined) => number = () => 0
  /** Crashes since a worker was last heard. */
  #crashes = 0
  /** Called when the pool stops for good, or until `again`. */
  onStopped: (() => void) | undefined

  constructor(hire: () => WorkerLike, size = 2) {
    this.#hire = hire
    this.#size = size
  }

  /** Lanes of a lower rank go first; it is asked for whenever a worker is free, since what is urgent changes. */
  orderBy(rankOf: (lane: string | undefined) => number): void {
    this.#rankOf = rankOf
  }

  run<J extends Job>(job: J, options: RunOptions<ResultOf<J>> = {}): Promise<ResultOf<J>> {
    const { lane } = options
    if (lane !== undefined) this.cancel(lane)
    return this.#ask(job, options, false)
  }

  /**
   * Many jobs of one lane, dealt to all workers; together they supersede what the lane had. Jobs that are asked
   * alone go before them, so that a worker is free for those as soon as one part is done.
   */
  async runAll<J extends Job>(
    jobs: readonly J[],
    { lane, onResult }: RunAllOptions<ResultOf<J>>,
  ): Promise<ResultOf<J>[]> {
    this.cancel(lane)
    const results: ResultOf<J>[] = []
    let known = 0
    const keep = (i: number) => (result: ResultOf<J>) => {
      results[i] = result
      const before = known
      while (known in results) known++
      if (known > before) onResult?.(results.slice(0, known))
    }
    const parts = jobs.map((job, i) => this.#ask(job, { lane }, true).then(keep(i)))
    try {
      await Promise.all(parts)
    } catch (error) {
      // One that fails leaves no sense in the others. One that gave way has newer ones of its lane behind it.
      if (!(error instanceof Superseded)) this.cancel(lane)
      await Promise.allSettled(parts)
      throw error
    }
    return results
  }

  #ask<J extends Job>(
    job: J,
    { lane, onProgress }: RunOptions<ResultOf<J>>,
    isPart: boolean,
  ): Promise<ResultOf<J>> {
    return new Promise<ResultOf<J>>((resolve, reject) => {
      const id = this.#nextId++
      this.#queue.push({ id, job, lane, isPart, onProgress, resolve, reject, tries: 0 })
      this.#deal()
    })
  }

  get #isStopped(): boolean {
    return this.#crashes > PAUSES_MS.length
  }

  /** Begins anew after the pool has stopped. */
  again(): void {
    this.#crashes = 0
    this.#hands.length = 0
    this.#deal()
  }

  /** Gives up whatever of this lane waits or runs. */
  cancel(lane: string): void {
    for (const waiting of this.#queue.filter((w) => w.lane === lane))
      waiting.reject(new Superseded())
    this.#queue = this.#queue.filter((w) => w.lane !== lane)
    for (const hand of this.#hands) {
      if (hand.busy?.lane !== lane) continue
      hand.worker?.postMessage({ type: 'cancel', id: hand.busy.id })
      hand.busy.reject(new Superseded())
      this.#rest(hand)
    }
    this.#deal()
  }

  /** Gives up everything and lets the workers go. */
  close(): void {
    const given = [...this.#queue, ...this.#hands.flatMap(({ busy }) => busy ?? [])]
    for (const hand of this.#hands) {
      hand.worker?.terminate()
      this.#rest(hand)
    }
    this.#hands.length = 0
    this.#queue = []
    for (const waiting of given) waiting.reject(new Superseded())
  }

  #deal(): void {
    if (this.#isStopped) return this.#stop()
    while (this.#queue.length > 0) {
      const hand = this.#freeHand()
      const next = hand?.worker && this.#next()
      if (!hand?.worker || !next) return
      hand.busy = next
      hand.unanswered = 0
      hand.beat = setInterval(() => this.#ping(hand), BEAT_MS)
      next.tries++
      hand.worker.postMessage({ type: 'run', id: next.id, job: next.job })
    }
  }

  #rest(hand: Hand): void {
    clearInterval(hand.beat)
    hand.busy = undefined
  }

  #ping(hand: Hand): void {
    if (hand.unanswered++ < MOST_UNANSWERED) hand.worker?.postMessage({ type: 'ping' })
    else this.#replace(hand, 'The simulation no longer answered.')
  }

  /** What waits is told that nothing will come of it. */
  #stop(): void {
    const given = this.#queue
    this.#queue = []
    for (const waiting of given) waiting.reject(new Error(STOPPED))
  }

  #next(): Waiting | undefined {
    const ranks = this.#queue.map(({ lane, isPart }) => 2 * this.#rankOf(lane) + Number(isPart))
    const [next] = this.#queue.splice(ranks.indexOf(Math.min(...ranks)), 1)
    return next
  }

  #freeHand(): Hand | undefined {
    const free = this.#hands.find(({ busy, worker }) => worker && busy === undefined)
    return free ?? (this.#hands.length < this.#size ? this.#hireHand() : undefined)
  }

  #hireHand(): Hand {
    const hand: Hand = { worker: undefined, busy: undefined, unanswered: 0, beat: undefined }
    this.#hands.push(hand)
    this.#give(hand, this.#hire())
    return hand
  }

  #give(hand: Hand, worker: WorkerLike): void {
    hand.worker = worker
    worker.addEventListener('message', ({ data }) => {
      if (hand.worker === worker) this.#hear(hand, data)
    })
    worker.addEventListener('error', ({ message }) => {
      if (hand.worker === worker) this.#replace(hand, message || 'The simulation stopped.')
    })
  }

  #hear(hand: Hand, message: FromWorker): void {
    const { busy } = hand
    this.#crashes = 0
    hand.unanswered = 0
    if (message.type === 'alive') return
    // An answer to a question that was given up is dropped here.
    if (!busy || busy.id !== message.id) return
    if (message.type === 'progress') return busy.onProgress?.(message.progress as Progress<never>)
    this.#rest(hand)
    if (message.type === 'done') busy.resolve(message.result as never)
    else busy.reject(new Error(message.message))
    this.#deal()
  }

  /** A worker that crashed is replaced, and its job tried once more in case the job was not to blame. */
  #replace(hand: Hand, message: string): void {
    const { busy } = hand
    hand.worker?.terminate()
    hand.worker = undefined
    this.#rest(hand)
    if (busy && busy.tries < MOST_TRIES) this.#queue.unshift(busy)
    else busy?.reject(new Error(message))
    const pause = PAUSES_MS[this.#crashes++]
    if (pause === undefined) this.onStopped?.()
    else if (pause > 0) setTimeout(() => this.#revive(hand), pause)
    else this.#give(hand, this.#hire())
    this.#deal()
  }

  /** Unless the pool was closed, or begun anew, in the meantime. */
  #revive(hand: Hand): void {
    if (!this.#hands.includes(hand)) return
    this.#give(hand, this.#hire())
    this.#deal()
  }
}

/** The pool of the page: two workers, hired when they are first needed. */
export function pageClient(): CastClient {
  return new CastClient(
    () =>
      new Worker(new URL('./cast.worker.ts', import.meta.url), {
        type: 'module',
      }),
  )
}
