// @vitest-environment node
import { describe, expect, it } from 'vitest'
import { estimateTurnover } from '../../../src/engine/cast'
import { evaluate } from '../../../src/engine/evaluate'
import { applyEdit } from '../../../src/engine/leader'
import { profileOf } from '../../../src/engine/profile'
import { leaderOf, lineOf, soundLeader } from '../build'
import { findingsOf, onlyFinding, rank, whyNotChecked } from './support'
import type { CasterId, FlyStyle } from '../../../src/engine/tackle'
import { FLY_STYLES } from '../../../src/engine/tackle'
import type { Purpose } from '../../../src/engine/leader'

/** A long fine tippet, which a bulky fly on a light line is not carried round on. */
const overloaded = (
  style: FlyStyle = 'popper',
  { caster = 'ordinary', purpose = 'general-dry' }: { caster?: CasterId; purpose?: Purpose } = {},
) =>
  leaderOf(
    [
      { length: '40 in', diameter: '18 thou', part: 'butt' },
      { length: '30 in', diameter: '11 thou', part: 'mid-section' },
      { length: '40 in', diameter: '5X', part: 'tippet' },
    ],
    {
      purpose,
      outfit: { line: lineOf('WF4F'), caster },
      tip: { joint: { knot: 'improved-clinch' }, fly: { fly: { style, hook: 4 } } },
    },
  )

/** Rank of no finding at all: below a note's. */
const NOTHING = -1

/** What is said of a simulated cast that needs 20 m/s, well beyond an ordinary caster's 12 (from memory). */
function flown(purpose: Purpose, extension: number) {
  const turnover = {
    extension,
    flySpeedAtTurn_m_s: null,
    leastSpeed_m_s: 20,
    lineSpeed_m_s: 12,
    band: null,
  }
  const { findings } = evaluate(
    overloaded('popper', { purpose }),
    {},
    { turnover, cures: [] },
  ).checks
  return findings.filter((f) => f.id === 'turnover').map((f) => [f.variant, f.severity])
}

describe('turnover', () => {
  it('cautions about a fly that the leader does not carry round', () => {
    const finding = onlyFinding(overloaded('yarn-tuft'), 'turnover')
    expect(finding).toMatchObject({
      variant: 'collapsed',
      severity: 'caution',
      place: { kind: 'segment' },
    })
    // An ordinary caster throws about 12 m/s (from memory).
    expect(finding.limit.speed_m_s).toBe(12)
    expect(Number(finding.measured.needed_m_s)).toBeGreaterThan(12)
    expect(finding.source).toContain('estimate')
  })

  it('keeps silent about a leader that turns over', () => {
    expect(findingsOf(soundLeader(), 'turnover')).toEqual([])
  })

  it('is no caution in teaching, where a leader may fail', () => {
    expect(onlyFinding(overloaded('popper', { purpose: 'teaching' }), 'turnover').severity).toBe(
      'note',
    )
  })

  // Straight from 0.95 of its length, lazy from 0.85 (estimates of ours): 0.9 is lazy, 0.5 collapsed.
  it.each<[Purpose, number, string, string]>([
    ['teaching', 0.5, 'flown-collapsed', 'note'],
    ['teaching', 0.9, 'flown-lazy', 'note'],
    ['slack-line-dry', 0.9, 'flown-lazy', 'note'],
    ['slack-line-dry', 0.5, 'flown-collapsed', 'caution'],
    ['general-dry', 0.9, 'flown-lazy', 'caution'],
    ['general-dry', 0.5, 'flown-collapsed', 'caution'],
    ['streamer', 0.5, 'flown-collapsed', 'caution'],
  ])('of %s flown to %f says %s: a %s', (purpose, extension, variant, severity) => {
    expect(flown(purpose, extension)).toEqual([[variant, severity]])
  })

  it('is not checked without fly or line', () => {
    const leader = overloaded()
    expect(whyNotChecked({ ...leader, outfit: {} }, 'turnover')).toBe('no-line')
    expect(whyNotChecked({ ...leader, tip: { joint: leader.tip.joint } }, 'turnover')).toBe(
      'no-fly',
    )
  })

  it('is not checked on a tight line, which is not cast in loops', () => {
    const leader = overloaded('popper', { purpose: 'tight-line-nymph' })
    expect(whyNotChecked(leader, 'turnover')).toBe('not-for-this-purpose')
  })

  it('is only a note where the speed needed is within its own band of what is thrown', () => {
    const noted = FLY_STYLES.flatMap((style) => findingsOf(overloaded(style), 'turnover'))
    expect(new Set(noted.map((f) => f.severity))).toEqual(new Set(['note', 'caution']))
    for (const { severity, measured, limit } of noted) {
      // The needed speed is known within a quarter downwards, our estimate.
      const isWithin = 0.75 * Number(measured.needed_m_s) <= Number(limit.speed_m_s)
      expect(severity).toBe(isWithin ? 'note' : 'caution')
    }
  })

  it('asks more of a learner than of a strong caster', () => {
    const needed = (caster: CasterId) => {
      const leader = overloaded('popper', { caster })
      const estimate = estimateTurnover(leader, profileOf(leader))
      if (typeof estimate === 'string') throw new Error(estimate)
      return estimate.neededSpeed_m_s.value / estimate.caster.lineSpeed_m_s
    }
    expect(needed('learner')).toBeGreaterThan(needed('strong'))
  })

  it('offers only what cures, and of each kind the mildest', () => {
    const rescued = FLY_STYLES.map((style) => overloaded(style, { caster: 'strong' })).flatMap(
      (leader) => findingsOf(leader, 'turnover').map((finding) => ({ leader, finding })),
    )
    const offers = rescued.flatMap(({ leader, finding }) =>
      finding.remedies.map(({ id, edit }) => ({ id, cured: applyEdit(leader, edit), finding })),
    )
    expect(offers.length).toBeGreaterThan(0)
    for (const { cured, finding } of offers) {
      const after = findingsOf(cured, 'turnover')[0]
      expect(after ? rank(after) : NOTHING).toBeLessThan(rank(finding))
    }
    for (const { finding } of rescued) {
      const ids = finding.remedies.map((r) => r.id)
      expect(new Set(ids).size).toBe(ids.length)
    }
  })
})
