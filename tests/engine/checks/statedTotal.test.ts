// @vitest-environment node
import { describe, expect, it } from 'vitest'
import { q, soundLeader } from '../build'
import { leftAfterOffers, badOffers, findingsOf, onlyFinding, whyNotChecked } from './support'
import { applyEdit, totalLength_m } from '../../../src/engine/leader'

/** Its pieces make 108 in. */
const stating = (total: string) => ({ ...soundLeader(), statedTotal: q(total) })

describe('stated total', () => {
  it.each(['9 1/2 ft', '8 ft 10 in', '2.8 m'])('cautions about %s stated of 9 ft', (total) => {
    const finding = onlyFinding(stating(total), 'stated-total')
    expect(finding).toMatchObject({ severity: 'caution', place: { kind: 'leader', index: 0 } })
    expect(finding.measured.total_m).toBeCloseTo(108 * 0.0254, 9)
    expect(finding.limit.total_m).toBe(q(total).si)
    expect(finding.source).toContain('stated')
    expect(finding.remedies.map((r) => r.id)).toEqual(['restate', 'scale'])
    expect(badOffers(stating(total))).toEqual([])
    expect(leftAfterOffers(stating(total), 'stated-total')).toEqual([])
  })

  it.each(['9 ft', '108 in', '2.74 m', '109 in'])('keeps silent about %s', (total) => {
    expect(findingsOf(stating(total), 'stated-total')).toEqual([])
  })

  it('is not checked where none is stated', () => {
    const { statedTotal: _, ...leader } = soundLeader()
    expect(whyNotChecked(leader, 'stated-total')).toBe('no-stated-total')
  })

  it('never changes a length unasked, and scales to the total when asked', () => {
    const leader = stating('9 1/2 ft')
    onlyFinding(leader, 'stated-total')
    expect(totalLength_m(leader)).toBeCloseTo(108 * 0.0254, 9)
    const scale = onlyFinding(leader, 'stated-total').remedies.find((r) => r.id === 'scale')
    if (!scale) throw new Error('no scale offered')
    // Lengths are written to a tenth of an inch; the longest piece takes the rest.
    expect(totalLength_m(applyEdit(leader, scale.edit))).toBeCloseTo(114 * 0.0254, 6)
  })
})
