// @vitest-environment node
import { createPinia } from 'pinia'
import { describe, expect, it, vi } from 'vitest'
import type { Ways } from '../worker/inProcess'
import type { FlightResult } from '../../src/engine/cast'
import { caseOf, extensionAt, reachOf, runCast } from '../../src/engine/cast'
import { SPEEDS_M_S, useFlights } from '../../src/stores/flights'
import { fingerprintOf } from '../../src/stores/casts'
import { leaderOf, lineOf } from '../engine/build'
import { overloadedLeader, soundLeader } from '../worker/casts'
import { inProcessPool } from '../worker/inProcess'

function flying(ways: Ways = { silent: ['extensions'] }) {
  const flights = useFlights(createPinia())
  const { pool, asked } = inProcessPool(ways)
  flights.start(pool)
  const of = (kind: string) => asked().filter((job) => job.kind === kind)
  return { flights, pool, asked, of }
}

const at = (lineSpeed_m_s: number) => ({ cast: { lineSpeed_m_s } })
const SLOT = { timeout: 20_000 }

describe('a flight', () => {
  it('is flown into its slot, with the leader, the case, and what came of it', async () => {
    const { flights } = flying()
    const leader = soundLeader()
    void flights.fly('first', leader, at(10))
    await vi.waitFor(() => expect(flights.first).toBeDefined(), SLOT)
    const input = caseOf(leader, { ...at(10), mesh: 'usual' })
    expect(flights.first).toMatchObject({ leader, input, fingerprint: fingerprintOf(input) })
    if (typeof input === 'string') throw new Error(input)
    expect(flights.first?.flown.extension).toBe(runCast(input).extension)
    expect(flights.first?.flown.frames.length).toBeGreaterThan(50)
    expect(flights.second).toBeUndefined()
    expect(flights.problem).toBeUndefined()
  })

  it('of a second leader stands beside the first', async () => {
    const { flights } = flying()
    void flights.fly('first', soundLeader(), {})
    void flights.fly('second', overloadedLeader(), {})
    await vi.waitFor(() => expect([flights.first, flights.second]).not.toContain(undefined), SLOT)
    expect(flights.first?.leader.name).toBe('test')
    expect(flights.second?.leader.name).toBe('Overloaded')
  })

  it('gives way to a newer one of its slot', async () => {
    const { flights, of } = flying()
    const old = flights.fly('first', soundLeader(), at(9))
    void flights.fly('first', soundLeader(), at(15))
    await old
    expect(flights.first).toBeUndefined()
    await vi.waitFor(() => expect(flights.first).toBeDefined(), SLOT)
    expect(flights.first?.input.cast.lineSpeed_m_s).toBe(15)
    expect(of('flight')).toHaveLength(2)
    expect(flights.problem).toBeUndefined()
  })

  it('that stands already is not flown again, takes the new name, and gives up what was asked since', async () => {
    const { flights, of } = flying()
    void flights.fly('first', soundLeader(), at(9))
    await vi.waitFor(() => expect(flights.first).toBeDefined(), SLOT)
    const other = flights.fly('first', soundLeader(), at(15))
    await flights.fly('first', { ...soundLeader(), name: 'Renamed' }, at(9))
    await other
    await new Promise((resolve) => setTimeout(resolve, 300))
    expect(flights.first?.input.cast.lineSpeed_m_s).toBe(9)
    expect(flights.first?.leader.name).toBe('Renamed')
    expect(of('flight')).toHaveLength(2)
  })

  it('that was asked for before there were workers is flown when they come', async () => {
    const flights = useFlights(createPinia())
    await flights.fly('first', overloadedLeader(), {})
    await flights.fly('first', soundLeader(), {})
    await flights.fly('second', overloadedLeader(), {})
    flights.clear('second')
    const { pool, asked } = inProcessPool({ silent: ['extensions'] })
    flights.start(pool)
    await vi.waitFor(() => expect(flights.first).toBeDefined(), SLOT)
    expect(flights.first?.leader.name).toBe('test')
    expect(asked().filter(({ kind }) => kind === 'flight')).toHaveLength(1)
  })
})

describe('a slot that is cleared', () => {
  it('is empty, also of what was under way', async () => {
    const { flights } = flying()
    void flights.fly('first', soundLeader(), {})
    await vi.waitFor(() => expect(flights.first).toBeDefined(), SLOT)
    const under = flights.fly('second', soundLeader(), {})
    flights.clear('second')
    await under
    flights.clear('first')
    await new Promise((resolve) => setTimeout(resolve, 200))
    expect([flights.first, flights.second]).toEqual([undefined, undefined])
  })
})

describe('a problem', () => {
  const bare = { ...soundLeader(), tip: { joint: soundLeader().tip.joint } }
  const unlined = { ...soundLeader(), outfit: {} }

  it.each([
    ['no fly', bare, 'carries no fly'],
    ['no line', unlined, 'No fly line'],
  ])('of %s is said and empties the slot', async (_, leader, words) => {
    const { flights, of } = flying()
    void flights.fly('first', soundLeader(), {})
    await vi.waitFor(() => expect(flights.first).toBeDefined(), SLOT)
    await flights.fly('first', leader, {})
    expect(flights.problem).toContain(words)
    expect(flights.first).toBeUndefined()
    expect(of('flight')).toHaveLength(1)
  })

  it('goes with the leader it was of', async () => {
    const { flights } = flying()
    await flights.fly('second', bare, {})
    expect(flights.problem).toBeDefined()
    void flights.fly('first', soundLeader(), {})
    await vi.waitFor(() => expect(flights.first).toBeDefined(), SLOT)
    expect(flights.problem).toBeDefined()
    flights.clear('second')
    expect(flights.problem).toBeUndefined()
  })

  it('of a worker is told', async () => {
    const { flights } = flying({ answers: { flight: new Error('The simulation stopped.') } })
    await flights.fly('first', soundLeader(), {})
    expect(flights.problem).toBe('The simulation stopped.')
    expect(flights.first).toBeUndefined()
  })

  it('of a flight that did not converge is told, and the flight is shown as far as it went', async () => {
    const input = caseOf(soundLeader(), { mesh: 'coarse' })
    if (typeof input === 'string') throw new Error(input)
    const flown: FlightResult = { ...runCast(input), status: 'did not converge at 0.2000 s' }
    const { flights } = flying({ silent: ['extensions'], answers: { flight: flown } })
    void flights.fly('first', soundLeader(), {})
    await vi.waitFor(() => expect(flights.problem).toBe('This cast did not converge at 0.2000 s.'))
    expect(flights.first).toBeDefined()
  })
})

describe('the sweep over line speeds', () => {
  it('arrives under the flight it is of', async () => {
    const { flights } = flying({})
    await flights.fly('first', soundLeader(), {})
    const input = caseOf(soundLeader(), { mesh: 'coarse' })
    if (typeof input === 'string') throw new Error(input)
    expect(flights.first?.extensions).toEqual(SPEEDS_M_S.map((v) => extensionAt(input, v)))
    // More speed turns over what less did not: the curve climbs from collapsed to straight.
    expect(flights.first?.extensions[0]).toBeLessThan(0.9)
    expect(flights.first?.extensions.at(-1)).toBeGreaterThan(0.95)
  })

  it('grows speed by speed', async () => {
    const { flights } = flying({})
    const seen = new Set<number>()
    const done = flights.fly('first', soundLeader(), {})
    await vi.waitFor(
      () => {
        seen.add(flights.first?.extensions.length ?? 0)
        expect(flights.first?.extensions).toHaveLength(SPEEDS_M_S.length)
      },
      { timeout: 20_000, interval: 1 },
    )
    await done
    expect(seen.size).toBeGreaterThan(3)
  })
})

describe('what would help', () => {
  const short = leaderOf(
    [
      { length: '4 ft', diameter: '.020 in', part: 'butt' },
      { length: '3 ft', diameter: '4X', part: 'tippet' },
    ],
    {
      outfit: { line: lineOf('WF5F'), caster: 'ordinary' },
      tip: { joint: { knot: 'improved-clinch' }, fly: { fly: { style: 'parachute', hook: 14 } } },
    },
  )

  it('is worked out with its progress', async () => {
    const { flights } = flying()
    const onProgress = vi.fn()
    const found = await flights.explore(short, {}, onProgress)
    expect(found?.sensitivity.map(({ segment }) => segment)).toEqual([0, 1])
    expect(found?.reach).toEqual(reachOf(short, { mesh: 'coarse' }))
    expect(onProgress.mock.calls.map(([share]) => share as number)).toEqual([0.5, 1])
    expect(onProgress.mock.calls.at(-1)?.[1]).toEqual(found?.sensitivity)
  })

  it('can be stopped, and that is no problem', async () => {
    const { flights } = flying()
    const onProgress = vi.fn()
    const exploring = flights.explore(short, {}, onProgress)
    flights.stopExploring()
    expect(await exploring).toBeUndefined()
    expect(onProgress).not.toHaveBeenCalled()
    expect(flights.problem).toBeUndefined()
  })

  it('is nothing for a leader that cannot be cast', async () => {
    const { flights, asked } = flying()
    expect(await flights.explore({ ...short, outfit: {} }, {}, vi.fn())).toBeUndefined()
    expect(asked()).toEqual([])
  })

  it('says what went wrong', async () => {
    const { flights } = flying({ silent: ['reach'], answers: { sensitivity: new Error('torn') } })
    expect(await flights.explore(short, {}, vi.fn())).toBeUndefined()
    expect(flights.problem).toBe('torn')
  })
})
