// @vitest-environment node
import { describe, expect, it } from 'vitest'
import { leaderOf, q, soundLeader, withPiece } from '../build'
import { leftAfterOffers, badOffers, findingsOf, onlyFinding, whyNotChecked } from './support'

const withTippet = (length: string) => withPiece(soundLeader(), 6, { length: q(length) })

describe('tippet length', () => {
  // G. Borger: dry 24 to 36 in, nymph 8 to 12 in; 18 to 36 in from memory.
  it.each([
    ['12 in', 'short', 0.3048],
    ['50 in', 'long', 1.27],
  ])('notes a tippet of %s as %s', (length, variant, metres) => {
    const finding = onlyFinding(withTippet(length), 'tippet-length')
    expect(finding).toMatchObject({
      variant,
      severity: 'note',
      place: { kind: 'segment', index: 6 },
    })
    expect(finding.measured.length_m).toBeCloseTo(metres, 9)
    expect(finding.source).toContain('dry 24 to 36 in, nymph 8 to 12 in')
  })

  it.each(['18 in', '24 in', '36 in'])('keeps silent about %s', (length) => {
    expect(findingsOf(withTippet(length), 'tippet-length')).toEqual([])
  })

  it('lets a nymph leader have 8 to 12 in', () => {
    for (const length of ['8 in', '12 in']) {
      expect(findingsOf({ ...withTippet(length), purpose: 'nymph' }, 'tippet-length')).toEqual([])
    }
  })

  it('is not checked without a tippet', () => {
    const bare = leaderOf([{ length: '2 m', diameter: '20 thou', part: 'butt' }])
    expect(whyNotChecked(bare, 'tippet-length')).toBe('no-tippet')
  })

  it('takes the limit of the user and says whose it is', () => {
    expect(findingsOf(withTippet('12 in'), 'tippet-length', { tippetShortest: 0.25 })).toEqual([])
    expect(onlyFinding(withTippet('24 in'), 'tippet-length', { tippetShortest: 0.7 }).source).toBe(
      'your own limit',
    )
  })

  it.each([
    ['12 in', 'lengthen'],
    ['50 in', 'shorten'],
  ])('offers to change %s: %s, which helps', (length, offer) => {
    expect(onlyFinding(withTippet(length), 'tippet-length').remedies.map((r) => r.id)).toEqual([
      offer,
    ])
    expect(badOffers(withTippet(length))).toEqual([])
    expect(leftAfterOffers(withTippet(length), 'tippet-length')).toEqual([])
  })
})
