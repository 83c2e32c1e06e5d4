// @vitest-environment node
import { describe, expect, it } from 'vitest'
import { leaderOf, leaderOfRecipe, soundLeader } from '../build'
import { badOffers, findingsOf, onlyFinding } from './support'
import { applyEdit, totalLength_m } from '../../../src/engine/leader'
import { RECIPES } from '../../reference/recipes'

const stepped = (
  above: string,
  below: string,
  purpose: 'general-dry' | 'tight-line-nymph' = 'general-dry',
) =>
  leaderOf(
    [
      { length: '40 in', diameter: '20 thou', part: 'butt' },
      { length: '20 in', diameter: above, part: 'mid-section' },
      { length: '20 in', diameter: below, part: 'mid-section' },
    ],
    { purpose },
  )

describe('step too big', () => {
  it('says so of a step that keeps less than our share of diameter, with its figures', () => {
    const finding = onlyFinding(stepped('17 thou', '11.5 thou'), 'step-too-big')
    expect(finding).toMatchObject({
      variant: 'ratio',
      severity: 'note',
      place: { kind: 'joint', index: 2 },
    })
    // By hand: 11.5/17 of the diameter, its fourth power of the stiffness (Machinery's Handbook, 2020).
    expect(finding.measured.ratio).toBeCloseTo(0.67647, 5)
    expect(finding.measured.stiffnessRatio).toBeCloseTo(0.20941, 4)
    expect(finding.measured.step_m).toBeCloseTo(5.5 * 2.54e-5, 9)
    expect(finding.source).not.toBe('')
  })

  it('says it more strongly of a step past a third', () => {
    // Nylon up to 35 % thinner does not hinge: G. Borger, article of 2009.
    expect(onlyFinding(stepped('17 thou', '11.2 thou'), 'step-too-big').severity).toBe('note')
    expect(onlyFinding(stepped('17 thou', '10.9 thou'), 'step-too-big').severity).toBe('caution')
  })

  it('counts thousandths where the ratio is right', () => {
    const thick = leaderOf([
      { length: '40 in', diameter: '40 thou', part: 'mid-section' },
      { length: '40 in', diameter: '35 thou', part: 'mid-section' },
    ])
    // .004 in is tolerated (common practice).
    expect(onlyFinding(thick, 'step-too-big')).toMatchObject({ variant: 'size' })
  })

  it('keeps silent about classic steps of .002 in', () => {
    const classic = RECIPES.find((r) => r.id.startsWith('classic'))
    if (!classic) throw new Error('no classic recipe')
    expect(findingsOf(leaderOfRecipe(classic), 'step-too-big')).toEqual([])
    expect(findingsOf(soundLeader(), 'step-too-big')).toEqual([])
  })

  it('keeps silent about one diameter in two colours or materials, and about steps at a sighter', () => {
    const joined = leaderOf(
      [
        { length: '4 m', diameter: '.25 mm', part: 'butt' },
        { length: '50 cm', diameter: '.25 mm', part: 'mid-section', material: 'fluorocarbon' },
        { length: '50 cm', diameter: '.20 mm', part: 'sighter' },
        { length: '1 m', diameter: '.12 mm', part: 'tippet' },
      ],
      { purpose: 'tight-line-nymph' },
    )
    expect(findingsOf(joined, 'step-too-big')).toEqual([])
  })

  it('lets a tight-line leader step as it likes', () => {
    expect(findingsOf(stepped('17 thou', '11.5 thou', 'tight-line-nymph'), 'step-too-big')).toEqual(
      [],
    )
  })

  it('takes the limit of the user and says whose it is', () => {
    expect(
      findingsOf(stepped('17 thou', '11.5 thou'), 'step-too-big', {
        stepRatioMiddle: 0.6,
        stepSize: 2e-4,
      }),
    ).toEqual([])
    const strict = onlyFinding(stepped('17 thou', '16 thou'), 'step-too-big', {
      stepRatioMiddle: 0.95,
    })
    expect(strict.source).toBe('your own limit')
    expect(strict.limit.ratio).toBe(0.95)
  })

  it('offers a piece between the two, which helps and leaves the total', () => {
    const long = leaderOf([
      { length: '40 in', diameter: '20 thou', part: 'butt' },
      { length: '30 in', diameter: '17 thou', part: 'mid-section' },
      { length: '20 in', diameter: '11.5 thou', part: 'mid-section' },
    ])
    const [remedy] = onlyFinding(long, 'step-too-big').remedies
    if (!remedy) throw new Error('nothing offered')
    const after = applyEdit(long, remedy.edit)
    expect(findingsOf(after, 'step-too-big')).toEqual([])
    expect(totalLength_m(after)).toBeCloseTo(90 * 0.0254, 9)
    expect(badOffers(long)).toEqual([])
  })
})
