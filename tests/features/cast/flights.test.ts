// @vitest-environment node
import { createPinia } from 'pinia'
import type { EffectScope } from 'vue'
import { effectScope, nextTick, shallowRef } from 'vue'
import { afterEach, describe, expect, it, vi } from 'vitest'
import type { Leader } from '../../../src/engine/leader'
import type { CastChoices, FlightResult } from '../../../src/engine/cast'
import type { Ways } from '../../worker/inProcess'
import { caseOf, extensionAt, runCast } from '../../../src/engine/cast'
import { SPEEDS_M_S, useFlight } from '../../../src/features/cast/flights'
import { fingerprintOf, useCasts } from '../../../src/stores/casts'
import { overloadedLeader, soundLeader } from '../../worker/casts'
import { inProcessPool } from '../../worker/inProcess'

const scopes: EffectScope[] = []
afterEach(() => {
  for (const scope of scopes.splice(0)) scope.stop()
})

/** A flight that follows a leader and choices, each of which may be changed. */
function flying(ways: Ways = { answers: { extensions: [0.5] } }, isEarly = false) {
  const casts = useCasts(createPinia())
  const { pool, asked } = inProcessPool(ways)
  if (!isEarly) casts.start(pool)
  const scope = effectScope(true)
  scopes.push(scope)
  const follow = (first?: Leader, choices: CastChoices = {}) => {
    const [leader, by] = [shallowRef(first), shallowRef(choices)]
    const { flight, problem } = scope.run(() =>
      useFlight(
        () => leader.value,
        () => by.value,
      ),
    )!
    return { leader, by, flight, problem }
  }
  const of = (kind: string) => asked().filter((job) => job.kind === kind)
  return { follow, of, asked, begin: () => casts.start(pool) }
}

const at = (lineSpeed_m_s: number) => ({ cast: { lineSpeed_m_s } })
const SLOT = { timeout: 20_000 }

describe('a flight', () => {
  it('comes with the leader, the case, and what came of it', async () => {
    const leader = soundLeader()
    const { flight, problem } = flying().follow(leader, at(10))
    await vi.waitFor(() => expect(flight.value).toBeDefined(), SLOT)
    const input = caseOf(leader, { ...at(10), mesh: 'usual' })
    if (typeof input === 'string') throw new Error(input)
    const fingerprint = fingerprintOf({ kind: 'flight', input })
    expect(flight.value).toMatchObject({ leader, input, fingerprint })
    expect(flight.value?.flown.extension).toBe(runCast(input).extension)
    expect(flight.value?.flown.frames.length).toBeGreaterThan(50)
    expect(problem.value).toBeUndefined()
  })

  it('of a second leader stands beside the first', async () => {
    const { follow } = flying()
    const [one, two] = [follow(soundLeader()), follow(overloadedLeader())]
    await vi.waitFor(
      () => expect([one.flight.value, two.flight.value]).not.toContain(undefined),
      SLOT,
    )
    expect(one.flight.value?.leader.name).toBe('test')
    expect(two.flight.value?.leader.name).toBe('Overloaded')
  })

  it('gives way to a newer one', async () => {
    const { follow, of } = flying()
    const { by, flight, problem } = follow(soundLeader(), at(9))
    by.value = at(15)
    await nextTick()
    expect(flight.value).toBeUndefined()
    await vi.waitFor(() => expect(flight.value).toBeDefined(), SLOT)
    expect(flight.value?.input.cast.lineSpeed_m_s).toBe(15)
    expect(of('flight')).toHaveLength(2)
    expect(problem.value).toBeUndefined()
  })

  it('stands until the next is in', async () => {
    const { by, flight } = flying().follow(soundLeader(), at(9))
    await vi.waitFor(() => expect(flight.value).toBeDefined(), SLOT)
    by.value = at(15)
    await nextTick()
    expect(flight.value?.input.cast.lineSpeed_m_s).toBe(9)
    await vi.waitFor(() => expect(flight.value?.input.cast.lineSpeed_m_s).toBe(15), SLOT)
  })

  it('that is known already is not flown again, takes the new name, and gives up what was asked since', async () => {
    const { follow, of } = flying()
    const { leader, by, flight } = follow(soundLeader(), at(9))
    await vi.waitFor(() => expect(flight.value).toBeDefined(), SLOT)
    by.value = at(15)
    await nextTick()
    leader.value = { ...soundLeader(), name: 'Renamed' }
    by.value = at(9)
    await new Promise((resolve) => setTimeout(resolve, 300))
    expect(flight.value?.input.cast.lineSpeed_m_s).toBe(9)
    expect(flight.value?.leader.name).toBe('Renamed')
    expect(of('flight')).toHaveLength(2)
  })

  it('that was asked for before there were workers is flown when they come', async () => {
    const { follow, begin, of } = flying({ silent: ['extensions'] }, true)
    const [one, two] = [follow(overloadedLeader()), follow(overloadedLeader())]
    one.leader.value = soundLeader()
    two.leader.value = undefined
    await nextTick()
    begin()
    await vi.waitFor(() => expect(one.flight.value).toBeDefined(), SLOT)
    expect(one.flight.value?.leader.name).toBe('test')
    expect(of('flight')).toHaveLength(1)
  })

  it('of no leader any more is gone, also while it is under way', async () => {
    const { follow } = flying()
    const [one, two] = [follow(soundLeader()), follow(undefined)]
    await vi.waitFor(() => expect(one.flight.value).toBeDefined(), SLOT)
    two.leader.value = overloadedLeader()
    await nextTick()
    one.leader.value = undefined
    two.leader.value = undefined
    await new Promise((resolve) => setTimeout(resolve, 200))
    expect([one.flight.value, two.flight.value]).toEqual([undefined, undefined])
  })
})

describe('a problem', () => {
  const bare = { ...soundLeader(), tip: { joint: soundLeader().tip.joint } }
  const unlined = { ...soundLeader(), outfit: {} }

  it.each([
    ['no fly', bare, 'carries no fly'],
    ['no line', unlined, 'No fly line'],
  ])('of %s is said instead of a flight', async (_, without, words) => {
    const { follow, of } = flying()
    const { leader, flight, problem } = follow(soundLeader())
    await vi.waitFor(() => expect(flight.value).toBeDefined(), SLOT)
    leader.value = without
    expect(problem.value).toContain(words)
    expect(flight.value).toBeUndefined()
    await nextTick()
    expect(of('flight')).toHaveLength(1)
  })

  it('goes with the leader it was of', () => {
    const { leader, problem } = flying().follow(bare)
    expect(problem.value).toBeDefined()
    leader.value = undefined
    expect(problem.value).toBeUndefined()
  })

  it('of a worker is told', async () => {
    const ways = { answers: { flight: new Error('The simulation stopped.') } }
    const { flight, problem } = flying(ways).follow(soundLeader())
    await vi.waitFor(() => expect(problem.value).toBe('The simulation stopped.'), SLOT)
    expect(flight.value).toBeUndefined()
  })

  it('of a flight that did not converge is told, and the flight is shown as far as it went', async () => {
    const input = caseOf(soundLeader(), { mesh: 'coarse' })
    if (typeof input === 'string') throw new Error(input)
    const flown: FlightResult = { ...runCast(input), status: 'did not converge at 0.2000 s' }
    const ways: Ways = { silent: ['extensions'], answers: { flight: flown } }
    const { flight, problem } = flying(ways).follow(soundLeader())
    await vi.waitFor(() => expect(problem.value).toBe('This cast did not converge at 0.2000 s.'))
    expect(flight.value).toBeDefined()
  })
})

describe('the sweep over line speeds', () => {
  it('grows under the flight it is of', async () => {
    const { flight } = flying({}).follow(soundLeader())
    const seen = new Set<number>()
    await vi.waitFor(
      () => {
        seen.add(flight.value?.extensions.length ?? 0)
        expect(flight.value?.extensions).toHaveLength(SPEEDS_M_S.length)
      },
      { timeout: 20_000, interval: 1 },
    )
    expect(seen.size).toBeGreaterThan(3)
    const input = caseOf(soundLeader(), { mesh: 'coarse' })
    if (typeof input === 'string') throw new Error(input)
    const extensions = flight.value?.extensions ?? []
    expect(extensions).toEqual(SPEEDS_M_S.map((v) => extensionAt(input, v)))
    // More speed turns over what less did not: the curve climbs from collapsed to straight.
    expect(extensions[0]).toBeLessThan(0.9)
    expect(extensions.at(-1)).toBeGreaterThan(0.95)
  })
})
