// @vitest-environment node
import { describe, expect, it } from 'vitest'
import { leaderOf, soundLeader } from '../build'
import { leftAfterOffers, badOffers, findingsOf, onlyFinding, whyNotChecked } from './support'
import type { FlyStyle } from '../../../src/engine/tackle'

const withFly = (hook: number, style: FlyStyle = 'parachute') => ({
  ...soundLeader(),
  tip: { ...soundLeader().tip, fly: { fly: { style, hook } } },
})

describe('tippet and fly', () => {
  // X = hook size / 3 in slow water, / 4 in fast (common practice); the leader ends in 5X.
  it.each([
    [10, 'fine'],
    [26, 'stout'],
  ])('notes that 5X is not for a #%i: too %s', (hook, variant) => {
    const finding = onlyFinding(withFly(hook), 'tippet-and-fly')
    expect(finding).toMatchObject({
      variant,
      severity: 'note',
      place: { kind: 'segment', index: 6 },
    })
    expect(finding.measured).toMatchObject({ hook })
    expect(finding.measured.x).toBeCloseTo(5, 9)
    expect(finding.limit.lowX).toBeCloseTo(hook / 4, 9)
    expect(finding.limit.highX).toBeCloseTo(hook / 3, 9)
    expect(finding.source).toContain('common practice')
  })

  it.each([14, 16, 18, 20])('keeps silent about a #%i', (hook) => {
    expect(findingsOf(withFly(hook), 'tippet-and-fly')).toEqual([])
  })

  it('is not checked where the rule does not hold, or where there is nothing to check', () => {
    expect(whyNotChecked(withFly(6, 'streamer'), 'tippet-and-fly')).toBe('not-for-this-fly')
    expect(whyNotChecked({ ...withFly(8), purpose: 'salt-water' }, 'tippet-and-fly')).toBe(
      'not-for-this-purpose',
    )
    const bare = leaderOf([{ length: '2 m', diameter: '20 thou', part: 'butt' }])
    expect(whyNotChecked(bare, 'tippet-and-fly')).toBe('no-fly')
    expect(whyNotChecked({ ...bare, tip: withFly(14).tip }, 'tippet-and-fly')).toBe('no-tippet')
  })

  it('takes the limit of the user and says whose it is', () => {
    expect(findingsOf(withFly(10), 'tippet-and-fly', { flyRuleHigh: 2 })).toEqual([])
    expect(
      onlyFinding(withFly(18), 'tippet-and-fly', { flyRuleLow: 2.5, flyRuleHigh: 2.4 }).source,
    ).toBe('your own limit')
  })

  it.each([10, 26])('offers to step to the tippet of a #%i, which helps', (hook) => {
    expect(onlyFinding(withFly(hook), 'tippet-and-fly').remedies.map((r) => r.id)).toEqual([
      'restep',
    ])
    expect(badOffers(withFly(hook))).toEqual([])
    expect(leftAfterOffers(withFly(hook), 'tippet-and-fly')).toEqual([])
  })
})
