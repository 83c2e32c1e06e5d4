// @vitest-environment node
import { describe, expect, it } from 'vitest'
import { leaderOf, q, soundLeader, withPiece } from '../build'
import { leftAfterOffers, badOffers, findingsOf, onlyFinding } from './support'
import { POUND_FORCE_N } from '../../../src/engine/units'

const weakMiddle = (strength: string) =>
  withPiece(
    leaderOf([
      { length: '40 in', diameter: '20 thou', part: 'butt' },
      { length: '20 in', diameter: '12 thou', part: 'mid-section' },
      { length: '24 in', diameter: '10 thou', part: 'tippet', strength: '8 lb' },
    ]),
    1,
    { pullTest: q(strength, 'force') },
  )

describe('weakest link', () => {
  it('says that a leader breaks above its tippet, and where', () => {
    const finding = onlyFinding(weakMiddle('4 lb'), 'weakest-link')
    // Its knots are weaker than the piece, and of two equals the one nearer the fly is named.
    expect(finding).toMatchObject({ severity: 'caution', place: { kind: 'joint', index: 2 } })
    // By hand: 4 lb, wet 0.85 (US Fish & Wildlife Service, Net materials), triple surgeon's 0.85.
    expect(Number(finding.measured.strength_N) / POUND_FORCE_N).toBeCloseTo(4 * 0.85 * 0.85, 6)
    expect(finding.source).not.toBe('')
  })

  it('keeps silent where the tippet or one of its knots is weakest', () => {
    expect(findingsOf(weakMiddle('20 lb'), 'weakest-link')).toEqual([])
    expect(findingsOf(soundLeader(), 'weakest-link')).toEqual([])
  })

  it.each(['1 lb', '4 lb', '6 lb'])(
    'offers a piece that holds, where one of %s is weak',
    (strength) => {
      const leader = weakMiddle(strength)
      expect(onlyFinding(leader, 'weakest-link').remedies.map((r) => r.id)).toEqual([
        'set-diameter',
      ])
      expect(badOffers(leader)).toEqual([])
      expect(leftAfterOffers(leader, 'weakest-link')).toEqual([])
    },
  )
})
