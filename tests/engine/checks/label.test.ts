// @vitest-environment node
import { describe, expect, it } from 'vitest'
import { leaderOf, leaderOfRecipe, soundLeader, withPiece } from '../build'
import { badOffers, findingsOf, onlyFinding, whyNotChecked } from './support'
import { RECIPES } from '../../reference/recipes'
import { applyEdit } from '../../../src/engine/leader'

const labelled = (diameter: string, label: string) =>
  leaderOf([{ length: '24 in', diameter, part: 'tippet', label }])

describe('label', () => {
  it('says that the tippet of a published recipe, .006 in labelled 6X, is 5X', () => {
    // A published recipe labels it so; rule of eleven, thousandths = 11 - X (common practice).
    const recipe = RECIPES.find((r) => r.id.includes('labelled 6X'))
    if (!recipe) throw new Error('no labelled recipe')
    const finding = onlyFinding(leaderOfRecipe(recipe), 'label')
    expect(finding).toMatchObject({ severity: 'caution', place: { kind: 'segment', index: 6 } })
    expect(finding.measured).toMatchObject({ label: '6X' })
    expect(finding.limit).toMatchObject({ label: '5X' })
    expect(finding.source).toContain('11 - X')
    expect(badOffers(leaderOfRecipe(recipe))).toEqual([])
  })

  it.each([
    ['.006 in', '5X'],
    ['0.152 mm', '5x'],
    ['.0055 in', '5X'],
    ['.020 in', '1/5'],
  ])('keeps silent about %s labelled %s', (diameter, label) => {
    expect(findingsOf(labelled(diameter, label), 'label')).toEqual([])
  })

  it('is not checked where no label says a size', () => {
    expect(whyNotChecked(withPiece(soundLeader(), 6, { label: 'clear' }), 'label')).toBe('no-label')
    expect(whyNotChecked(labelled('.016 in', '20 lb'), 'label')).toBe('no-label')
  })

  it('offers to change the label or to take the diameter, and both settle it', () => {
    const leader = labelled('.008 in', '5X')
    const { remedies } = onlyFinding(leader, 'label')
    expect(remedies.map((r) => r.id)).toEqual(['relabel', 'set-diameter'])
    for (const { edit } of remedies)
      expect(findingsOf(applyEdit(leader, edit), 'label')).toEqual([])
  })
})
