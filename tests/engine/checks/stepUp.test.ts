// @vitest-environment node
import { describe, expect, it } from 'vitest'
import { leaderOf, soundLeader } from '../build'
import { leftAfterOffers, badOffers, findingsOf, onlyFinding } from './support'
import type { Part, Purpose } from '../../../src/engine/leader'

const rising = (part: Part, purpose: Purpose = 'general-dry') =>
  leaderOf(
    [
      { length: '40 in', diameter: '20 thou', part: 'butt' },
      { length: '20 in', diameter: '10 thou', part: 'tippet' },
      { length: '12 in', diameter: '15 thou', part },
    ],
    { purpose },
  )

describe('step up', () => {
  it('says that a leader gets thicker towards the fly', () => {
    const finding = onlyFinding(rising('tippet'), 'step-up')
    expect(finding).toMatchObject({ severity: 'caution', place: { kind: 'joint', index: 2 } })
    expect(finding.measured.ratio).toBeCloseTo(1.5, 9)
    expect(finding.source).toContain('common practice')
  })

  it.each(['bite', 'shock', 'sighter'] as const)(
    'keeps silent about a step up into a %s',
    (part) => {
      expect(findingsOf(rising(part), 'step-up')).toEqual([])
    },
  )

  it('keeps silent about a taper, and about one size from two spools', () => {
    expect(findingsOf(soundLeader(), 'step-up')).toEqual([])
    const equal = leaderOf([
      { length: '40 in', diameter: '.200 mm', part: 'butt' },
      { length: '40 in', diameter: '.204 mm', part: 'mid-section', material: 'copolymer' },
    ])
    expect(findingsOf(equal, 'step-up')).toEqual([])
  })

  it.each(['teaching', 'tight-line-nymph'] as const)('is only a note for %s', (purpose) => {
    expect(onlyFinding(rising('tippet', purpose), 'step-up').severity).toBe('note')
  })

  it('offers the diameter above, which helps', () => {
    const { remedies } = onlyFinding(rising('tippet'), 'step-up')
    expect(remedies.map((r) => r.id)).toEqual(['match-above'])
    expect(badOffers(rising('tippet'))).toEqual([])
    expect(leftAfterOffers(rising('tippet'), 'step-up')).toEqual([])
  })
})
