// @vitest-environment node
import { createPinia } from 'pinia'
import type { EffectScope } from 'vue'
import { effectScope, nextTick, shallowRef } from 'vue'
import { afterEach, describe, expect, it, vi } from 'vitest'
import type { Question } from '../../src/worker/spread'
import type { Ways } from '../worker/inProcess'
import { ENGINE_VERSION, withSpeed } from '../../src/engine/cast'
import {
  fingerprintOf,
  MOST_SPARE,
  partOf,
  reasonOf,
  useCasts,
  valueOf,
} from '../../src/stores/casts'
import { CastClient } from '../../src/worker/client'
import { quickCase, soundLeader } from '../worker/casts'
import { inProcessPool, PuppetWorker } from '../worker/inProcess'

const input = quickCase(soundLeader())
const reaching = (...speeds_m_s: number[]) =>
  ({ kind: 'extensions', inputs: speeds_m_s.map((v) => withSpeed(input, v)) }) as const
const flight = (v: number) => ({ kind: 'flight', input: withSpeed(input, v) }) as const
const SOON = { timeout: 20_000 }
const settle = () => new Promise<void>((resolve) => setTimeout(resolve))

const scopes: EffectScope[] = []
afterEach(() => {
  for (const scope of scopes.splice(0)) scope.stop()
})

/** Somebody who asks for as long as it is not stopped. */
function asker<T>(ask: () => T) {
  const scope = effectScope(true)
  scopes.push(scope)
  return { answer: scope.run(ask)!, stop: () => scope.stop() }
}

function standing(ways: Ways = { answers: { extensions: [0.5] } }) {
  const casts = useCasts(createPinia())
  const { pool, asked } = inProcessPool(ways)
  casts.start(pool)
  return { casts, asked }
}

/** One worker that answers when the test says so. */
function puppet() {
  const casts = useCasts(createPinia())
  const worker = new PuppetWorker()
  casts.start(new CastClient(() => worker, 1))
  const runs = () => worker.told.flatMap((m) => (m.type === 'run' ? [m] : []))
  const cancels = () => worker.told.flatMap((m) => (m.type === 'cancel' ? [m.id] : []))
  const finish = async (result = [0.5]) => {
    worker.say({ type: 'done', id: runs().at(-1)?.id ?? -1, result })
    await settle()
  }
  return { casts, runs, cancels, finish }
}

describe('a question', () => {
  it('that is asked twice is flown once, and both have the answer', async () => {
    const { casts, asked } = standing()
    const one = asker(() => casts.ask(() => reaching(5), 'class'))
    const two = asker(() => casts.ask(() => reaching(5), 'brief'))
    expect(one.answer.value).toEqual({ state: 'pending' })
    await vi.waitFor(() => expect(valueOf(one.answer.value)).toEqual([0.5]), SOON)
    expect(two.answer.value).toBe(one.answer.value)
    const three = asker(() => casts.ask(() => reaching(5), 'cast'))
    expect(valueOf(three.answer.value)).toEqual([0.5])
    expect(asked()).toHaveLength(1)
  })

  it('has an answer that says for which case, on which mesh and by which engine', async () => {
    const { casts } = standing()
    const { answer } = asker(() => casts.ask(() => reaching(5), 'class'))
    await vi.waitFor(() => expect(answer.value?.state).toBe('done'), SOON)
    expect(answer.value).toEqual({
      state: 'done',
      value: [0.5],
      fingerprint: fingerprintOf(reaching(5)),
      mesh: 'coarse',
      engineVersion: ENGINE_VERSION,
    })
    expect(ENGINE_VERSION).toBeGreaterThan(0)
  })

  it('may be none, and its answer follows it', async () => {
    const { casts, asked } = standing()
    const v = shallowRef<number>()
    const { answer } = asker(() =>
      casts.ask(() => (v.value ? reaching(v.value) : undefined), 'class'),
    )
    expect(answer.value).toBeUndefined()
    v.value = 5
    expect(answer.value).toEqual({ state: 'pending' })
    await vi.waitFor(() => expect(answer.value?.state).toBe('done'), SOON)
    v.value = 6
    // At once: the answer of another question is not shown under this one.
    expect(answer.value).toEqual({ state: 'pending' })
    await vi.waitFor(() => expect(answer.value?.state).toBe('done'), SOON)
    v.value = 5
    expect(answer.value?.state).toBe('done')
    await nextTick()
    expect(asked()).toHaveLength(2)
  })

  it('of many cases tells what it has so far', async () => {
    const { casts, finish } = puppet()
    const { answer } = asker(() => casts.ask(() => reaching(1, 2, 3, 4, 5), 'class'))
    const seen = [partOf(answer.value)]
    for (const part of [[0.1, 0.2], [0.3, 0.4], [0.5]]) {
      expect(answer.value?.state).toBe('pending')
      await finish(part)
      seen.push(partOf(answer.value))
    }
    expect(answer.value?.state).toBe('done')
    expect(seen).toEqual([undefined, [0.1, 0.2], [0.1, 0.2, 0.3, 0.4], [0.1, 0.2, 0.3, 0.4, 0.5]])
  })

  it('that was asked before there were workers is worked out when they come', async () => {
    const casts = useCasts(createPinia())
    const gone = asker(() => casts.ask(() => reaching(4), 'class'))
    const { answer } = asker(() => casts.ask(() => reaching(5), 'class'))
    gone.stop()
    const { pool, asked } = inProcessPool({ answers: { extensions: [0.5] } })
    casts.start(pool)
    await vi.waitFor(() => expect(answer.value?.state).toBe('done'), SOON)
    expect(asked()).toEqual([reaching(5)])
  })
})

describe('what is flown first', () => {
  it('is what is most urgent, whenever it was asked; of the same urgency what was asked first', async () => {
    const { casts, runs, finish } = puppet()
    const order = ['ahead', 'background', 'ahead', 'class', 'brief', 'bench', 'cast'] as const
    order.forEach((urgency, v) => asker(() => casts.ask(() => flight(v + 1), urgency)))
    for (const _ of order) await finish()
    // The first began when nothing else was there.
    expect(runs().map(({ job }) => job)).toEqual([1, 6, 7, 5, 4, 3, 2].map(flight))
  })

  it('is also what has become urgent since', async () => {
    const { casts, runs, finish } = puppet()
    for (const v of [1, 2, 3]) asker(() => casts.ask(() => flight(v), 'ahead'))
    asker(() => casts.ask(() => flight(3), 'bench'))
    await finish()
    expect(runs().at(-1)?.job).toEqual(flight(3))
  })

  it('of a list is its first', async () => {
    const { casts, runs, finish } = puppet()
    asker(() => casts.askAll(() => [3, 1, 2].map(flight), 'ahead'))
    for (const _ of [1, 2, 3]) await finish()
    expect(runs().map(({ job }) => job)).toEqual([3, 1, 2].map(flight))
  })
})

describe('a question that nobody asks any more', () => {
  it('is stopped, once the last has let it go', async () => {
    const { casts, runs, cancels } = puppet()
    const [one, two] = [1, 2].map(() => asker(() => casts.ask(() => flight(5), 'class')))
    one?.stop()
    expect(cancels()).toEqual([])
    two?.stop()
    expect(cancels()).toEqual(runs().map(({ id }) => id))
    await settle()
    expect(casts.answerTo(flight(5))).toEqual({ state: 'pending' })
  })

  it('makes room at once for the one that takes its place', async () => {
    const { casts, runs, cancels } = puppet()
    const v = shallowRef(5)
    asker(() => casts.ask(() => flight(v.value), 'bench'))
    v.value = 6
    await nextTick()
    expect(cancels()).toHaveLength(1)
    expect(runs().map(({ job }) => job)).toEqual([5, 6].map(flight))
  })

  it('leaves those of its list alone that are still asked', async () => {
    const { casts, runs, cancels } = puppet()
    const list = shallowRef([5, 6, 7])
    asker(() => casts.askAll(() => list.value.map(flight), 'ahead'))
    list.value = [5, 7]
    await nextTick()
    expect(cancels()).toEqual([])
    expect(runs()).toHaveLength(1)
  })
})

describe('the answers that are kept', () => {
  const isKept = (casts: ReturnType<typeof useCasts>, v: number) =>
    casts.answerTo(reaching(v)).state === 'done'

  it('are as many as are stated beside those that are asked; the least recently wanted goes first', async () => {
    const { casts } = standing()
    const held = asker(() => casts.ask(() => reaching(1), 'class'))
    const list = shallowRef<readonly Question[]>(
      Array.from({ length: MOST_SPARE }, (_, k) => reaching(k + 2)),
    )
    asker(() => casts.askAll(() => list.value, 'ahead'))
    const last = MOST_SPARE + 1
    await vi.waitFor(() => expect(isKept(casts, last)).toBe(true), SOON)
    list.value = []
    await nextTick()
    expect([1, 2, 3, last].map((v) => isKept(casts, v))).toEqual([true, true, true, true])
    // The oldest is wanted again, so another is the oldest when one more comes.
    asker(() => casts.ask(() => reaching(2), 'class')).stop()
    held.stop()
    expect([1, 2, 3, 4].map((v) => isKept(casts, v))).toEqual([true, true, false, true])
  })
})

describe('a question that fails', () => {
  it('says why, is not tried again by itself, and is when it is asked anew', async () => {
    const answers: { extensions: Error | number[] } = { extensions: new Error('no such chain') }
    const { casts, asked } = standing({ answers })
    const one = asker(() => casts.ask(() => reaching(5), 'class'))
    await vi.waitFor(() => expect(reasonOf(one.answer.value)).toBe('no such chain'), SOON)
    const two = asker(() => casts.ask(() => reaching(5), 'class'))
    await settle()
    expect(two.answer.value?.state).toBe('failed')
    expect(asked()).toHaveLength(1)
    one.stop()
    two.stop()
    answers.extensions = [0.5]
    const again = asker(() => casts.ask(() => reaching(5), 'class'))
    expect(again.answer.value).toEqual({ state: 'pending' })
    await vi.waitFor(() => expect(valueOf(again.answer.value)).toEqual([0.5]), SOON)
  })

  it('by a dead worker is tried once more', async () => {
    const workers: PuppetWorker[] = []
    const casts = useCasts(createPinia())
    const hire = () => {
      const worker = new PuppetWorker()
      workers.push(worker)
      return worker
    }
    casts.start(new CastClient(hire, 1))
    const { answer } = asker(() => casts.ask(() => flight(5), 'bench'))
    workers[0]?.crash()
    await settle()
    expect(answer.value?.state).toBe('pending')
    workers[1]?.crash()
    await settle()
    expect(reasonOf(answer.value)).toBe('The simulation stopped.')
  })
})
