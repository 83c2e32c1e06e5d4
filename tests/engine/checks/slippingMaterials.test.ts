// @vitest-environment node
import { describe, expect, it } from 'vitest'
import { leaderOf, soundLeader } from '../build'
import { leftAfterOffers, badOffers, findingsOf, onlyFinding } from './support'
import type { KnotId } from '../../../src/engine/materials'

const mixed = (above: string, below: string, knot: KnotId) =>
  leaderOf([
    { length: '40 in', diameter: '12 thou', part: 'butt', material: above },
    { length: '30 in', diameter: '10 thou', part: 'tippet', material: below, knot },
  ])

describe('slipping materials', () => {
  it.each([
    ['nylon-stiff', 'fluorocarbon'],
    ['fluorocarbon', 'copolymer'],
  ])('cautions about %s to %s by a blood knot', (above, below) => {
    // Nylon to fluorocarbon by triple surgeon's: common practice.
    const finding = onlyFinding(mixed(above, below, 'blood'), 'slipping-materials')
    expect(finding).toMatchObject({
      severity: 'caution',
      place: { kind: 'joint', index: 1 },
      measured: { knot: 'blood' },
    })
    expect(finding.source).toContain('common practice')
  })

  it.each(['surgeons-triple', 'ring', 'uni-to-uni'] as const)('keeps silent about a %s', (knot) => {
    expect(findingsOf(mixed('nylon-stiff', 'fluorocarbon', knot), 'slipping-materials')).toEqual([])
  })

  it('keeps silent where both are of one kind', () => {
    expect(
      findingsOf(mixed('fluorocarbon', 'fluorocarbon', 'blood'), 'slipping-materials'),
    ).toEqual([])
    expect(findingsOf(mixed('nylon-stiff', 'copolymer', 'blood'), 'slipping-materials')).toEqual([])
    expect(findingsOf(soundLeader(), 'slipping-materials')).toEqual([])
  })

  it('offers the knot that holds, which helps', () => {
    const leader = mixed('nylon-stiff', 'fluorocarbon', 'blood')
    expect(onlyFinding(leader, 'slipping-materials').remedies.map((r) => r.id)).toEqual([
      'change-knot',
    ])
    expect(badOffers(leader)).toEqual([])
    expect(leftAfterOffers(leader, 'slipping-materials')).toEqual([])
  })
})
