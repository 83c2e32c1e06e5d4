// @vitest-environment node
import { describe, expect, it } from 'vitest'
import { leaderOf, lineOf, soundLeader } from '../build'
import { leftAfterOffers, badOffers, findingsOf, onlyFinding, whyNotChecked } from './support'
import type { Purpose } from '../../../src/engine/leader'

/** A line tip of .030 in, so that the share is easily worked by hand. */
const tied = (butt: string, purpose: Purpose = 'general-dry') =>
  leaderOf(
    [
      { length: '60 in', diameter: butt, part: 'butt' },
      { length: '20 in', diameter: '15 thou', part: 'mid-section' },
      { length: '24 in', diameter: '12 thou', part: 'tippet' },
    ],
    { purpose, outfit: { line: { ...lineOf('WF5F'), tipDiameter_m: 0.03 * 0.0254 } } },
  )

describe('butt and line', () => {
  // Two thirds of the line tip, 60 to 75 %; about half fails: J. Wulff, article on leaders; common practice.
  it.each([
    ['14 thou', 'thin', 'caution', 14 / 30],
    ['17 thou', 'thin', 'note', 17 / 30],
    ['24 thou', 'stout', 'note', 24 / 30],
  ])('a butt of %s on a tip of 30 is %s, a %s', (butt, variant, severity, ratio) => {
    const finding = onlyFinding(tied(butt), 'butt-and-line')
    expect(finding).toMatchObject({ variant, severity, place: { kind: 'joint', index: 0 } })
    expect(finding.measured.ratio).toBeCloseTo(ratio, 9)
    expect(finding.limit).toEqual({ low: 0.6, high: 0.75 })
    expect(finding.source).toContain('two thirds of the line tip, 60 to 75 %')
  })

  it.each(['18 thou', '20 thou', '22.5 thou'])('keeps silent about %s', (butt) => {
    expect(findingsOf(tied(butt), 'butt-and-line')).toEqual([])
  })

  it('keeps silent about the light butt of a slack-line leader', () => {
    expect(findingsOf(tied('14 thou', 'slack-line-dry'), 'butt-and-line')).toEqual([])
    expect(findingsOf(soundLeader(), 'butt-and-line')).toEqual([])
  })

  it('is not checked without a line, nor on a tight line', () => {
    expect(whyNotChecked({ ...tied('10 thou'), outfit: {} }, 'butt-and-line')).toBe('no-line')
    expect(whyNotChecked(tied('10 thou', 'tight-line-nymph'), 'butt-and-line')).toBe(
      'not-for-this-purpose',
    )
  })

  it('takes the limit of the user and says whose it is', () => {
    expect(findingsOf(tied('24 thou'), 'butt-and-line', { buttRatioHigh: 0.85 })).toEqual([])
    const strict = onlyFinding(tied('20 thou'), 'butt-and-line', { buttRatioLow: 0.72 })
    expect(strict.source).toBe('your own limit')
  })

  it.each([
    [tied('17 thou'), {}],
    [tied('24 thou'), {}],
    [tied('20 thou'), { buttRatioLow: 0.72 }],
    [tied('20 thou'), { buttRatioLow: 0.5, buttRatioHigh: 0.62 }],
  ])('offers a butt inside the limits, which helps (%#)', (leader, own) => {
    expect(onlyFinding(leader, 'butt-and-line', own).remedies.map((r) => r.id)).toEqual([
      'fit-butt',
    ])
    expect(badOffers(leader, own)).toEqual([])
    expect(leftAfterOffers(leader, 'butt-and-line', own)).toEqual([])
  })
})
