// @vitest-environment node
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest'
import type { FromWorker, ToWorker } from '../../src/worker/protocol'
import type { WorkerLike } from '../../src/worker/client'
import { CastClient, Superseded } from '../../src/worker/client'
import { stepsOf } from '../../src/worker/jobs'
import { quickCase, soundLeader } from './casts'
import { sought, withSpeed } from '../../src/engine/cast'

/** The real shell behind a channel that, like the one between threads, copies and is late. */
class Channel implements WorkerLike {
  readonly fromShell: FromWorker[] = []
  readonly #toShell: ((event: { data: ToWorker }) => void)[] = []
  readonly #toPage: ((event: { data: FromWorker }) => void)[] = []

  async open() {
    vi.stubGlobal('self', {
      addEventListener: (_: string, listener: (event: { data: ToWorker }) => void) =>
        this.#toShell.push(listener),
      postMessage: (message: FromWorker) => {
        this.fromShell.push(message)
        const data = structuredClone(message)
        setTimeout(() => this.#toPage.forEach((listener) => listener({ data })))
      },
    })
    vi.resetModules()
    await import('../../src/worker/cast.worker')
  }

  postMessage(message: ToWorker) {
    const data = structuredClone(message)
    setTimeout(() => this.#toShell.forEach((listener) => listener({ data })))
  }
  addEventListener(type: 'message' | 'error', listener: (event: never) => void) {
    if (type === 'message') this.#toPage.push(listener as (event: { data: FromWorker }) => void)
  }
  terminate() {
    this.#toShell.length = 0
  }
}

let channel: Channel
let client: CastClient

beforeEach(async () => {
  channel = new Channel()
  await channel.open()
  client = new CastClient(() => channel, 1)
})
afterEach(() => vi.unstubAllGlobals())

const input = quickCase(soundLeader())
/** So many flights in one job. */
const many = (count: number) => {
  const inputs = Array.from({ length: count }, (_, i) => withSpeed(input, 6 + i / 100))
  return { kind: 'extensions', inputs } as const
}

describe('client and shell over a channel', () => {
  it('bring back what the job says when it is done here, frames and ledger included', async () => {
    const job = { kind: 'flight', input } as const
    const flown = await client.run(job)
    expect(flown).toEqual(sought(stepsOf(job)))
    expect(flown.frames[3]?.x).toBeInstanceOf(Float32Array)
  })

  it('bring every step of progress, in order, before the result', async () => {
    const shares: number[] = []
    const found = await client.run(many(12), { onProgress: ({ done }) => shares.push(done) })
    expect(shares).toEqual(Array.from({ length: 12 }, (_, i) => (i + 1) / 12))
    expect(found).toHaveLength(12)
  })

  it('stop a job halfway for a newer one of its lane', async () => {
    const superseded = client.run(many(500), { lane: 'many' })
    const given = expect(superseded).rejects.toBeInstanceOf(Superseded)
    await vi.waitFor(() => expect(channel.fromShell.length).toBeGreaterThan(1), 20_000)
    const found = await client.run(many(2), { lane: 'many' })
    await given
    expect(found).toHaveLength(2)
    const { length } = channel.fromShell
    await new Promise((resolve) => setTimeout(resolve, 30))
    // Silence after the cancelled job: it is not computed on in secret.
    expect(channel.fromShell).toHaveLength(length)
    expect(length).toBeLessThan(100)
  })

  it('tell what a job threw', async () => {
    const nothing = { ...input, segments: undefined } as unknown as typeof input
    await expect(client.run({ kind: 'flight', input: nothing })).rejects.toThrow(
      /segments|undefined/,
    )
    // What one job broke, the next does not feel.
    expect(await client.run(many(1))).toHaveLength(1)
  })
})
