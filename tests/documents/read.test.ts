// @vitest-environment node
import { describe, expect, it } from 'vitest'
import { problemText, readFormula, readFormulaText } from '../../src/documents'
import { segment, smallest } from '../support/formulas'

function problemsOf(json: unknown) {
  const result = readFormula(json)
  return result.ok ? [] : result.problems
}

const of = (patch: object) => problemsOf({ ...smallest(), ...patch })
const ofSegment = (fields: object) => of({ segments: [segment(fields)] })

describe('a wrong file', () => {
  it('gives every problem at once, each with path, what was found and what would be right', () => {
    const problems = of({
      purpose: 'dry',
      outfit: { rod: 'nine', line: 'WF20F', wet: 'yes' },
      segments: [
        segment({ diameter: 12, joint: 'granny' }),
        segment({ part: undefined, material: 'silk', length: '40' }),
      ],
      tip: { fly: { style: 'parachute', hook: 40 } },
    })
    expect(problems.map(({ path, found }) => [path, found])).toEqual([
      ['purpose', '"dry"'],
      ['outfit.rod', '"nine"'],
      ['outfit.line', '"WF20F"'],
      ['outfit.wet', '"yes"'],
      ['segments[0].diameter', '12'],
      ['segments[0].joint', '"granny"'],
      ['segments[1].part', 'nothing'],
      ['segments[1].length', '"40"'],
      ['tip.fly.hook', '40'],
      ['segments[1].material', '"silk"'],
    ])
  })

  it('says in one line where, what and what instead', () => {
    const [problem] = ofSegment({ joint: { knot: 'blood', turns: '5 and 7' } })
    expect(problem && problemText(problem)).toBe(
      'segments[0].joint.turns: found "5 and 7"; would be right: two numbers: turns on the butt side and on the fly side',
    )
  })

  it.each(['{"format": ', 'leader', '', '{}}', '\u0000'])(
    'text %j is refused as no JSON',
    (text) => {
      const result = readFormulaText(text)
      expect(result).toMatchObject({
        ok: false,
        problems: [{ path: 'file', expected: expect.stringMatching(/^JSON \(.+\)$/) as string }],
      })
    },
  )

  it('may begin with a byte order mark, as some editors save it', () => {
    expect(readFormulaText(`\uFEFF${JSON.stringify(smallest())}`).ok).toBe(true)
  })
})

/** What stands in a field of a right file, and the words that the refusal must hold. */
const REFUSED: [where: string, patch: object, path: string, words: string][] = [
  ['no name', { name: undefined }, 'name', 'the name of the formula'],
  ['no purpose', { purpose: undefined }, 'purpose', 'one of general-dry, '],
  ['no segments', { segments: undefined }, 'segments', 'segments from butt to tippet'],
  ['an empty list', { segments: [] }, 'segments', 'at least one segment'],
  ['too many', { segments: Array(201).fill(segment()) }, 'segments', 'at most 200'],
  ['segments as a text', { segments: 'butt' }, 'segments', 'a list'],
  ['a segment as null', { segments: [null] }, 'segments[0]', 'a segment with part, material'],
  ['an endless name', { name: 'x'.repeat(20_001) }, 'name', 'at most 20000'],
  ['an unknown caster', { outfit: { caster: 'expert' } }, 'outfit.caster', 'learner, ordinary'],
  ['a bead without metal', { tip: { fly: bead({}) } }, 'tip.fly.bead.metal', 'tungsten, brass'],
  ['a drag area of 0', { tip: { fly: fly({ dragArea_mm2: 0 }) } }, 'tip.fly.dragArea_mm2', '0.01'],
  ['a hook of a half', { tip: { fly: fly({ hook: 13.5 }) } }, 'tip.fly.hook', '26 to 4/0'],
  ['a hook left out', { tip: { fly: fly({ hook: undefined }) } }, 'tip.fly.hook', '26 to 4/0'],
]

function fly(fields: object) {
  return { style: 'nymph', hook: 14, ...fields }
}

function bead(fields: object) {
  return fly({ bead: { diameter: '2 mm', ...fields } })
}

const REFUSED_IN_SEGMENT: [where: string, fields: object, path: string, words: string][] = [
  ['a figure as a number', { length: 12 }, 'length', `36 in, 7' 6", 7 1/2 ft, 30 cm or 1.2 m`],
  ['a diameter as a number', { diameter: 0.006 }, 'diameter', '5X, .006 in, 6 thou or 0.15 mm'],
  ['a strength as a number', { strength: 4 }, 'strength', '4 lb, 1.8 kg or 18 N'],
  ['a figure as null', { length: null }, 'length', '36 in'],
  ['a figure left out', { length: undefined }, 'length', '36 in'],
  ['a figure without unit', { length: '12' }, 'length', 'It could be 12 in or 12 ft'],
  ['a size without unit', { diameter: '.006' }, 'diameter', '".006" has no unit. Accepted: 5X'],
  ['a unit of another kind', { length: '12 lb' }, 'length', 'not a unit of length'],
  ['an unknown unit', { length: { text: '12', unit: 'el' } }, 'length', '36 in'],
  ['a full figure without text', { length: { unit: 'in' } }, 'length.text', 'a text'],
  ['a size beyond X', { diameter: '12X' }, 'diameter', 'from 0X to 8X'],
  ['a strength for a diameter', { diameter: '20 lb' }, 'diameter', 'It could be'],
  ['two notations of X', { diameter: 'X2' }, 'diameter', 'It could be'],
  ['a length of 70 m', { length: '70 m' }, 'length', ''],
  ['an endless figure', { length: `1${'0'.repeat(5000)} in` }, 'length', 'at most 100'],
  ['a part of no leader', { part: 'head' }, 'part', 'butt, mid-section, sighter'],
  ['a material as a number', { material: 3 }, 'material', 'the id of a material'],
  ['an unknown material', { material: 'silk' }, 'material', 'nylon-stiff, nylon-supple'],
  ['no turns', { joint: { knot: 'blood', turns: [0, 5] } }, 'joint.turns[0]', 'from 1 to 20'],
  ['turns of one side', { joint: { knot: 'blood', turns: [5] } }, 'joint.turns[1]', 'one side'],
  ['three turns', { joint: { knot: 'blood', turns: [5, 5, 5] } }, 'joint.turns[2]', 'two numbers'],
  ['a joint as a number', { joint: 5 }, 'joint', 'a knot, short as "blood"'],
  ['a dropper of silk', hung({ material: 'silk' }), 'attachments[0].material', 'nylon-stiff'],
  ['a dropper of nothing', hung({ kind: undefined }), 'attachments[0].kind', 'dropper, ring'],
  ['a dropper of 5', hung({ length: 5 }), 'attachments[0].length', '36 in'],
]

function hung(fields: object) {
  return { attachments: [{ kind: 'dropper', ...fields }] }
}

describe('refused, with the field and what would be right', () => {
  it.each(REFUSED)('%s', (_, patch, path, words) => {
    expect(of(patch)).toEqual([
      {
        path,
        found: expect.any(String) as string,
        expected: expect.stringContaining(words) as string,
      },
    ])
  })

  it.each(REFUSED_IN_SEGMENT)('in a segment: %s', (_, fields, path, words) => {
    expect(ofSegment(fields)).toEqual([
      {
        path: `segments[0].${path}`,
        found: expect.any(String) as string,
        expected: expect.stringContaining(words) as string,
      },
    ])
  })
})

const OWN = {
  id: 'own',
  name: 'Own',
  family: 'wire',
  density_kg_m3: 5000,
  modulus_Pa: 2e10,
  tensileStrength_Pa: 9e8,
}

describe('materials', () => {
  it('defined in the file are known in it, even if one of their figures is wrong', () => {
    const segments = [segment({ material: 'own' })]
    expect(of({ segments, materials: [OWN] })).toEqual([])
    expect(of({ segments, materials: [{ ...OWN, density_kg_m3: 5 }] })).toEqual([
      {
        path: 'materials[0].density_kg_m3',
        found: '5',
        expected: 'a number: density in kg/m3, from 500 to 20000',
      },
    ])
  })

  it('are defined once, since a segment could not say which it means', () => {
    expect(of({ materials: [OWN, { ...OWN, name: 'Other' }] })).toEqual([
      { path: 'materials[1].id', found: '"own"', expected: 'an id that no other has' },
    ])
  })

  it('may have the id of a built-in one, which they replace', () => {
    expect(of({ materials: [{ ...OWN, id: 'nylon-supple' }] })).toEqual([])
  })
})

describe('what was found', () => {
  it('is never longer than a line', () => {
    const wrong = [{ a: 'x'.repeat(500) }, Array(5000).fill(1), 'x'.repeat(5000), 1e300]
    for (const purpose of wrong) {
      const [problem] = of({ purpose })
      expect(problem?.found.length).toBeGreaterThan(0)
      expect(problem?.found.length).toBeLessThan(70)
    }
  })

  it('of a file nested without end is refused before anything else looks at it', () => {
    const depth = 20_000
    const text = `{"x-deep": ${'['.repeat(depth)}${']'.repeat(depth)}}`
    expect(readFormulaText(text)).toMatchObject({
      ok: false,
      problems: [{ path: 'file', expected: 'at most 40 levels of nesting' }],
    })
  })
})
