// @vitest-environment node
import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { diameterHolding_m, strengthOf } from '../../src/engine/strength'
import { BUILT_IN_MATERIALS, knot } from '../../src/engine/materials'
import { POUND_FORCE_N } from '../../src/engine/units'
import { anyLeader, leaderOf, leaderOfPounds, q, withPiece } from './build'
import { POUND_RECIPES } from '../reference/recipes'

const tippet = (material: string, diameter: string) =>
  leaderOf([{ length: '1 m', diameter, part: 'tippet', material }])

describe('strength of a strand', () => {
  // Two generic tippet tables (common practice): lower and upper end of the ratings sold.
  it.each([
    ['0X', 8.5, 15],
    ['2X', 5.7, 10],
    ['4X', 3.4, 6.1],
    ['5X', 2.5, 4.5],
    ['6X', 1.8, 3.1],
    ['8X', 0.6, 1.4],
  ])('%s of fine nylon is estimated between %f and %f lb', (size, low_lb, high_lb) => {
    for (const material of ['nylon-supple', 'copolymer']) {
      const lb = (strengthOf(tippet(material, size)).segments[0]?.dry.value ?? 0) / POUND_FORCE_N
      expect(lb).toBeGreaterThan(low_lb)
      expect(lb).toBeLessThan(high_lb)
    }
  })

  it('is breaking stress times the area of a circle', () => {
    // By hand: 0.2 mm has 0.0314159 mm2; times 850 MPa, 26.70 N.
    const { dry } = strengthOf(tippet('nylon-supple', '0.2 mm')).segments[0] ?? {}
    expect(dry?.value).toBeCloseTo(26.7, 2)
    expect(dry?.source).toMatch(/^estimate/)
  })

  it('a label wins over the estimate, and a pull test over the label', () => {
    const labelled = withPiece(tippet('nylon-supple', '4X'), 0, { strength: q('5 lb', 'force') })
    const tested = withPiece(labelled, 0, { pullTest: q('3 lb', 'force') })
    expect(strengthOf(labelled).segments[0]?.dry).toMatchObject({ source: 'as labelled' })
    expect(strengthOf(labelled).segments[0]?.dry.value).toBeCloseTo(5 * POUND_FORCE_N, 9)
    expect(strengthOf(tested).segments[0]?.dry).toMatchObject({ source: 'own pull test' })
    expect(strengthOf(tested).segments[0]?.dry.value).toBeCloseTo(3 * POUND_FORCE_N, 9)
  })

  it('wet nylon holds 10 to 20 % less', () => {
    // US Fish & Wildlife Service, Net materials.
    const { dry, wet } = strengthOf(tippet('nylon-stiff', '2X')).segments[0] ?? {}
    const kept = (wet?.value ?? 0) / (dry?.value ?? 1)
    expect(kept).toBeGreaterThanOrEqual(0.8)
    expect(kept).toBeLessThanOrEqual(0.9)
  })

  it.each(BUILT_IN_MATERIALS)(
    'the diameter that holds a force in $name does hold it',
    (material) => {
      const d = diameterHolding_m(material, 10)
      const { wet } = strengthOf(tippet(material.id, `${d * 1000} mm`)).segments[0] ?? {}
      // The text of the diameter is read to twelve figures.
      expect(wet?.value).toBeCloseTo(10, 8)
    },
  )
})

describe('strength of a leader', () => {
  it('a knot keeps its share of the weaker strand', () => {
    const leader = leaderOf([
      { length: '1 m', diameter: '12 thou', part: 'butt' },
      { length: '1 m', diameter: '10 thou', part: 'tippet', knot: 'blood' },
    ])
    const { segments, joints } = strengthOf(leader)
    // Field & Stream knot test: blood knot 83 %.
    expect(joints[1]?.wet.value).toBeCloseTo(0.83 * (segments[1]?.wet.value ?? 0), 9)
  })

  it('the published pike leader breaks at its 15 lb piece', () => {
    const pike = POUND_RECIPES.find((r) => r.id.startsWith('pike'))
    if (!pike) throw new Error('no pike recipe')
    const { weakest } = strengthOf(leaderOfPounds(pike))
    // The source calls the 15 lb piece the weak link; its knots are weaker than the strand.
    expect(weakest.kind).toBe('joint')
    expect([4, 5]).toContain(weakest.index)
  })

  it('the weakest place is the least of all, and of equals the one nearest the fly', () => {
    fc.assert(
      fc.property(anyLeader, (leader) => {
        const { segments, joints, weakest } = strengthOf(leader)
        const least = Math.min(...[...segments, ...joints].map((s) => s.wet.value))
        const laterJoints = joints.slice(weakest.index + 1)
        return weakest.strength.wet.value === least && laterJoints.every((j) => j.wet.value > least)
      }),
    )
  })

  it('no knot is as strong as the weaker of its strands', () => {
    fc.assert(
      fc.property(anyLeader, (leader) => {
        const { segments, joints } = strengthOf(leader)
        return joints.every((j, i) => {
          const beside = [segments[i - 1], segments[i]].flatMap((s) => s?.wet.value ?? [])
          return j.wet.value < Math.min(...beside)
        })
      }),
    )
  })

  it('every knot in use has the band of its own test', () => {
    const leader = leaderOf([{ length: '1 m', diameter: '10 thou', part: 'tippet' }])
    const { joints, segments } = strengthOf(leader)
    const share = (joints[1]?.dry.low ?? 0) / (segments[0]?.dry.low ?? 1)
    expect(share).toBeCloseTo(knot('improved-clinch').efficiency.low, 9)
  })
})
