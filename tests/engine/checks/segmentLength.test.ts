// @vitest-environment node
import { describe, expect, it } from 'vitest'
import { leaderOf, soundLeader } from '../build'
import { leftAfterOffers, badOffers, findingsOf, onlyFinding } from './support'

const withMiddle = (length: string, tippet = '30 in') =>
  leaderOf([
    { length: '40 in', diameter: '20 thou', part: 'butt' },
    { length, diameter: '15 thou', part: 'mid-section' },
    { length: tippet, diameter: '12 thou', part: 'tippet' },
  ])

describe('segment length', () => {
  it('notes a piece under six inches', () => {
    // Each transition at least 6 in (common practice).
    const finding = onlyFinding(withMiddle('5 in'), 'segment-length')
    expect(finding).toMatchObject({
      variant: 'short',
      severity: 'note',
      place: { kind: 'segment', index: 1 },
    })
    expect(finding.measured.length_m).toBeCloseTo(0.127, 9)
    expect(finding.limit.length_m).toBeCloseTo(0.1524, 9)
    expect(finding.source).toContain('6 in')
    expect(findingsOf(withMiddle('6 in'), 'segment-length')).toEqual([])
  })

  it('lets a tippet be short', () => {
    expect(findingsOf(withMiddle('10 in', '5 in'), 'segment-length')).toEqual([])
  })

  it('is a fault where two knots would touch', () => {
    expect(onlyFinding(withMiddle('.5 in'), 'segment-length')).toMatchObject({
      variant: 'knots-touch',
      severity: 'fault',
    })
  })

  it('notes a middle piece that is most of the leader', () => {
    const finding = onlyFinding(withMiddle('60 in', '20 in'), 'segment-length')
    expect(finding).toMatchObject({ variant: 'long', severity: 'note', limit: { share: 0.4 } })
    // By hand: 60 of 120 in.
    expect(finding.measured.share).toBeCloseTo(0.5, 9)
    expect(findingsOf(soundLeader(), 'segment-length')).toEqual([])
  })

  it('takes the limit of the user and says whose it is', () => {
    expect(findingsOf(withMiddle('5 in'), 'segment-length', { shortestPiece: 0.1 })).toEqual([])
    const strict = onlyFinding(withMiddle('10 in'), 'segment-length', { shortestPiece: 0.3 })
    expect(strict.source).toBe('your own limit')
  })

  it.each([
    [withMiddle('5 in'), 'lengthen'],
    [withMiddle('.5 in'), 'lengthen'],
    [withMiddle('60 in', '20 in'), 'shorten'],
  ])('offers what helps (%#)', (leader, offer) => {
    expect(onlyFinding(leader, 'segment-length').remedies.map((r) => r.id)).toContain(offer)
    expect(badOffers(leader)).toEqual([])
    expect(leftAfterOffers(leader, 'segment-length')).toEqual([])
  })

  it('offers a length clear of the knots even where the user allows less', () => {
    const own = { shortestPiece: 0.005 }
    expect(onlyFinding(withMiddle('.5 in'), 'segment-length', own).remedies.length).toBeGreaterThan(
      0,
    )
    expect(badOffers(withMiddle('.5 in'), own)).toEqual([])
    expect(leftAfterOffers(withMiddle('.5 in'), 'segment-length', own)).toEqual([])
  })
})
