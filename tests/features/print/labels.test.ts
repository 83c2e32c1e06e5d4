import { describe, expect, it } from 'vitest'
import { evaluate } from '../../../src/engine/evaluate'
import { sayIn } from '../../../src/wording'
import {
  codeOn,
  FINEST_MODULE_MM,
  LABEL_SHEETS,
  labelPages,
  placeOfLabel,
  sheetProblem,
} from '../../../src/features/print/labels'
import { labelText, sheetRows } from '../../../src/features/print/sheetRows'
import { soundLeader } from '../../engine/build'
import { stand } from '../../support/fixture'
import { fixtures } from './fixtures'

const [first] = LABEL_SHEETS
const sheet = first!
const say = sayIn({ diameter: 'in', length: 'in', force: 'lb', speed: 'm/s' })

describe('label sheets', () => {
  it.each(LABEL_SHEETS.map((s) => [s.name, s] as const))('%s fits its paper', (_, s) => {
    expect(sheetProblem(s)).toBeUndefined()
  })

  it('of twenty-one labels have a second page for the twenty-second', () => {
    const labels = Array.from({ length: 22 }, (_, i) => i)
    expect(labelPages(sheet, labels, 1).map((page) => page.length)).toEqual([21, 1])
  })

  it('begin at the first label that is still on them', () => {
    expect(labelPages(sheet, ['a', 'b'], 3)).toEqual([[null, null, 'a', 'b']])
    expect(labelPages(sheet, ['a'], 99)[0]).toHaveLength(21)
  })

  it('lie by their margins and steps', () => {
    expect(placeOfLabel(sheet, 4)).toEqual({ left: sheet.left + 66, top: sheet.top + 38.1 })
  })

  it('that overlap or leave the paper are told', () => {
    expect(sheetProblem({ ...sheet, pitchX: 60 })).toContain('overlap')
    expect(sheetProblem({ ...sheet, rows: 8 })).toContain('beyond the paper')
  })

  it('give a code of twelve pieces modules that a phone reads, the smallest labels do not', () => {
    const module = (id: string) =>
      codeOn(
        LABEL_SHEETS.find((s) => s.id === id)!,
        61,
      ).module
    expect(module('a4-21')).toBeGreaterThan(FINEST_MODULE_MM)
    expect(module('letter-30')).toBeLessThan(FINEST_MODULE_MM)
  })

  it('count up to the number of labels', () => {
    const wrapper = stand(fixtures['LabelSheets.vue']!)
    expect(wrapper.findAll('.label')).toHaveLength(1)
    wrapper.unmount()
  })
})

describe('what stands on a sheet', () => {
  it('is every piece in tying order with the length so far', () => {
    const rows = sheetRows(evaluate(soundLeader()), say)
    // 38 + 12 + 9 + 8 + 8 + 7 + 26 = 108 in, added by hand.
    expect(rows.map(({ soFar }) => soFar)).toEqual(
      [38, 50, 59, 67, 75, 82, 108].map((inches) => `${inches} in`),
    )
    expect(rows[1]).toMatchObject({ knot: "Triple surgeon's", turns: '3 passes' })
    expect(rows[0]).toMatchObject({ knot: 'Loop to loop', steps: ['pass', 'draw', 'seat'] })
  })

  it('is short on a label', () => {
    const text = labelText(soundLeader(), say, false)
    expect(text).toMatchObject({ length: "9'", tippet: '5X', butt: '.020 in' })
    expect(text.recipe).toContain('38\u00a0×\u00a0.020')
  })
})
