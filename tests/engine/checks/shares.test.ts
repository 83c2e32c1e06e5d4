// @vitest-environment node
import { describe, expect, it } from 'vitest'
import { leaderOf, leaderOfRecipe, soundLeader } from '../build'
import { leftAfterOffers, badOffers, findingsOf, onlyFinding, whyNotChecked } from './support'
import type { Purpose } from '../../../src/engine/leader'
import { RECIPES } from '../../reference/recipes'

const shared = (butt: number, mid: number, tippet: number, purpose: Purpose = 'general-dry') =>
  leaderOf(
    [
      { length: `${butt} in`, diameter: '20 thou', part: 'butt' },
      { length: `${mid} in`, diameter: '15 thou', part: 'mid-section' },
      { length: `${tippet} in`, diameter: '12 thou', part: 'tippet' },
    ],
    { purpose },
  )

describe('shares', () => {
  it.each([
    ['butt-large', shared(75, 12, 13), 0.75],
    ['butt-small', shared(30, 35, 35), 0.3],
    ['tippet-large', shared(40, 20, 40), 0.4],
    ['tippet-small', shared(60, 30, 10), 0.1],
    ['mid-large', shared(36, 48, 16), 0.48],
    ['mid-small', shared(60, 5, 35), 0.05],
  ])('%s: a note with the share by hand, and a move that helps', (variant, leader, share) => {
    const finding = onlyFinding(leader, 'shares')
    expect(finding).toMatchObject({ variant, severity: 'note', place: { kind: 'segment' } })
    expect(finding.measured.share).toBeCloseTo(share, 9)
    expect(finding.source).toContain('60/20/20')
    expect(finding.remedies.map((r) => r.id)).toEqual(['move-length'])
    expect(badOffers(leader)).toEqual([])
    expect(leftAfterOffers(leader, 'shares')).toEqual([])
  })

  it('keeps silent about 60/20/20, and about halves', () => {
    // A. J. McClane; L. Kreh.
    expect(findingsOf(shared(60, 20, 20), 'shares')).toEqual([])
    expect(findingsOf(shared(50, 30, 20), 'shares')).toEqual([])
    expect(findingsOf(soundLeader(), 'shares')).toEqual([])
  })

  it('keeps silent about the light butt of a published slack-line leader, which it would note otherwise', () => {
    const slack = RECIPES.find((r) => r.id === 'slack-line 4X')
    if (!slack) throw new Error('no slack-line recipe')
    const leader = leaderOfRecipe(slack)
    expect(findingsOf(leader, 'shares')).toEqual([])
    expect(findingsOf({ ...leader, purpose: 'general-dry' }, 'shares').length).toBeGreaterThan(0)
  })

  it('is not checked on a tight line', () => {
    expect(whyNotChecked(shared(90, 5, 5, 'tight-line-nymph'), 'shares')).toBe(
      'not-for-this-purpose',
    )
  })

  it('takes the limit of the user and says whose it is', () => {
    expect(findingsOf(shared(70, 14, 16), 'shares', { buttShareHigh: 0.72 })).toEqual([])
    expect(onlyFinding(shared(60, 20, 20), 'shares', { buttShareHigh: 0.55 }).source).toBe(
      'your own limit',
    )
  })
})
