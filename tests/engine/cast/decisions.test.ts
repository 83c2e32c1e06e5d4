// @vitest-environment node
import { describe, expect, it } from 'vitest'
import type { CastCase } from '../../../src/engine/cast'
import {
  bandOf,
  caseOf,
  extensionAt,
  leastLineSpeed,
  perturbed,
  runCast,
  sampleLeastSpeed,
} from '../../../src/engine/cast'
import { SHIPPED, leaderOf } from '../../support/formulas'

const TARGET = 0.95

const CASES = SHIPPED.flatMap(({ file, text }): [string, CastCase][] => {
  const input = caseOf(leaderOf(text), { mesh: 'coarse' })
  return typeof input === 'string' ? [] : [[file, input]]
})
const at = (input: CastCase, lineSpeed_m_s: number): CastCase => ({
  ...input,
  cast: { ...input.cast, lineSpeed_m_s },
})

describe('a flight that stops as soon as it is decided', () => {
  // With every shipped fly it takes minutes: tests/support/decisions.mjs.
  it.each(CASES)('says what the whole flight says: %s', (_, input) => {
    const edge = leastLineSpeed(input, { tolerance_m_s: 0.3 }) ?? 20
    let [spent, whole] = [0, 0]
    for (const share of [0.7, 0.85, 0.95, 1, 1.05, 1.25]) {
      const cast = at(input, edge * share)
      const [decided, flown] = [runCast(cast, { decide: TARGET }), runCast(cast)]
      const isReached = flown.extension >= TARGET && flown.unrolledFraction >= 0.8
      expect([share, decided.isReached]).toEqual([share, isReached])
      spent += decided.steps
      whole += flown.steps
    }
    expect(spent).toBeLessThan(whole)
  })

  // The line lies on the water; the fly swings upright over it, its chord greatest while still behind.
  it('takes no chord that shrinks as the fly comes ahead for one on the way to its peak', () => {
    const { text } = SHIPPED.find(({ file }) => file === 'ash-tarn-sinking-4ft-2x.json')!
    const leader = leaderOf(text)
    const { fly } = leaderOf(
      SHIPPED.find(({ file }) => file === 'lower-sallow-hopper-8ft-2x.json')!.text,
    ).tip
    const input = caseOf({ ...leader, tip: { ...leader.tip, fly: fly! } }, { mesh: 'coarse' })
    if (typeof input === 'string') throw new Error(input)
    const cast = at(input, 7.201)
    const flown = runCast(cast)
    expect(flown.events.straight_s).not.toBeNull()
    expect(flown.extension).toBeLessThan(TARGET)
    expect(runCast(cast, { decide: TARGET }).isReached).toBe(false)
  })
})

/** By halving alone, from the ends of what is asked, on whole flights: slow, and nothing to be wrong. */
function halved(input: CastCase, low: number, high: number, tolerance: number): number | null {
  const reaches = (v: number) => extensionAt(input, v, TARGET) >= TARGET
  if (!reaches(high)) return null
  let [fails, does] = [low, high]
  while (does - fails > tolerance) {
    const middle = (fails + does) / 2
    if (reaches(middle)) does = middle
    else fails = middle
  }
  return does
}

describe('least line speed', () => {
  const clear = [
    'middle-sallow-9ft-5x',
    'lower-sallow-streamer-7ft-1x',
    'marram-haven-estuary-10ft-12lb',
  ]

  it.each(clear)('found from a guess is that of plain halving: %s', (name) => {
    const [, input] = CASES.find(([file]) => file === `${name}.json`)!
    const plain = halved(input, 3, 14, 0.02)!
    for (const from_m_s of [undefined, 5, 9, 15]) {
      const search = { target: TARGET, tolerance_m_s: 0.25, ...(from_m_s ? { from_m_s } : {}) }
      const least = leastLineSpeed(input, search)!
      expect(least - plain).toBeGreaterThan(-0.03)
      expect(least - plain).toBeLessThan(0.3) // both tolerances
    }
  })

  // Over 16 samples each, of a light fly and of a heavy one.
  it.each(clear.slice(0, 2))(
    'band: quantiles of the guessed search within 0.5 m/s of plain halving, %s',
    (name) => {
      const [, input] = CASES.find(([file]) => file === `${name}.json`)!
      const known = leastLineSpeed(input)!
      const seeds = Array.from({ length: 16 }, (_, i) => i + 1)
      const quick = bandOf(
        seeds.map((seed) => sampleLeastSpeed(input, seed, TARGET, known)),
        known,
      )
      const plain = bandOf(
        seeds.map((seed) => halved(perturbed(input, seed), 3, 24, 0.1)),
        known,
      )
      for (const p of ['p10_m_s', 'p50_m_s', 'p90_m_s'] as const)
        expect(Math.abs(quick[p]! - plain[p]!)).toBeLessThan(0.5)
      expect(Math.abs(quick.probability - plain.probability)).toBeLessThanOrEqual(0.13)
    },
    60_000,
  )
})
