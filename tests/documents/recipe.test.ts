// @vitest-environment node
import * as fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { readFormula, readRecipe, writeFormula, writeRecipe } from '../../src/documents'
import { totalLength_m } from '../../src/engine/leader'
import { SHIPPED } from '../support/formulas'

const piecesOf = (text: string) =>
  readRecipe(text).leader?.segments.map(({ length, diameter }) => [length.si, diameter.si] as const)

const IN = 0.0254
const THOU = 2.54e-5

describe('a recipe that was written here', () => {
  it.each(SHIPPED)('$file reads back with its pieces, parts, materials and knots', ({ text }) => {
    const read = readFormula(JSON.parse(text))
    if (!read.ok) throw new Error('a shipped formula must read')
    const { leader } = read
    const back = readRecipe(writeRecipe(leader))
    expect(back.lines.filter(({ as }) => as === 'not-understood')).toEqual([])
    expect(back.leader?.name).toBe(leader.name)
    const facts = (l: typeof leader) =>
      l.segments.map(({ length, diameter, measured, part, joint, material }) => [
        length.si,
        (measured ?? diameter).si,
        part,
        joint.knot,
        l.materials.some((m) => m.id === material) ? 'own' : material,
      ])
    const wanted = facts(leader)
    const found = facts(back.leader!).map((row, i) =>
      wanted[i]?.at(-1) === 'own' ? [...row.slice(0, -1), 'own'] : row,
    )
    expect(found).toEqual(wanted)
  })
})

describe('what people paste', () => {
  // The published guide's 9 ft 4X: 36@.019, 16@.017, 12@.015, 6@.013, 6@.011, 6@.009, 26@.007, 108 in.
  const KASHNER = [36, 16, 12, 6, 6, 6, 26].map((l, i) => [l, 19 - 2 * i] as const)
  const wanted = KASHNER.map(([l, d]) => [l * IN, d * THOU])

  it.each([
    ['trade lines', KASHNER.map(([l, d]) => `${l} in .0${String(d).padStart(2, '0')}`).join('\n')],
    ['inch signs and "of"', KASHNER.map(([l, d]) => `${l}" of ${d} thou`).join('\n')],
    [
      'curly quotes',
      KASHNER.map(([l, d]) => `${l}” of .0${String(d).padStart(2, '0')}”`).join('\n'),
    ],
    ['at signs in one line', KASHNER.map(([l, d]) => `${l}@${d}`).join(', ')],
    ['bullets', KASHNER.map(([l, d]) => `- ${l} inches ${d} thou nylon`).join('\n')],
    ['size first', KASHNER.map(([l, d]) => `.0${String(d).padStart(2, '0')}: ${l} in`).join('\n')],
    ['numbered', KASHNER.map(([l, d], i) => `${i + 1}. ${l} in ${d} thou`).join('\n')],
  ])('is read: %s', (_, text) => {
    const found = piecesOf(text)
    expect(found?.length).toBe(7)
    for (const [i, [l, d]] of (found ?? []).entries()) {
      expect(l).toBeCloseTo(wanted[i]?.[0] ?? 0, 9)
      expect(d).toBeCloseTo(wanted[i]?.[1] ?? 0, 9)
    }
    // The recipe states 108 in: 9 ft.
    expect(totalLength_m(readRecipe(text).leader!)).toBeCloseTo(108 * IN, 9)
  })

  // The published tight-line leader in metres: 400 cm of .25 mm, 50 of .22, 50 of .20.
  it('is read in metric', () => {
    expect(piecesOf('400 cm 0,25 mm\n50 cm .22 mm\n50cm x 0.20mm')).toEqual([
      [4, 2.5e-4],
      [0.5, 2.2e-4],
      [0.5, 2e-4],
    ])
  })

  it('is read with feet and inches, fractions, X sizes and ranges', () => {
    const { leader, lines } = readRecipe(`4 ft .020\n1' 6" .013\n7 1/2 in 2X\n22–28 in 5X tippet`)
    expect(leader?.segments.map(({ length }) => Math.round(length.si / IN / 0.1) / 10)).toEqual([
      48, 18, 7.5, 22,
    ])
    expect(lines[3]?.remarks[0]).toContain('lower')
  })

  it('keeps what was typed as it was typed', () => {
    const segment = readRecipe('36 in .019').leader?.segments[0]
    expect(segment?.length.text).toBe('36 in')
    expect(segment?.diameter).toMatchObject({ text: '.019', unit: 'in', bare: true })
  })

  it('takes part, material and knot from the words and keeps the rest as a note', () => {
    const { leader, lines } = readRecipe('Butt: 36 in .019 hard mono, nail knot, dyed olive')
    expect(leader?.segments[0]).toMatchObject({
      part: 'butt',
      material: 'nylon-stiff',
      joint: { knot: 'nail' },
      note: 'dyed olive',
    })
    expect(lines[0]?.remarks).toEqual(['Kept as a note: dyed olive'])
  })

  it('never takes a strength for a diameter without saying so', () => {
    const { leader, lines } = readRecipe('48 in of 50 lb')
    expect(leader?.segments[0]).toMatchObject({
      strength: { text: '50 lb' },
      diameter: { estimatedFrom: '50 lb' },
    })
    expect(lines[0]?.remarks[0]).toContain('Measure it')
  })

  it('is marked line by line where it was not understood', () => {
    const text = 'Evening leader 9 ft 5X\n36 in .019\nthen some more\n24 in\n\n26 in 5X\ntotal 9 ft'
    const { lines, leader } = readRecipe(text)
    expect(lines.map(({ as }) => as)).toEqual([
      'name',
      'piece',
      'not-understood',
      'not-understood',
      'empty',
      'piece',
      'total',
    ])
    expect(lines[3]?.remarks[0]).toContain('a length and a size')
    expect(leader?.name).toBe('Evening leader 9 ft 5X')
    expect(leader?.statedTotal?.text).toBe('9 ft')
  })

  it('gives a formula that reads, or none, whatever it is', () => {
    const line = fc.oneof(
      fc.string({ maxLength: 60 }),
      fc.stringMatching(/^[0-9 .,'"/@xXinftcmlb-]{0,30}$/),
      fc.stringMatching(/^\d{1,3} in \.\d{2,4} ?[a-z ]{0,20}$/),
    )
    fc.assert(
      fc.property(fc.array(line, { maxLength: 8 }), (lines) => {
        const { leader } = readRecipe(lines.join('\n'))
        if (leader) expect(readFormula(writeFormula(leader))).toMatchObject({ ok: true })
      }),
      { numRuns: 1500, seed: 9 },
    )
  })
})

describe('what is left out of a recipe', () => {
  it('is told: lines past 400, and pieces past 200', () => {
    const many = readRecipe(Array.from({ length: 450 }, () => '10 in .017').join('\n'))
    expect(many.leader?.segments).toHaveLength(200)
    const told = many.lines.slice(400).map(({ as, remarks }) => [as, ...remarks])
    expect(told).toEqual([
      ['not-understood', expect.stringContaining('first 400 lines')],
      ['not-understood', expect.stringContaining('at most 200')],
    ])
  })
})
