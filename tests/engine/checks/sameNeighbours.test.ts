// @vitest-environment node
import { describe, expect, it } from 'vitest'
import { leaderOf, soundLeader, withPiece } from '../build'
import { badOffers, findingsOf, onlyFinding } from './support'

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
    ['part', { part: 'mid-section' as const }],
    ['a dropper on the knot', { attachments: [{ kind: 'dropper' as const }] }],
  ])('keeps silent where the two differ by %s', (_, patch) => {
    expect(findingsOf(withPiece(twins, 1, patch), 'same-neighbours')).toEqual([])
  })

  it('keeps silent about a taper', () => {
    expect(findingsOf(soundLeader(), 'same-neighbours')).toEqual([])
  })

  it('offers to join them, which helps, one pair at a time', () => {
    const triplets = withPiece(twins, 2, {
      part: 'butt',
      diameter: twins.segments[0]?.diameter ?? fail(),
    })
    expect(onlyFinding(twins, 'same-neighbours').remedies.map((r) => r.id)).toEqual(['join'])
    expect(findingsOf(triplets, 'same-neighbours')).toHaveLength(2)
    expect(badOffers(triplets)).toEqual([])
  })
})

function fail(): never {
  throw new Error('no such segment')
}
