// @vitest-environment node
import { describe, expect, it } from 'vitest'
import { q, soundLeader, withPiece } from '../build'
import { leftAfterOffers, badOffers, findingsOf, onlyFinding, whyNotChecked } from './support'

const withFish = (fish: string) => ({
  ...soundLeader(),
  outfit: { ...soundLeader().outfit, fish: q(fish, 'mass') },
})

describe('tip and fish', () => {
  it('cautions where the weakest place holds less than half the weight of the fish', () => {
    const finding = onlyFinding(withFish('8 lb'), 'tip-and-fish')
    expect(finding).toMatchObject({ variant: 'weak', severity: 'caution' })
    // Half of 8 lb by hand: 17.793 N (NIST SP 811, 2008). The half is an estimate of ours.
    expect(finding.limit.strength_N).toBeCloseTo(17.793, 3)
    expect(Number(finding.measured.strength_N)).toBeLessThan(17.793)
    expect(finding.source).toContain('estimate')
  })

  it('keeps silent about a small fish', () => {
    expect(findingsOf(withFish('2 lb'), 'tip-and-fish')).toEqual([])
  })

  it('is not checked without a fish', () => {
    expect(whyNotChecked({ ...soundLeader(), outfit: {} }, 'tip-and-fish')).toBe('no-fish')
  })

  it('takes the limit of the user and says whose it is', () => {
    expect(findingsOf(withFish('8 lb'), 'tip-and-fish', { fishPull: 0.2 })).toEqual([])
    expect(onlyFinding(withFish('4 lb'), 'tip-and-fish', { fishPull: 1 }).source).toBe(
      'your own limit',
    )
  })

  it('offers a stouter tippet that holds the fish', () => {
    const leader = withFish('8 lb')
    expect(onlyFinding(leader, 'tip-and-fish').remedies.map((r) => r.id)).toEqual(['restep'])
    expect(badOffers(leader)).toEqual([])
    expect(leftAfterOffers(leader, 'tip-and-fish')).toEqual([])
  })

  it('offers a stouter piece where the weak one is not the tippet', () => {
    const leader = withPiece(withFish('2 lb'), 4, { pullTest: q('1 lb', 'force') })
    expect(onlyFinding(leader, 'tip-and-fish').remedies).toMatchObject([
      { id: 'set-diameter', edit: { at: 4 } },
    ])
    expect(badOffers(leader)).toEqual([])
    expect(leftAfterOffers(leader, 'tip-and-fish')).toEqual([])
  })
})
