// @vitest-environment node
import * as fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { readFormula, writeFormula, writeFormulaText } from '../../src/documents'
import type { Leader, Segment } from '../../src/engine/leader'
import type { Dimension, Unit } from '../../src/engine/units'
import { SI_SIZE, USUAL, quantityOf } from '../../src/engine/units'
import { formula } from '../support/arbitrary-formula'
import { SHIPPED, leaderOf, segment, smallest } from '../support/formulas'

const RUNS = { seed: 20240501, numRuns: 150 }

/** Every path of a value, with what stands there. */
function leaves(value: unknown, path = ''): [string, unknown][] {
  if (typeof value !== 'object' || value === null) return [[path, value]]
  return Object.entries(value).flatMap(([key, inner]) => leaves(inner, `${path}/${key}`))
}

/** What of a file is not in another: differences are shown by their paths. */
function lost(before: unknown, after: unknown): [string, unknown][] {
  const kept = new Map(leaves(after))
  return leaves(before).filter(([path, value]) => !Object.is(kept.get(path), value))
}

/** Hooks are written as a plain size, whatever was typed, and a full joint of a knot alone as the knot. */
function isRespelled([path]: [string, unknown]): boolean {
  return path.endsWith('/hook') || path.endsWith('/knot')
}

function spoiled(patch: object): Leader {
  return leaderOf(JSON.stringify({ ...smallest(), ...patch }))
}

function written(leader: Leader): Record<string, unknown> {
  return JSON.parse(writeFormulaText(leader)) as Record<string, unknown>
}

describe('round trip', () => {
  it.each(SHIPPED)('$file comes back the same, and nothing in it is lost', ({ text }) => {
    const leader = leaderOf(text)
    expect(leaderOf(writeFormulaText(leader))).toEqual(leader)
    expect(lost(JSON.parse(text), written(leader))).toEqual([])
  })

  it('any right file is read, written and read the same', () => {
    fc.assert(
      fc.property(formula, (file) => {
        const leader = leaderOf(JSON.stringify(file))
        const again = leaderOf(writeFormulaText(leader))
        expect(again).toEqual(leader)
        expect(writeFormulaText(again)).toBe(writeFormulaText(leader))
      }),
      RUNS,
    )
  })

  it('no field of any right file is lost, known or not, and none is respelled', () => {
    fc.assert(
      fc.property(formula, (file) => {
        const after = written(leaderOf(JSON.stringify(file)))
        expect(lost(file, after).filter((leaf) => !isRespelled(leaf))).toEqual([])
      }),
      RUNS,
    )
  })

  it('reading leaves the file as it was', () => {
    fc.assert(
      fc.property(formula, (file) => {
        const before = structuredClone(file)
        readFormula(file)
        expect(file).toEqual(before)
      }),
      { ...RUNS, numRuns: 100 },
    )
  })
})

const DIAMETERS: [typed: unknown, si: number][] = [
  ['.006 in', 1.524e-4],
  ['0.006"', 1.524e-4],
  ['5X', 1.524e-4],
  ['5x', 1.524e-4],
  ['6 thou', 1.524e-4],
  ['0,15 mm', 1.5e-4],
  ['0.150mm', 1.5e-4],
  [{ text: '.006', unit: 'in' }, 1.524e-4],
  [{ text: '0,15', unit: 'mm' }, 1.5e-4],
  [{ text: '5', unit: 'X' }, 1.524e-4],
  [{ text: '.017', unit: 'in', estimatedFrom: '20 lb' }, 4.318e-4],
  [{ text: '.017 in', estimatedFrom: '20 lb' }, 4.318e-4],
]

const LENGTHS: [typed: unknown, si: number][] = [
  [`7' 6"`, 2.286],
  ['7 ft 6 in', 2.286],
  ['7 1/2 ft', 2.286],
  ['7½ ft', 2.286],
  ['90 cm', 0.9],
  ['1,2 m', 1.2],
  [{ text: '36', unit: 'in' }, 0.9144],
]

/** Inch, foot and the X sizes by definition (NIST SP 811, 2008; rule of eleven, common practice). */
describe('what was typed', () => {
  it.each(DIAMETERS)('diameter %j is saved letter for letter', (typed, si) => {
    const leader = spoiled({ segments: [segment({ diameter: typed })] })
    expect(leader.segments[0]?.diameter.si).toBeCloseTo(si, 12)
    expect(written(leader)).toMatchObject({ segments: [{ diameter: typed }] })
  })

  it.each(LENGTHS)('length %j is saved letter for letter', (typed, si) => {
    const leader = spoiled({ segments: [segment({ length: typed })] })
    expect(leader.segments[0]?.length.si).toBeCloseTo(si, 12)
    expect(written(leader)).toMatchObject({ segments: [{ length: typed }] })
  })

  it('a bare figure and an estimate stay marked as such', () => {
    const typed = { text: '.017', unit: 'in', estimatedFrom: '20 lb' }
    const leader = spoiled({ segments: [segment({ diameter: typed })] })
    expect(leader.segments[0]?.diameter).toEqual({ ...typed, si: 4.318e-4, bare: true })
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
const x = { 'x-later': { a: [1, null, 'b'] } }

const PLACES: [place: string, patch: object][] = [
  ['file', { ...x }],
  ['outfit', { outfit: { rod: '9 ft', ...x } }],
  ['outfit with nothing else', { outfit: { ...x } }],
  ['segment', { segments: [segment(x)] }],
  ['joint', { segments: [segment({ joint: { knot: 'nail', ...x } })] }],
  ['tip', { tip: { ...x } }],
  ['joint of the tip', { tip: { joint: { knot: 'uni', ...x } } }],
  ['fly', { tip: { fly: { style: 'nymph', hook: 14, ...x } } }],
  [
    'bead',
    {
      tip: {
        fly: { style: 'nymph', hook: 14, bead: { metal: 'brass', diameter: '2 mm', ...x } },
      },
    },
  ],
  ['attachment', { segments: [segment({ attachments: [{ kind: 'ring', ...x }] })] }],
  ['material', { materials: [{ ...OWN, ...x }] }],
]

describe('fields this version does not know', () => {
  it.each(PLACES)('survive at: %s', (_, patch) => {
    expect(lost({ ...smallest(), ...patch }, written(spoiled(patch)))).toEqual([])
  })

  it('survive under names that every object has', () => {
    const patch = { toString: 'kept', valueOf: 7, hasOwnProperty: [1] }
    expect(written(spoiled(patch))).toMatchObject(patch)
  })

  it('the address of the schema stays first, where editors look for it', () => {
    const $schema = '../public/leader.schema.json'
    expect(Object.entries(writeFormula(spoiled({ $schema })))[0]).toEqual(['$schema', $schema])
  })
})

/** A formula holds no lengths of spools. */
type Held = Exclude<Dimension, 'spool-length'>
const HELD = Object.keys(SI_SIZE).filter((dimension) => dimension !== 'spool-length') as Held[]

const UNITS = HELD.flatMap((dimension) => {
  const special = { diameter: ['X'], length: ['ft-in'], force: [], mass: [] }[dimension]
  return [...Object.keys(SI_SIZE[dimension]), ...special].map(
    (unit) => [dimension, unit as Unit] as const,
  )
})

/** The field that holds a figure of each dimension. */
function withFigure(dimension: Held, si: number, unit: Unit): Leader {
  const leader = spoiled({ segments: [segment()] })
  const figure = quantityOf(si, dimension, unit)
  const [first] = leader.segments
  if (!first) throw new RangeError('A leader has a segment.')
  if (dimension === 'mass') return { ...leader, outfit: { fish: figure } }
  const field = ({ diameter: 'diameter', length: 'length', force: 'strength' } as const)[dimension]
  return { ...leader, segments: [{ ...first, [field]: figure } satisfies Segment] }
}

describe('figures the tool made', () => {
  it.each(UNITS)('%s in %s is read back as the same value', (dimension, unit) => {
    const { low, high } = USUAL[dimension]
    // Below these a figure in the largest unit rounds to nothing.
    const least = { mass: 0.05, length: 0.05, diameter: low, force: low }[dimension]
    fc.assert(
      fc.property(fc.double({ min: Math.max(least, low), max: high, noNaN: true }), (si) => {
        const leader = withFigure(dimension, si, unit)
        const before = new Map(leaves(leader))
        for (const [path, value] of leaves(leaderOf(writeFormulaText(leader)))) {
          // Readings are rounded to twelve figures, figures made by the tool are not.
          if (path.endsWith('/si'))
            expect(Number(value) / Number(before.get(path))).toBeCloseTo(1, 11)
        }
      }),
      { ...RUNS, numRuns: 100 },
    )
  })

  it('a fly that was weighed by the tool and not typed keeps its figures', () => {
    const fly = {
      style: 'nymph' as const,
      hook: 14,
      bead: { metal: 'brass' as const, diameter_m: 2.4e-3 },
      mass_kg: 3.21e-5,
      dragArea_m2: 1.23e-5,
    }
    const leader = spoiled({})
    const tip = { ...leader.tip, fly: { fly } }
    const again = leaderOf(writeFormulaText({ ...leader, tip }))
    expect(again.tip.fly?.fly.bead?.diameter_m).toBeCloseTo(2.4e-3, 9)
    expect(again.tip.fly?.fly.mass_kg).toBeCloseTo(3.21e-5, 12)
    expect(again.tip.fly?.fly.dragArea_m2).toBeCloseTo(1.23e-5, 12)
  })
})
