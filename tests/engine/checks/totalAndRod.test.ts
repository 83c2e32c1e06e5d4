// @vitest-environment node
import { describe, expect, it } from 'vitest'
import { q, soundLeader } from '../build'
import { leftAfterOffers, badOffers, findingsOf, onlyFinding, whyNotChecked } from './support'

const withRod = (rod: string) => ({
  ...soundLeader(),
  outfit: { ...soundLeader().outfit, rod: q(rod) },
})

describe('total and rod', () => {
  // About the rod to one and a half; competition to twice the rod: common practice. The leader has 9 ft.
  it.each([
    ['5 1/2 ft', 'long', 'note', 108 / 66],
    ['4 ft', 'long', 'caution', 2.25],
    ['13 ft', 'short', 'note', 108 / 156],
  ])('with a rod of %s it is %s, a %s', (rod, variant, severity, rods) => {
    const finding = onlyFinding(withRod(rod), 'total-and-rod')
    expect(finding).toMatchObject({ variant, severity, place: { kind: 'leader', index: 0 } })
    expect(finding.measured.rods).toBeCloseTo(rods, 9)
    expect(finding.source).toContain('common practice')
    expect(finding.limit).toMatchObject({ low: 0.75, high: 1.5 })
  })

  it.each(['9 ft', '7 ft', '12 ft'])('keeps silent with a rod of %s', (rod) => {
    expect(findingsOf(withRod(rod), 'total-and-rod')).toEqual([])
  })

  it('is not checked without a rod', () => {
    expect(whyNotChecked({ ...soundLeader(), outfit: {} }, 'total-and-rod')).toBe('no-rod')
  })

  it('lets a tight-line leader be twice the rod', () => {
    const leader = withRod('4 1/2 ft')
    expect(findingsOf({ ...leader, purpose: 'tight-line-nymph' }, 'total-and-rod')).toEqual([])
  })

  it('takes the limit of the user and says whose it is', () => {
    expect(findingsOf(withRod('5 1/2 ft'), 'total-and-rod', { rodsHigh: 1.7 })).toEqual([])
    expect(onlyFinding(withRod('9 ft'), 'total-and-rod', { rodsHigh: 0.9 }).source).toBe(
      'your own limit',
    )
  })

  it.each(['6 ft', '13 ft'])('offers another total for a rod of %s, which helps', (rod) => {
    const own = { rodsHigh: 1.4 }
    expect(onlyFinding(withRod(rod), 'total-and-rod', own).remedies.map((r) => r.id)).toEqual([
      'scale',
    ])
    expect(badOffers(withRod(rod), own)).toEqual([])
    expect(leftAfterOffers(withRod(rod), 'total-and-rod', own)).toEqual([])
  })
})
