// @vitest-environment node
import { describe, expect, it } from 'vitest'
import { leaderOf, soundLeader, withPiece } from '../build'
import { badOffers, findingsOf, leftAfterOffers, onlyFinding } from './support'

const twins = leaderOf([
  { length: '20 in', diameter: '15 thou', part: 'butt' },
  { length: '20 in', diameter: '15 thou', part: 'butt' },
  { length: '20 in', diameter: '10 thou', part: 'tippet' },
])

describe('same neighbours', () => {
  it('says that a knot joins two like pieces', () => {
    const finding = onlyFinding(twins, 'same-neighbours')
    expect(finding).toMatchObject({ severity: 'note', place: { kind: 'joint', index: 1 } })
    expect(finding.measured.diameter_m).toBeCloseTo(15 * 2.54e-5, 9)
    expect(finding.source).not.toBe('')
  })

  it.each([
    ['colour', { colour: 'yellow' }],
    ['material', { material: 'fluorocarbon' }],
    ['part', { part: 'tippet' as const }],
    ['a dropper on the knot', { attachments: [{ kind: 'dropper' as const }] }],
  ])('keeps silent where the two differ by %s', (_, patch) => {
    expect(findingsOf(withPiece(twins, 1, patch), 'same-neighbours')).toEqual([])
  })

  // A hopper leader was once laid down with .0195 in of taper below .020 in of butt: half a thousandth is
  // within what spools of one size differ by (estimate), and the knot costs strength (common practice).
  it('counts half a thousandth as no step, from the butt into the taper too', () => {
    const hopper = leaderOf([
      { length: '39.5 in', diameter: '.023 in', part: 'butt' },
      { length: '14.5 in', diameter: '.020 in', part: 'butt' },
      { length: '8 in', diameter: '.0195 in', part: 'mid-section' },
      { length: '6 in', diameter: '.0165 in', part: 'mid-section' },
      { length: '6 in', diameter: '.014 in', part: 'mid-section' },
      { length: '6 in', diameter: '.0115 in', part: 'mid-section' },
      { length: '28 in', diameter: '2X', part: 'tippet' },
    ])
    expect(onlyFinding(hopper, 'same-neighbours')).toMatchObject({
      place: { kind: 'joint', index: 2 },
      remedies: [{ id: 'restep' }],
    })
    expect(badOffers(hopper)).toEqual([])
    // One piece of .020 in would step down to .0165 in by more than a butt should.
    expect(leftAfterOffers(hopper, 'same-neighbours')).toEqual([])
  })

  it('keeps silent about a level line that is shown to a class', () => {
    const level = withPiece(twins, 1, { part: 'mid-section' })
    expect(findingsOf({ ...level, purpose: 'teaching' }, 'same-neighbours')).toEqual([])
  })

  it('keeps silent about a taper', () => {
    expect(findingsOf(soundLeader(), 'same-neighbours')).toEqual([])
  })

  it('offers to join them, which helps, one pair at a time', () => {
    const triplets = withPiece(twins, 2, {
      part: 'butt',
      diameter: twins.segments[0]?.diameter ?? fail(),
    })
    expect(onlyFinding(twins, 'same-neighbours').remedies.map((r) => r.id)).toContain('join')
    expect(findingsOf(triplets, 'same-neighbours')).toHaveLength(2)
    expect(badOffers(triplets)).toEqual([])
  })
})

function fail(): never {
  throw new Error('no such segment')
}
