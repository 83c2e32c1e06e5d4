// @vitest-environment node
import 'fake-indexeddb/auto'
import { IDBFactory } from 'fake-indexeddb'
import { createPinia } from 'pinia'
import { nextTick } from 'vue'
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest'
import type { Leader } from '../../src/engine/leader'
import { applyEdit, setDiameter, tippetIndex } from '../../src/engine/leader'
import { quantityOf } from '../../src/engine/units'
import type { Ways } from '../worker/inProcess'
import { STRAIGHT_EXTENSION, caseOf, turnsOver } from '../../src/engine/cast'
import { fingerprintOf, useCasts } from '../../src/stores/casts'
import { useLiveCast } from '../../src/stores/liveCast'
import { useItems } from '../../src/stores/items'
import { overloadedLeader, soundLeader } from '../worker/casts'
import { inProcessPool } from '../worker/inProcess'
import { closeTabs, FIRST, openTab, storesOf } from './tab'

beforeEach(() => {
  vi.stubGlobal('indexedDB', new IDBFactory())
})
afterEach(async () => {
  await closeTabs()
  vi.unstubAllGlobals()
})

/** Stores whose casts are flown in this process; without bands, which take their time, unless asked for. */
/** What a test leaves under way would slow the next ones down, since all fly in this one thread. */
const pools: { close: () => void }[] = []
afterEach(() => {
  for (const pool of pools.splice(0)) pool.close()
})

function casting(ways: Ways = { silent: ['band'] }) {
  const pinia = createPinia()
  const stores = storesOf(pinia)
  const casts = useLiveCast(pinia)
  const { pool, asked } = inProcessPool(ways)
  pools.push(pool)
  const begin = () => {
    useCasts(pinia).start(pool)
    stores.bench.readCasts(casts)
  }
  return { ...stores, casts, pool, asked, begin }
}

const flown = (bench: { readonly simulated: unknown }) =>
  vi.waitFor(() => expect(bench.simulated).toBeDefined(), { timeout: 20_000 })
const kinds = (asked: () => readonly { kind: string }[]) => asked().map(({ kind }) => kind)
const verdictsOf = (asked: () => readonly { kind: string }[]) =>
  kinds(asked).filter((kind) => kind === 'verdict').length

/** The question that the bench asks of a leader. */
function verdictOn(leader: Leader) {
  const input = caseOf(leader, { mesh: 'usual' })
  if (typeof input === 'string') throw new Error(input)
  return { kind: 'verdict', input, target: STRAIGHT_EXTENSION, searchMesh: 'coarse' } as const
}

const thicker = (leader: Leader) => setDiameter(leader, 2, quantityOf(0.0005, 'diameter', 'mm'))
const noted = (leader: Leader) => ({ ...leader, notes: `${leader.notes ?? ''}!` })

/** A turn of the event loop in which nothing is flown yet. */
const turn = async () => {
  await nextTick()
  await new Promise((resolve) => setTimeout(resolve, 0))
}

describe('following the bench', () => {
  it('flies the leader on it, by the case of that leader', async () => {
    const { bench, casts, begin } = casting()
    expect(bench.simulated).toBeUndefined()
    begin()
    await flown(bench)
    expect(bench.simulated?.fingerprint).toBe(fingerprintOf(verdictOn(bench.leader)))
    expect(bench.simulated?.turnover).toMatchObject({ lineSpeed_m_s: 12, band: null })
    expect(bench.simulated?.turnover.extension).toBeGreaterThan(STRAIGHT_EXTENSION)
    expect(casts.problem).toBeUndefined()
  })

  it('flies it anew after a diameter has changed, and shows no stale run meanwhile', async () => {
    const { bench, begin } = casting()
    begin()
    await flown(bench)
    const before = bench.simulated
    bench.edit('diameter', thicker)
    expect(bench.simulated).toBeUndefined()
    await nextTick()
    expect(bench.simulated).toBeUndefined()
    await flown(bench)
    expect(bench.simulated?.fingerprint).not.toBe(before?.fingerprint)
    expect(bench.simulated?.leader).toBe(bench.leader)
    expect(bench.simulated?.turnover.leastSpeed_m_s).not.toBe(before?.turnover.leastSpeed_m_s)
  })

  it('judges by the flight once it is in, and by the estimate until then', async () => {
    const { bench, begin } = casting({
      // At once: parts that are never answered would hold both workers.
      answers: { band: [8, 8, 8, 8, 8] },
    })
    bench.edit('all', overloadedLeader())
    const variant = () =>
      bench.evaluation.checks.findings.find(({ id }) => id === 'turnover')?.variant
    expect(variant()).not.toMatch(/flown/)
    begin()
    await flown(bench)
    expect(variant()).toBe('flown-lazy')
  })

  it('asks only once for many edits made at once', async () => {
    const { bench, asked, begin } = casting()
    begin()
    await flown(bench)
    const before = verdictsOf(asked)
    bench.edit('one', thicker)
    bench.edit('two', (leader) => setDiameter(leader, 1, quantityOf(0.0006, 'diameter', 'mm')))
    await flown(bench)
    expect(verdictsOf(asked)).toBe(before + 1)
  })

  it('gives a flight up when the next edit comes before it is in', async () => {
    const { bench, begin } = casting()
    begin()
    await flown(bench)
    bench.edit('one', thicker)
    await nextTick()
    bench.edit('two', overloadedLeader())
    await flown(bench)
    expect(bench.simulated?.turnover.extension).toBeLessThan(STRAIGHT_EXTENSION)
    await turn()
    expect(bench.simulated?.leader).toBe(bench.leader)
  })

  it('has the old run back at once by undo, since it is of that very leader', async () => {
    const { bench, asked, begin } = casting()
    bench.edit('begin a copy', noted)
    begin()
    await flown(bench)
    const [run, before] = [bench.simulated, verdictsOf(asked)]
    bench.edit('one', thicker)
    expect(bench.simulated).toBeUndefined()
    bench.undo()
    expect(bench.simulated).toEqual(run)
    expect(verdictsOf(asked)).toBe(before)
  })
})

describe('an edit that no cast feels', () => {
  it('keeps the run, for the leader as it now is', async () => {
    const { bench, asked, begin } = casting()
    bench.edit('begin a copy', noted)
    begin()
    await flown(bench)
    const [run, before] = [bench.simulated, verdictsOf(asked)]
    bench.edit('notes', noted)
    bench.edit('name', (leader) => ({ ...leader, name: 'Evening rise' }))
    await turn()
    expect(bench.simulated?.turnover).toBe(run?.turnover)
    expect(bench.simulated?.leader.name).toBe('Evening rise')
    expect(verdictsOf(asked)).toBe(before)
  })

  it('made while the cast is in the air does not lose it', async () => {
    const { bench, asked, begin } = casting()
    bench.edit('begin a copy', noted)
    begin()
    await nextTick()
    bench.edit('notes', noted)
    await flown(bench)
    expect(bench.simulated?.leader).toBe(bench.leader)
    expect(asked().filter(({ kind }) => kind === 'verdict').length).toBeLessThanOrEqual(2)
  })
})

describe('what follows the verdict', () => {
  it('are the cures, then the band, each without losing what is there', async () => {
    const { bench, asked, begin } = casting({})
    bench.edit('all', overloadedLeader({ name: bench.leader.name }))
    begin()
    await flown(bench)
    const { leastSpeed_m_s } = bench.simulated!.turnover
    await vi.waitFor(() => expect(bench.simulated?.cures.length).toBeGreaterThan(0), 20_000)
    await vi.waitFor(() => expect(bench.simulated?.turnover.band).toBeTruthy(), { timeout: 50_000 })
    expect(new Set(kinds(asked).filter((kind) => kind !== 'verdict'))).toEqual(
      new Set(['cures', 'band']),
    )
    expect(bench.simulated).toMatchObject({ turnover: { leastSpeed_m_s } })
    for (const { edit } of bench.simulated!.cures)
      expect(turnsOver(applyEdit(bench.leader, edit), { mesh: 'usual' })).toBe(true)
    // Offered at the finding, and one that is applied does away with it.
    const finding = bench.evaluation.checks.findings.find(({ id }) => id === 'turnover')
    expect(finding?.remedies).toEqual(bench.simulated?.cures)
    bench.apply('remedy', finding!.remedies[0]!.edit)
    await flown(bench)
    expect(bench.evaluation.checks.findings.filter(({ id }) => id === 'turnover')).toEqual([])
  })

  it('are sought again when the limits change, which no flight feels', async () => {
    const { bench, settings, asked, begin } = casting({ answers: { band: [11, 13] } })
    bench.edit('all', overloadedLeader({ name: bench.leader.name }))
    begin()
    await vi.waitFor(() => expect(bench.simulated?.cures.length).toBeGreaterThan(0), 20_000)
    const [run, before] = [bench.simulated!.turnover, verdictsOf(asked)]
    const cures = () => kinds(asked).filter((kind) => kind === 'cures').length
    const sought = cures()
    settings.change({ limits: { ...settings.limits, tippetShortest: 0.6 } })
    await vi.waitFor(() => expect(cures()).toBeGreaterThan(sought), 20_000)
    await vi.waitFor(() => expect(bench.simulated?.cures.length).toBeGreaterThan(0), 20_000)
    expect(bench.simulated?.turnover.leastSpeed_m_s).toBe(run.leastSpeed_m_s)
    expect(verdictsOf(asked)).toBe(before)
  })

  it('shows a band as it grows', async () => {
    const { bench, begin } = casting({})
    begin()
    await vi.waitFor(() => expect(bench.simulated?.turnover.band).toBeTruthy(), {
      timeout: 20_000,
      interval: 1,
    })
    const { samples, probability } = bench.simulated!.turnover.band!
    expect(samples).toBeLessThan(60)
    expect(samples).toBeGreaterThanOrEqual(30)
    expect(probability).toBeGreaterThan(0.5)
    bench.edit('stop it', overloadedLeader())
    await turn()
  })

  it('are no cures of a leader that turns over', async () => {
    const { bench, asked, begin } = casting()
    begin()
    await flown(bench)
    await turn()
    expect(kinds(asked)).not.toContain('cures')
    expect(kinds(asked)).toContain('band')
  })

  it('is of this leader: a band that is late is not put under the next one', async () => {
    const { bench, begin } = casting({})
    begin()
    await flown(bench)
    bench.edit('all', overloadedLeader())
    await flown(bench)
    await turn()
    const { band, extension } = bench.simulated!.turnover
    expect(extension).toBeLessThan(STRAIGHT_EXTENSION)
    expect(band).toBeNull()
    bench.edit('stop it', (leader) => ({ ...leader, tip: { joint: leader.tip.joint } }))
    await turn()
  })
})

describe('a simulation that fails', () => {
  const turnoverOf = (bench: ReturnType<typeof casting>['bench']) => bench.evaluation.turnover

  it('by an error leaves the estimate and says so', async () => {
    const { bench, casts, begin } = casting({ answers: { verdict: new Error('no such chain') } })
    const estimate = turnoverOf(bench)
    begin()
    await vi.waitFor(() => expect(casts.problem).toContain('no such chain'))
    expect(casts.problem).toContain('the estimate stands')
    expect(bench.simulated).toBeUndefined()
    expect(turnoverOf(bench)).toBe(estimate)
  })

  it('by a flight that does not converge is no collapse', async () => {
    const verdict = {
      status: 'did not converge at 0.1 s',
      extension: 0,
      flySpeedAtTurn_m_s: null,
      leastSpeed_m_s: null,
    }
    const { bench, casts, begin } = casting({ answers: { verdict } })
    begin()
    await vi.waitFor(() => expect(casts.problem).toContain('did not converge at 0.1 s'))
    expect(bench.simulated).toBeUndefined()
    expect(bench.evaluation.checks.findings).toEqual([])
    expect(casts.yardstick).toBeUndefined()
  })

  it('is forgotten when the next leader flies, or cannot be flown at all', async () => {
    const ways = { silent: ['band'], answers: { verdict: new Error('no') } } as {
      silent: ['band']
      answers: { verdict?: Error }
    }
    const { bench, casts, begin } = casting(ways)
    begin()
    await vi.waitFor(() => expect(casts.problem).toBeDefined())
    delete ways.answers.verdict
    bench.edit('one', thicker)
    await flown(bench)
    expect(casts.problem).toBeUndefined()
    ways.answers.verdict = new Error('again')
    bench.edit('two', overloadedLeader())
    await vi.waitFor(() => expect(casts.problem).toContain('again'))
    bench.edit('no fly', (leader) => ({ ...leader, tip: { joint: leader.tip.joint } }))
    await nextTick()
    expect(casts.problem).toBeUndefined()
  })
})

describe('a leader that cannot be cast in a loop', () => {
  const NOT: [string, (leader: Leader) => Leader][] = [
    ['without a fly', (l) => ({ ...l, tip: { joint: l.tip.joint } })],
    ['without a line', ({ outfit, ...l }) => ({ ...l, outfit: without(outfit, 'line') })],
    ['on a tight line', (l) => ({ ...l, purpose: 'tight-line-nymph' })],
  ]

  it.each(NOT)('%s is not simulated', async (_, change) => {
    const { bench, casts, asked, begin } = casting()
    bench.edit('change', change)
    begin()
    await vi.waitFor(() => expect(verdictsOf(asked)).toBe(1))
    await turn()
    // The one verdict is the yardstick's.
    expect(asked()[0]).toMatchObject({ input: caseOf(shippedLeader(), { mesh: 'usual' }) })
    expect(bench.simulated).toBeUndefined()
    expect(casts.problem).toBeUndefined()
  })

  it('gives up the flight that is under way', async () => {
    const { bench, begin } = casting()
    begin()
    await nextTick()
    bench.edit('no fly', (leader) => ({ ...leader, tip: { joint: leader.tip.joint } }))
    await turn()
    await turn()
    await new Promise((resolve) => setTimeout(resolve, 200))
    expect(bench.simulated).toBeUndefined()
  })
})

function without<T extends object, K extends keyof T>(whole: T, key: K): Omit<T, K> {
  const { [key]: _, ...rest } = whole
  return rest
}

function shippedLeader(): Leader {
  const leader = casting().library.leaderOf(FIRST)
  if (!leader) throw new Error('no shipped leader')
  return leader
}

describe('the yardstick', () => {
  it('is the first shipped leader, measured, with the name it goes by', async () => {
    const { bench, casts, begin } = casting()
    bench.edit('a copy', noted)
    begin()
    await flown(bench)
    await vi.waitFor(() => expect(bench.simulated?.yardstick).toBeDefined())
    expect(bench.simulated?.yardstick).toEqual(casts.yardstick)
    expect(casts.yardstick?.name).toBe('Middle Sallow riffles 9 ft 5X')
    // Nothing that a cast feels was changed, so both need the same speed.
    expect(casts.yardstick?.least_m_s).toBe(bench.simulated?.turnover.leastSpeed_m_s)
  })

  it('is not compared with itself', async () => {
    const { bench, casts, asked, begin } = casting()
    begin()
    await flown(bench)
    await turn()
    // The same cast is asked for twice, and flown once.
    expect(verdictsOf(asked)).toBe(1)
    expect(bench.id).toBe(FIRST)
    expect(bench.simulated?.yardstick).toBeUndefined()
    expect(casts.yardstick).toBeUndefined()
    // The first edit makes an own copy, and that is compared.
    bench.edit('one', thicker)
    await flown(bench)
    expect(bench.simulated?.yardstick?.name).toBe('Middle Sallow riffles 9 ft 5X')
  })

  it('of the user’s own is measured when its leader arrives after its name, and after each edit', async () => {
    const tab = await openTab()
    tab.bench.edit('own', () => ({ ...overloadedLeader(), name: 'My best' }))
    await tab.bench.settled()
    const id = tab.bench.id
    tab.bench.open(FIRST)
    tab.settings.change({ yardstick: id })
    await vi.waitFor(async () =>
      expect(await tab.storage.readSettings()).toMatchObject({ yardstick: id }),
    )

    // Settings before library: its id is known before there is a leader by that id.
    const { bench, library, settings, casts, begin } = casting({ silent: ['band', 'cures'] })
    bench.edit('a copy', noted)
    begin()
    await settings.start(Promise.resolve(tab.storage))
    expect(settings.yardstick).toBe(id)
    await nextTick()
    expect(casts.yardstick).toBeUndefined()
    await useItems().start(Promise.resolve(tab.storage))
    await library.start()
    await vi.waitFor(() => expect(casts.yardstick?.name).toBe('My best'), { timeout: 50_000 })
    const least = casts.yardstick?.least_m_s
    expect(least).toBeGreaterThan(12)

    bench.open(id)
    bench.edit('tippet', (leader) =>
      setDiameter(leader, tippetIndex(leader), quantityOf(0.0003, 'diameter', 'mm')),
    )
    await bench.settled()
    bench.open(FIRST)
    await vi.waitFor(() => expect(casts.yardstick?.least_m_s).not.toBe(least), { timeout: 50_000 })
    await vi.waitFor(() => expect(casts.yardstick?.least_m_s).toBeDefined(), { timeout: 50_000 })
  }, 170_000)

  it('that is gone or cannot be cast compares with nothing', async () => {
    const { bench, casts, settings, begin } = casting()
    bench.edit('a copy', noted)
    begin()
    await flown(bench)
    await vi.waitFor(() => expect(casts.yardstick).toBeDefined())
    settings.change({ yardstick: 'gone' })
    await nextTick()
    expect(casts.yardstick).toBeUndefined()
    expect(bench.simulated?.yardstick).toBeUndefined()
    settings.change({ yardstick: undefined })
    await vi.waitFor(() => expect(bench.simulated?.yardstick).toBeDefined())
  })
})

describe('a fingerprint', () => {
  it('is the same for the same question and another for another', () => {
    const [one, again] = [soundLeader(), soundLeader()].map(verdictOn)
    expect(fingerprintOf(one!)).toBe(fingerprintOf(again!))
    expect(fingerprintOf(verdictOn(thicker(soundLeader())))).not.toBe(fingerprintOf(one!))
    expect(fingerprintOf({ kind: 'flight', input: one!.input })).not.toBe(fingerprintOf(one!))
  })
})
