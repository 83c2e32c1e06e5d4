// @vitest-environment node
import { describe, expect, it } from 'vitest'
import { leaderOf, soundLeader } from '../build'
import { leftAfterOffers, badOffers, findingsOf, onlyFinding } from './support'
import type { KnotId } from '../../../src/engine/materials'

const joined = (above: string, below: string, knot: KnotId) =>
  leaderOf([
    { length: '40 in', diameter: above, part: 'butt' },
    { length: '30 in', diameter: below, part: 'tippet', knot },
  ])

describe('knot unsuited', () => {
  it.each([
    [1, 'nail', 'not-at-between'],
    [1, 'improved-clinch', 'not-at-between'],
    [2, 'blood', 'not-at-fly'],
    [0, 'improved-clinch', 'not-at-line'],
  ] as const)('joint %i: a %s is a fault', (index, knot, variant) => {
    const plain = joined('12 thou', '10 thou', 'blood')
    const segments = plain.segments.map((s, i) => (i === index ? { ...s, joint: { knot } } : s))
    const tip = index === 2 ? { joint: { knot } } : plain.tip
    const leader = { ...plain, segments, tip }
    // What each knot joins: common practice.
    expect(onlyFinding(leader, 'knot-unsuited')).toMatchObject({
      variant,
      severity: 'fault',
      place: { index },
    })
    expect(badOffers(leader)).toEqual([])
    expect(leftAfterOffers(leader, 'knot-unsuited')).toEqual([])
  })

  it('cautions about a blood knot on nylon more than 35 % thinner', () => {
    // G. Borger, article of 2009.
    const finding = onlyFinding(joined('20 thou', '12.8 thou', 'blood'), 'knot-unsuited')
    expect(finding).toMatchObject({
      variant: 'reduction',
      severity: 'caution',
      limit: { reduction: 0.35 },
    })
    expect(finding.measured.reduction).toBeCloseTo(0.36, 9)
    expect(
      findingsOf(joined('20 thou', '13.2 thou', 'blood'), 'knot-unsuited')[0]?.variant,
    ).not.toBe('reduction')
  })

  it('notes a blood knot over a step of more than .004 in that is also more than a quarter', () => {
    // .002 in (Borger 2009) to .003 in (common practice); the quarter is an estimate of ours.
    expect(onlyFinding(joined('20 thou', '14 thou', 'blood'), 'knot-unsuited')).toMatchObject({
      variant: 'step',
      severity: 'note',
    })
    expect(findingsOf(joined('30 thou', '24 thou', 'blood'), 'knot-unsuited')).toEqual([])
    expect(findingsOf(joined('10 thou', '7 thou', 'blood'), 'knot-unsuited')).toEqual([])
  })

  it('notes a blood knot in strands finer than .12 mm', () => {
    expect(onlyFinding(joined('.12 mm', '.11 mm', 'blood'), 'knot-unsuited').variant).toBe('fine')
  })

  it('keeps silent about knots that take any step', () => {
    expect(findingsOf(joined('20 thou', '8 thou', 'albright'), 'knot-unsuited')).toEqual([])
    expect(findingsOf(soundLeader(), 'knot-unsuited')).toEqual([])
  })

  it.each([
    ['20 thou', '12.5 thou'],
    ['30 thou', '12 thou'],
    ['20 thou', '14 thou'],
    ['.12 mm', '.10 mm'],
  ])('offers another knot for %s on %s, which helps', (above, below) => {
    const leader = joined(above, below, 'blood')
    expect(onlyFinding(leader, 'knot-unsuited').remedies.map((r) => r.id)).toEqual(['change-knot'])
    expect(badOffers(leader)).toEqual([])
    expect(leftAfterOffers(leader, 'knot-unsuited')).toEqual([])
  })
})
