// @vitest-environment node
import { describe, expect, it } from 'vitest'
import type { CastCase } from '../../../src/engine/cast'
import type { Fly } from '../../../src/engine/tackle'
import type { Leader } from '../../../src/engine/leader'
import type { PieceText } from '../build'
import {
  bandOf,
  caseOf,
  extensionAt,
  leastLineSpeed,
  perturbed,
  runCast,
  sampleLeastSpeed,
} from '../../../src/engine/cast'
import { CASTER_IDS } from '../../../src/engine/tackle'
import { SHIPPED, leaderOf as leaderOfFile } from '../../support/formulas'
import { leaderOf, soundLeader } from '../build'

const STOUT: PieceText[] = [
  { length: '38 in', diameter: '.020 in', part: 'butt' },
  { length: '12 in', diameter: '.0175 in', part: 'butt' },
  { length: '9 in', diameter: '.015 in', part: 'mid-section' },
  { length: '8 in', diameter: '.012 in', part: 'mid-section' },
  { length: '8 in', diameter: '.010 in', part: 'mid-section' },
]
const SHORT_STOUT: PieceText[] = [...STOUT, { length: '20 in', diameter: '3X', part: 'tippet' }]
const LONG_FINE: PieceText[] = [
  ...STOUT,
  { length: '7 in', diameter: '.008 in', part: 'mid-section' },
  { length: '50 in', diameter: '6X', part: 'tippet' },
]

function castOf(leader: Leader): CastCase {
  const input = caseOf(leader)
  if (typeof input === 'string') throw new Error(input)
  return input
}

const withFly = (pieces: readonly PieceText[], fly: Fly): CastCase =>
  castOf({
    ...soundLeader(),
    ...leaderOf(pieces),
    outfit: soundLeader().outfit,
    tip: { joint: { knot: 'improved-clinch' }, fly: { fly } },
  })

const least = (input: CastCase) => leastLineSpeed(input) ?? Infinity

/** Speed of the fly at the turn over its terminal speed in still air. */
function hardness(input: CastCase): number {
  const { mass_kg, dragArea_m2 } = input.fly
  const terminal = Math.sqrt(
    (2 * mass_kg * input.gravity_m_s2) / (input.air.density_kg_m3 * dragArea_m2),
  )
  return runCast(input, { stopWhenStraight: true }).flySpeedAtTurn_m_s! / terminal
}

describe('what anglers find (common practice)', () => {
  it.each<[string, Fly]>([
    ['a bushy dry', { style: 'bushy', hook: 12 }],
    ['a deer-hair bug', { style: 'deer-hair', hook: 6 }],
  ])('%s on a long fine tippet needs more speed than on a short stout one', (_name, fly) => {
    expect(least(withFly(LONG_FINE, fly))).toBeGreaterThan(least(withFly(SHORT_STOUT, fly)) * 1.2)
  })

  it('at an ordinary speed a big wind-resistant fly turns over on the short stout leader only', () => {
    const fly: Fly = { style: 'bushy', hook: 12 }
    expect(extensionAt(withFly(SHORT_STOUT, fly), 12)).toBeGreaterThan(0.95)
    expect(extensionAt(withFly(LONG_FINE, fly), 12)).toBeLessThan(0.95)
  })

  it('a small fly on a stout tip hits hard, and harder than on a fine one', () => {
    const fly: Fly = { style: 'parachute', hook: 18 }
    const stout = hardness(withFly(SHORT_STOUT, fly))
    expect(stout).toBeGreaterThan(4)
    expect(stout).toBeGreaterThan(hardness(withFly(LONG_FINE, fly)))
    // A bushy fly brakes itself.
    expect(hardness(withFly(SHORT_STOUT, { style: 'bushy', hook: 12 }))).toBeLessThan(stout / 2)
  })
})

describe('shipped formulas with their flies', () => {
  const extensions = SHIPPED.map(({ file, text }) => {
    const leader = leaderOfFile(text)
    const by = CASTER_IDS.map((caster) => {
      const input = caseOf({ ...leader, outfit: { ...leader.outfit, caster } })
      return typeof input === 'string' ? null : extensionAt(input, input.cast.lineSpeed_m_s)
    })
    return { file, by: by.filter((e) => e !== null) }
  }).filter(({ by }) => by.length > 0)
  const all = extensions.flatMap(({ by }) => by)
  const share = (of: number[], low: number, high = Infinity) =>
    of.filter((e) => e >= low && e < high).length / of.length

  // One set of constants for all: were any tuned to a leader, the spread would be narrower.
  it('spread over straight, lazy and collapsed', () => {
    expect(extensions.length).toBeGreaterThan(15)
    expect(share(all, 0.95)).toBeGreaterThan(0.5)
    expect(share(all, 0.85, 0.95)).toBeGreaterThan(0)
    expect(share(all, 0, 0.85)).toBeGreaterThan(0)
  })

  it('an ordinary caster turns most over, a learner fewer', () => {
    const of = (i: number) => extensions.map(({ by }) => by[i]!)
    expect(share(of(1), 0.95)).toBeGreaterThan(0.6)
    expect(share(of(0), 0.95)).toBeLessThan(share(of(1), 0.95))
  })
})

describe('least line speed', () => {
  const input = withFly(SHORT_STOUT, { style: 'bushy', hook: 12 })

  it('is bracketed: it turns over, a tenth slower does not', () => {
    const found = leastLineSpeed(input, { tolerance_m_s: 0.05 })!
    expect(extensionAt(input, found)).toBeGreaterThanOrEqual(0.95)
    expect(extensionAt(input, found * 0.9)).toBeLessThan(0.95)
  })

  it('is the same again, and from other guesses within the tolerance', () => {
    const quick = { ...input, mesh: 'coarse' as const }
    const found = leastLineSpeed(quick, { from_m_s: 12 })!
    expect(leastLineSpeed(quick, { from_m_s: 12 })).toBe(found)
    for (const from_m_s of [6, 25]) {
      // Twice the search's tolerance: each search may be off by one.
      expect(Math.abs(leastLineSpeed(quick, { from_m_s })! - found)).toBeLessThan(0.2)
    }
  })

  it('is null where no arm is fast enough, and 3 m/s where any is', () => {
    const kite = { ...input, fly: { mass_kg: 1e-6, dragArea_m2: 5e-3 } }
    expect(leastLineSpeed(kite)).toBeNull()
    const air = { ...input.air, density_kg_m3: 0 }
    const patient = { ...input, air, gravity_m_s2: 0, endTime_s: 20, mesh: 'coarse' as const }
    expect(leastLineSpeed(patient, { target: 0.1 })).toBe(3)
  })
})

describe('band', () => {
  const input = { ...withFly(SHORT_STOUT, { style: 'bushy', hook: 12 }), mesh: 'coarse' as const }

  it('the same seed gives the same case and sample; another seed another', () => {
    expect(perturbed(input, 5)).toEqual(perturbed(input, 5))
    expect(perturbed(input, 5)).not.toEqual(perturbed(input, 6))
    const samples = [1, 2, 3, 1].map((seed) => sampleLeastSpeed(input, seed, 0.95, 10))
    expect(samples[3]).toBe(samples[0])
    expect(new Set(samples).size).toBeGreaterThan(1)
  })

  it('takes quantiles and the share that turns over', () => {
    const samples = [9, 1, 8, 2, 7, 3, 6, 4, 5, 10]
    expect(bandOf(samples, 4.5)).toEqual({
      samples: 10,
      p10_m_s: 2,
      p50_m_s: 6,
      p90_m_s: 10,
      probability: 0.4,
    })
    expect(bandOf([5, null, null], 6)).toMatchObject({
      p10_m_s: 5,
      p50_m_s: null,
      p90_m_s: null,
      probability: 1 / 3,
    })
    expect(bandOf([], 6)).toMatchObject({ samples: 0, p50_m_s: null, probability: 0 })
  })
})

describe('a longer tippet', () => {
  it('under a bushy fly needs more speed', () => {
    // Hook 14: under a 12 a tenth more tippet is beyond any arm.
    const input = withFly(LONG_FINE, { style: 'bushy', hook: 14 })
    const [tippet] = input.segments.slice(-1)
    const longer = { ...tippet!, length_m: tippet!.length_m * 1.1 }
    const segments = [...input.segments.slice(0, -1), longer]
    expect(least({ ...input, segments })).toBeGreaterThan(least(input))
  })
})
