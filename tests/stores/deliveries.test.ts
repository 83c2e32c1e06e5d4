// @vitest-environment node
import 'fake-indexeddb/auto'
import { IDBFactory } from 'fake-indexeddb'
import { createPinia, setActivePinia } from 'pinia'
import { effectScope, nextTick, shallowRef } from 'vue'
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest'
import type { Leader } from '../../src/engine/leader'
import type { Goal } from '../../src/engine/whatHelps'
import type { Job } from '../../src/worker/protocol'
import type { Ways } from '../worker/inProcess'
import { deliveryOf } from '../../src/engine/delivery'
import { applyEdit, setDiameter } from '../../src/engine/leader'
import { quantityOf } from '../../src/engine/units'
import { useBenchDelivery } from '../../src/stores/benchDelivery'
import { useCasts } from '../../src/stores/casts'
import { useWhatHelps } from '../../src/stores/deliveries'
import { useItems } from '../../src/stores/items'
import { overloadedLeader, soundLeader } from '../worker/casts'
import { easyFlight } from '../worker/easyFlight'
import { inProcessPool } from '../worker/inProcess'
import { closeTabs, FIRST, openTab, storesOf } from './tab'

beforeEach(() => {
  vi.stubGlobal('indexedDB', new IDBFactory())
})
const pools: { close: () => void }[] = []
afterEach(async () => {
  // What a test leaves under way would slow the next ones down, since all fly in this one thread.
  for (const pool of pools.splice(0)) pool.close()
  await closeTabs()
  vi.unstubAllGlobals()
})

function casting(ways: Ways = {}) {
  const pinia = createPinia()
  const stores = storesOf(pinia)
  const deliveries = useBenchDelivery(pinia)
  const { pool, asked } = inProcessPool({ flying: easyFlight, ...ways })
  pools.push(pool)
  const begin = () => {
    useCasts(pinia).start(pool)
    stores.bench.readDeliveries(deliveries)
  }
  return { ...stores, deliveries, asked, begin, pinia }
}
type Bench = ReturnType<typeof casting>['bench']

const delivered = (bench: Bench) => deliveryOf(bench.judgement)
const judged = (bench: Bench) =>
  vi.waitFor(() => expect(delivered(bench)).toBeDefined(), { timeout: 20_000 })
/** So many leaders have been thrown. */
const thrown = (asked: () => readonly Job[]) => {
  const inputs = asked().flatMap((job) => (job.kind === 'errand' ? [job.asked.input] : []))
  return new Set(inputs.map((input) => JSON.stringify(input))).size
}
const findings = (bench: Bench) =>
  bench.evaluation.checks.findings.filter(({ id }) => id === 'turnover')

const thicker = (leader: Leader) => setDiameter(leader, 2, quantityOf(0.0008, 'diameter', 'mm'))
const noted = (leader: Leader) => ({ ...leader, notes: `${leader.notes ?? ''}!` })
const bareOf = (leader: Leader): Leader => ({ ...leader, tip: { joint: leader.tip.joint } })

/** A turn of the event loop in which nothing is flown yet. */
const turn = async () => {
  await nextTick()
  await new Promise((resolve) => setTimeout(resolve, 0))
}

describe('following the bench', () => {
  it('says that it is checking until the leader on it has been thrown, and never another number', async () => {
    const { bench, begin } = casting()
    expect(bench.judgement).toEqual({ kind: 'checking' })
    begin()
    expect(bench.judgement).toEqual({ kind: 'checking' })
    await judged(bench)
    expect(delivered(bench)).toMatchObject({ state: 'easily', usual_m_s: 12, greatest_m_s: 16 })
    expect(bench.evaluation.checks.passed).toContain('turnover')
  })

  it('throws it anew after a diameter has changed, and shows no stale verdict meanwhile', async () => {
    const { bench, begin } = casting()
    begin()
    await judged(bench)
    const before = delivered(bench)?.least?.lineSpeed_m_s
    bench.edit('diameter', thicker)
    expect(bench.judgement).toEqual({ kind: 'checking' })
    expect(bench.evaluation.checks.passed).not.toContain('turnover')
    await judged(bench)
    expect(delivered(bench)?.least?.lineSpeed_m_s).toBeGreaterThan(before ?? Infinity)
  })

  it('asks only once for many edits made at once', async () => {
    const { bench, asked, begin } = casting()
    begin()
    await judged(bench)
    const before = thrown(asked)
    bench.edit('one', thicker)
    bench.edit('two', (leader) => setDiameter(leader, 1, quantityOf(0.0009, 'diameter', 'mm')))
    await judged(bench)
    expect(thrown(asked)).toBe(before + 1)
  })

  it('has the old verdict back at once by undo, since it is of that very leader', async () => {
    const { bench, asked, begin } = casting()
    bench.edit('begin a copy', noted)
    begin()
    await judged(bench)
    const [run, before] = [delivered(bench), asked().length]
    bench.edit('one', thicker)
    expect(delivered(bench)).toBeUndefined()
    bench.undo()
    expect(delivered(bench)).toBe(run)
    await turn()
    expect(asked()).toHaveLength(before)
  })

  it('keeps the verdict under an edit that no cast feels', async () => {
    const { bench, asked, begin } = casting()
    bench.edit('begin a copy', noted)
    begin()
    await judged(bench)
    const [run, before] = [delivered(bench), asked().length]
    bench.edit('notes', noted)
    bench.edit('name', (leader) => ({ ...leader, name: 'Evening rise' }))
    await turn()
    expect(delivered(bench)).toBe(run)
    expect(asked()).toHaveLength(before)
  })
})

describe('a leader that fails', () => {
  const failing = () => ({ ...overloadedLeader(), name: 'Middle Sallow riffles 9 ft 5X' })

  it('is a fault with what mends it, thrown; one that is applied does away with it', async () => {
    const { bench, begin } = casting()
    bench.edit('all', failing())
    begin()
    await judged(bench)
    expect(findings(bench)).toMatchObject([{ variant: 'will-not-go-over', severity: 'fault' }])
    await vi.waitFor(() => expect(findings(bench)[0]?.remedies.length).toBeGreaterThan(0), 20_000)
    // By this law nothing but a smaller fly mends it.
    const [remedy] = findings(bench)[0]!.remedies
    expect(remedy?.id).toBe('smaller-fly')
    bench.apply('remedy', remedy!.edit)
    await judged(bench)
    expect(findings(bench)).toEqual([])
  })

  it('is asked nothing more of where it goes over', async () => {
    const { bench, asked, begin } = casting()
    begin()
    await judged(bench)
    await new Promise((resolve) => setTimeout(resolve, 50))
    // It is its own yardstick, and no change of it is thrown.
    expect(thrown(asked)).toBe(1)
  })
})

describe('casts that fail', () => {
  it('by an error are said, without a state and without a finding', async () => {
    const { bench, begin } = casting({ answers: { errand: new Error('no such chain') } })
    begin()
    await vi.waitFor(() =>
      expect(bench.judgement).toEqual({ kind: 'not-flown', reason: 'no such chain' }),
    )
    expect(findings(bench)).toEqual([])
    expect(bench.evaluation.checks.passed).not.toContain('turnover')
  })

  it('by a flight that does not converge are no collapse', async () => {
    const status = 'did not converge at 0.1 s'
    const { bench, begin } = casting({ flying: (...of) => ({ ...easyFlight(...of), status }) })
    begin()
    await vi.waitFor(() => expect(bench.judgement).toEqual({ kind: 'not-flown', reason: status }))
    expect(findings(bench)).toEqual([])
  })
})

describe('a leader that cannot be cast in a loop', () => {
  it.each<[string, string, (leader: Leader) => Leader]>([
    ['without a fly', 'no-fly', bareOf],
    ['without a line', 'no-line', ({ outfit: { line: _, ...outfit }, ...l }) => ({ ...l, outfit })],
    ['on a tight line', 'lobbed', (l) => ({ ...l, purpose: 'tight-line-nymph' })],
  ])('%s is told so', async (_, because, change) => {
    const { bench, begin } = casting()
    bench.edit('change', change)
    begin()
    await turn()
    expect(bench.judgement).toEqual({ kind: 'not-asked', because })
    expect(findings(bench)).toEqual([])
  })

  it('gives up what is under way', async () => {
    const { bench, asked, begin } = casting()
    begin()
    await nextTick()
    bench.edit('no fly', bareOf)
    await turn()
    const before = asked().length
    await new Promise((resolve) => setTimeout(resolve, 100))
    expect(bench.judgement).toEqual({ kind: 'not-asked', because: 'no-fly' })
    // The yardstick alone is still thrown.
    expect(asked().length).toBeGreaterThanOrEqual(before)
  })
})

describe('the yardstick', () => {
  const ranked = (bench: Bench) =>
    vi.waitFor(() => expect(bench.yardstick).toBeDefined(), { timeout: 20_000 })

  it('is the first shipped leader, with the name it goes by', async () => {
    const { bench, begin } = casting()
    bench.edit('a copy', noted)
    begin()
    await ranked(bench)
    // Nothing that a cast feels was changed, so both ask for the same power.
    expect(bench.yardstick).toEqual({ name: 'Middle Sallow riffles 9 ft 5X', rank: 'as' })
  })

  it('is not compared with itself', async () => {
    const { bench, begin } = casting()
    begin()
    await judged(bench)
    await turn()
    expect(bench.id).toBe(FIRST)
    expect(bench.yardstick).toBeUndefined()
    // The first edit makes an own copy, and that is compared.
    bench.edit('one', (leader) =>
      leader.segments.reduce(
        (thick, _, i) => setDiameter(thick, i, quantityOf(0.0011, 'diameter', 'mm')),
        leader,
      ),
    )
    await ranked(bench)
    expect(bench.yardstick?.rank).toBe('harder')
  })

  it('of the user’s own is thrown when its leader arrives after its name', async () => {
    const tab = await openTab()
    tab.bench.edit('own', () => ({ ...soundLeader(), name: 'My best' }))
    await tab.bench.settled()
    const id = tab.bench.id
    tab.bench.open(FIRST)
    tab.settings.change({ yardstick: id })
    await vi.waitFor(async () =>
      expect(await tab.storage.readSettings()).toMatchObject({ yardstick: id }),
    )
    // Settings before library: its id is known before there is a leader by that id.
    const { bench, library, settings, begin, pinia } = casting()
    bench.edit('a copy', noted)
    begin()
    await settings.start(Promise.resolve(tab.storage))
    expect(settings.yardstick).toBe(id)
    await judged(bench)
    expect(bench.yardstick).toBeUndefined()
    await useItems(pinia).start(Promise.resolve(tab.storage))
    await library.start()
    await vi.waitFor(() => expect(bench.yardstick?.name).toBe('My best'), { timeout: 20_000 })
  })

  it('that is gone or cannot be cast compares with nothing', async () => {
    const { bench, settings, begin } = casting()
    bench.edit('a copy', noted)
    begin()
    await ranked(bench)
    settings.change({ yardstick: 'gone' })
    await nextTick()
    expect(bench.yardstick).toBeUndefined()
  })
})

describe('what would help', () => {
  it('is thrown change by change, ranked by the goal that is asked for', async () => {
    const { pinia, begin } = casting()
    begin()
    const goal = shallowRef<Goal>('less-power')
    const scope = effectScope()
    const leader = soundLeader()
    setActivePinia(pinia)
    const helping = scope.run(() =>
      useWhatHelps(
        () => leader,
        () => ({}),
        () => goal.value,
      ),
    )!
    await vi.waitFor(
      () => {
        expect(helping.value.of).toBeGreaterThan(3)
        expect(helping.value.thrown).toBe(helping.value.of)
      },
      { timeout: 20_000 },
    )
    const gains = helping.value.helps.map(({ gain }) => gain)
    expect(gains).toEqual(gains.toSorted((a, b) => b - a))
    // By this law every cast comes over at its best, so no change brings more casts.
    goal.value = 'more-casts'
    expect(helping.value.helps).toEqual([])
    for (const { remedy } of helping.value.helps)
      expect(applyEdit(leader, remedy.edit)).toBeTruthy()
    scope.stop()
  })
})
