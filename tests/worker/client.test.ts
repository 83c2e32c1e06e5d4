// @vitest-environment node
import { describe, expect, it, vi } from 'vitest'
import { withSpeed } from '../../src/engine/cast'
import { CastClient, Superseded } from '../../src/worker/client'
import type { Result } from '../../src/worker/protocol'
import { quickCase, soundLeader } from './casts'
import { PuppetWorker } from './inProcess'

const input = quickCase(soundLeader())
const speeds = (...speeds_m_s: number[]) =>
  ({ kind: 'extensions', inputs: speeds_m_s.map((v) => withSpeed(input, v)) }) as const

function hired(size?: number) {
  const workers: PuppetWorker[] = []
  const client = new CastClient(() => {
    const worker = new PuppetWorker()
    workers.push(worker)
    return worker
  }, size)
  return { client, workers }
}

/** What became of a promise: its value, its error, or still nothing. */
function fateOf(promise: Promise<unknown>) {
  const fate: { value?: unknown; error?: Error } = {}
  promise.then(
    (value) => (fate.value = value),
    (error: Error) => (fate.error = error),
  )
  return fate
}
const settle = () => new Promise<void>((resolve) => setTimeout(resolve))

const runsOf = (worker: PuppetWorker | undefined) =>
  (worker?.told ?? []).flatMap((m) => (m.type === 'run' ? [m] : []))
const cancelsOf = (worker: PuppetWorker | undefined) =>
  (worker?.told ?? []).flatMap((m) => (m.type === 'cancel' ? [m.id] : []))

/** Answers the last thing a worker was asked. */
function answer(worker: PuppetWorker | undefined, result: Result) {
  const id = runsOf(worker).at(-1)?.id
  if (!worker || id === undefined) throw new Error('nothing was asked')
  worker.say({ type: 'done', id, result })
}

describe('a pool of workers', () => {
  it('hires nobody before there is work, and no more than it needs', async () => {
    const { client, workers } = hired()
    expect(workers).toHaveLength(0)
    const first = client.run(speeds(5))
    expect(workers).toHaveLength(1)
    answer(workers[0], [0.5])
    await first
    void client.run(speeds(6))
    expect(workers).toHaveLength(1)
  })

  it('works on two jobs at a time, the rest in their order', async () => {
    const { client, workers } = hired()
    const fates = [1, 2, 3, 4].map((v) => fateOf(client.run(speeds(v))))
    expect(workers).toHaveLength(2)
    expect(workers.map((w) => runsOf(w).length)).toEqual([1, 1])
    answer(workers[1], [0.2])
    expect(runsOf(workers[1]).at(-1)?.job).toEqual(speeds(3))
    answer(workers[0], [0.1])
    expect(runsOf(workers[0]).at(-1)?.job).toEqual(speeds(4))
    answer(workers[0], [0.4])
    answer(workers[1], [0.3])
    await settle()
    expect(fates.map(({ value }) => value)).toEqual([[0.1], [0.2], [0.3], [0.4]])
  })

  it('passes progress on, of this job only', async () => {
    const { client, workers } = hired(1)
    const onProgress = vi.fn()
    const running = client.run(speeds(5), { onProgress })
    const [{ id } = { id: -1 }] = runsOf(workers[0])
    const progress = { done: 0.5, partial: [0.7] }
    workers[0]?.say({ type: 'progress', id: id + 1, progress: { done: 0.9, partial: null } })
    workers[0]?.say({ type: 'progress', id, progress })
    expect(onProgress.mock.calls).toEqual([[progress]])
    answer(workers[0], [0.7])
    await running
    workers[0]?.say({ type: 'progress', id, progress })
    expect(onProgress).toHaveBeenCalledTimes(1)
  })

  it('tells a failure by its message and goes on with the next', async () => {
    const { client, workers } = hired(1)
    const [failed, next] = [fateOf(client.run(speeds(1))), fateOf(client.run(speeds(2)))]
    const [{ id } = { id: -1 }] = runsOf(workers[0])
    workers[0]?.say({ type: 'failed', id, message: 'no such chain' })
    answer(workers[0], [0.2])
    await settle()
    expect(failed.error?.message).toBe('no such chain')
    expect(failed.error).not.toBeInstanceOf(Superseded)
    expect(next.value).toEqual([0.2])
    // Only a crash may be the worker's own fault; a failure is the job's and is not tried again.
    expect(runsOf(workers[0])).toHaveLength(2)
  })
})

describe('a lane', () => {
  it('gives the running job up for a newer one, and drops its late answer', async () => {
    const { client, workers } = hired(1)
    const old = fateOf(client.run(speeds(1), { lane: 'live' }))
    const [{ id: oldId } = { id: -1 }] = runsOf(workers[0])
    const fresh = fateOf(client.run(speeds(2), { lane: 'live' }))
    await settle()
    expect(old.error).toBeInstanceOf(Superseded)
    expect(cancelsOf(workers[0])).toEqual([oldId])
    workers[0]?.say({ type: 'progress', id: oldId, progress: { done: 1, partial: [0.1] } })
    workers[0]?.say({ type: 'done', id: oldId, result: [0.1] })
    workers[0]?.say({ type: 'failed', id: oldId, message: 'late' })
    await settle()
    expect(fresh).toEqual({})
    answer(workers[0], [0.2])
    await settle()
    expect(fresh.value).toEqual([0.2])
  })

  it('gives a waiting job up without its ever being sent', async () => {
    const { client, workers } = hired(1)
    void client.run(speeds(0))
    const old = fateOf(client.run(speeds(1), { lane: 'live' }))
    const fresh = fateOf(client.run(speeds(2), { lane: 'live' }))
    answer(workers[0], [0])
    answer(workers[0], [0.2])
    await settle()
    expect(old.error).toBeInstanceOf(Superseded)
    expect(fresh.value).toEqual([0.2])
    expect(runsOf(workers[0]).map(({ job }) => job)).toEqual([speeds(0), speeds(2)])
    expect(cancelsOf(workers[0])).toEqual([])
  })

  it('leaves other lanes and jobs without one alone', async () => {
    const { client, workers } = hired(3)
    const others = [
      fateOf(client.run(speeds(1), { lane: 'band' })),
      fateOf(client.run(speeds(2))),
      fateOf(client.run(speeds(3), { lane: 'live' })),
    ]
    client.cancel('live')
    client.cancel('nobody')
    await settle()
    expect(others.map(({ error }) => error instanceof Superseded)).toEqual([false, false, true])
    expect(workers.map((w) => cancelsOf(w).length)).toEqual([0, 0, 1])
  })

  it('that is cancelled makes room for what waits', () => {
    const { client, workers } = hired(1)
    fateOf(client.run(speeds(1), { lane: 'live' }))
    fateOf(client.run(speeds(2)))
    client.cancel('live')
    expect(runsOf(workers[0]).map(({ job }) => job)).toEqual([speeds(1), speeds(2)])
  })
})

describe('a crash', () => {
  it('replaces the worker, and the job is tried once more', async () => {
    const { client, workers } = hired(1)
    const fate = fateOf(client.run(speeds(1)))
    workers[0]?.crash('out of memory')
    expect(workers[0]?.terminated).toBe(true)
    expect(workers).toHaveLength(2)
    answer(workers[1], [0.1])
    await settle()
    expect(fate.value).toEqual([0.1])
  })

  it('that comes again fails the job with the message, and the next job is still done', async () => {
    const { client, workers } = hired(1)
    const [fate, next] = [fateOf(client.run(speeds(1))), fateOf(client.run(speeds(2)))]
    workers[0]?.crash('first')
    workers[1]?.crash('second')
    await settle()
    expect(fate.error?.message).toBe('second')
    expect(workers).toHaveLength(3)
    answer(workers[2], [0.2])
    await settle()
    expect(next.value).toEqual([0.2])
  })

  it.each([undefined, ''])('without words (%o) is told in ours', async (words) => {
    const { client, workers } = hired(1)
    const fate = fateOf(client.run(speeds(1)))
    workers[0]?.crash(words)
    workers[1]?.crash(words)
    await settle()
    expect(fate.error?.message).toBe('The simulation stopped.')
  })

  it('of a worker without work costs nothing but a new worker', async () => {
    const { client, workers } = hired(1)
    const first = client.run(speeds(1))
    answer(workers[0], [0.1])
    await first
    workers[0]?.crash()
    const second = fateOf(client.run(speeds(2)))
    // The one that crashed is no longer listened to.
    const id = runsOf(workers[1])[0]?.id ?? -1
    workers[0]?.say({ type: 'done', id, result: [0.9] })
    workers[0]?.crash()
    expect(workers).toHaveLength(2)
    answer(workers[1], [0.2])
    await settle()
    expect(second.value).toEqual([0.2])
  })

  it('of a job that was given up does not bring it back', async () => {
    const { client, workers } = hired(1)
    const fate = fateOf(client.run(speeds(1), { lane: 'live' }))
    client.cancel('live')
    workers[0]?.crash('late')
    await settle()
    expect(fate.error).toBeInstanceOf(Superseded)
    expect(runsOf(workers[1])).toEqual([])
  })
})

describe('a worker that cannot be fetched', () => {
  it('is asked for at most six times, with growing pauses, and then it is said', async () => {
    vi.useFakeTimers()
    const { client, workers } = hired(1)
    let stopped = 0
    client.onStopped = () => stopped++
    const fates = [1, 2, 3, 4, 5, 6, 7, 8].map((v) => fateOf(client.run(speeds(v))))
    const asked: number[] = []
    for (let s = 0; s < 60; s++) {
      if (!workers.at(-1)?.terminated) workers.at(-1)?.crash('404')
      asked.push(workers.length)
      await vi.advanceTimersByTimeAsync(1000)
    }
    vi.useRealTimers()
    expect(workers).toHaveLength(6)
    expect([asked[0], asked[59], stopped]).toEqual([2, 6, 1])
    expect(fates.every(({ error }) => error)).toBe(true)
    expect(fates.at(-1)?.error?.message).toContain('does not run')
    expect(fateOf(client.run(speeds(9)))).toEqual({})
    await settle()
    // The button: from now on it is tried again.
    client.again()
    const fate = fateOf(client.run(speeds(10)))
    answer(workers[6], [0.1])
    await settle()
    expect(fate.value).toEqual([0.1])
  })

  it('that falls silent over a job is replaced, and the job done by the next', async () => {
    vi.useFakeTimers()
    const { client, workers } = hired(1)
    const fate = fateOf(client.run(speeds(1)))
    // Slow is not silent.
    for (let i = 0; i < 10; i++) {
      await vi.advanceTimersByTimeAsync(5000)
      workers[0]?.say({ type: 'alive' })
    }
    expect(workers).toHaveLength(1)
    await vi.advanceTimersByTimeAsync(30_000)
    vi.useRealTimers()
    expect(workers).toHaveLength(2)
    answer(workers[1], [0.1])
    await settle()
    expect(fate.value).toEqual([0.1])
  })
})

describe('a pool that is closed', () => {
  it('ends its workers and gives up what runs and what waits', async () => {
    const { client, workers } = hired(2)
    const fates = [1, 2, 3].map((v) => fateOf(client.run(speeds(v))))
    client.close()
    await settle()
    expect(workers.map(({ terminated }) => terminated)).toEqual([true, true])
    for (const { error } of fates) expect(error).toBeInstanceOf(Superseded)
  })
})
