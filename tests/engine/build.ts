/** Leaders for tests, written as a person would write them, and arbitrary ones for properties. */
import fc from 'fast-check'
import type { Leader, Part, Purpose, Segment } from '../../src/engine/leader'
import type { KnotId } from '../../src/engine/materials'
import type { Dimension, Quantity } from '../../src/engine/units'
import type { PoundRecipe, Recipe } from '../reference/recipes'
import { KNOT_IDS } from '../../src/engine/materials'
import { PURPOSES } from '../../src/engine/leader'
import { FLY_STYLES, parseDesignation } from '../../src/engine/tackle'
import { parseQuantity, parseWithUnit, quantityOf } from '../../src/engine/units'

export function q(text: string, dimension: Dimension = 'length'): Quantity {
  const reading = parseWithUnit(text, dimension)
  if (reading.status !== 'read') throw new Error(`"${text}" is no ${dimension}`)
  return reading.quantity
}

export const size = (text: string) => q(text, 'diameter')

export function lineOf(designation: string) {
  const line = parseDesignation(designation)
  if (!line) throw new Error(`"${designation}" is no line`)
  return line
}

export interface PieceText {
  readonly length: string
  readonly diameter: string
  readonly part: Part
  readonly material?: string
  readonly label?: string
  readonly strength?: string
  readonly knot?: KnotId
}

function segmentOf(piece: PieceText, index: number): Segment {
  const { length, diameter, part, material = 'nylon-supple', label, strength, knot } = piece
  return {
    key: index + 1,
    part,
    material,
    diameter: size(diameter),
    length: q(length),
    ...(label === undefined ? {} : { label }),
    ...(strength === undefined ? {} : { strength: q(strength, 'force') }),
    joint: { knot: knot ?? (index === 0 ? 'loop-to-loop' : 'surgeons-triple') },
    attachments: [],
  }
}

export function leaderOf(pieces: readonly PieceText[], patch: Partial<Leader> = {}): Leader {
  return {
    name: 'test',
    purpose: 'general-dry',
    outfit: {},
    segments: pieces.map(segmentOf),
    tip: { joint: { knot: 'improved-clinch' } },
    materials: [],
    ...patch,
  }
}

/** An ordinary 9 ft 5X dry-fly leader, with all that any rule asks for, against which nothing is to be said. */
export function soundLeader(): Leader {
  const pieces: PieceText[] = [
    { length: '38 in', diameter: '.020 in', part: 'butt' },
    { length: '12 in', diameter: '.0175 in', part: 'butt' },
    { length: '9 in', diameter: '.015 in', part: 'mid-section' },
    { length: '8 in', diameter: '.012 in', part: 'mid-section' },
    { length: '8 in', diameter: '.010 in', part: 'mid-section' },
    { length: '7 in', diameter: '.008 in', part: 'mid-section' },
    { length: '26 in', diameter: '5X', part: 'tippet', label: '5X' },
  ]
  return leaderOf(pieces, {
    statedTotal: q('9 ft'),
    outfit: {
      rod: q('9 ft'),
      line: lineOf('WF5F'),
      fish: q('1 lb', 'mass'),
      caster: 'ordinary',
    },
    tip: { joint: { knot: 'improved-clinch' }, fly: { fly: { style: 'parachute', hook: 18 } } },
  })
}

/** One piece of a leader changed. */
export function withPiece(leader: Leader, i: number, patch: Partial<Segment>): Leader {
  return { ...leader, segments: leader.segments.map((s, k) => (k === i ? { ...s, ...patch } : s)) }
}

/** A recipe in diameters as a leader, with an ordinary outfit. */
export function leaderOfRecipe(recipe: Recipe): Leader {
  return leaderOf(recipe.pieces, { name: recipe.id, purpose: recipe.purpose })
}

/** A recipe in pounds, once the angler has taken the middle of the range offered for each strength. */
export function leaderOfPounds(recipe: PoundRecipe): Leader {
  const pieces = recipe.pieces.map(([length, strength, part]) => ({
    length: `${length} in`,
    diameter: middleOf(strength),
    part,
    material: 'nylon-stiff',
    strength,
  }))
  return leaderOf(pieces, { name: recipe.id, purpose: recipe.purpose })
}

function middleOf(strength: string): string {
  const reading = parseQuantity(strength, 'diameter', 'in')
  if (reading.status !== 'ask') throw new Error(`"${strength}" was not asked about`)
  return reading.choices[1]?.quantity.text ?? ''
}

const PARTS_IN_ORDER: readonly Part[] = ['butt', 'mid-section', 'sighter', 'tippet', 'bite']
const MATERIALS = ['nylon-stiff', 'nylon-supple', 'copolymer', 'fluorocarbon']

/** Any leader that a person could write: even one that no-one should fish. */
export const anyLeader: fc.Arbitrary<Leader> = fc
  .record({
    segments: fc.array(anySegment(), { minLength: 1, maxLength: 12 }),
    purpose: fc.constantFrom<Purpose>(...PURPOSES),
    weight: fc.option(fc.integer({ min: 1, max: 15 })),
    rod_ft: fc.option(fc.integer({ min: 6, max: 15 })),
    fish_g: fc.option(fc.integer({ min: 50, max: 20000 })),
    stated_in: fc.option(fc.integer({ min: 20, max: 250 })),
    fly: fc.option(
      fc.record({ style: fc.constantFrom(...FLY_STYLES), hook: fc.integer({ min: -3, max: 26 }) }),
    ),
    caster: fc.constantFrom('learner', 'ordinary', 'strong'),
    tipKnot: fc.constantFrom(...KNOT_IDS),
  })
  .map((r): Leader => {
    const segments = r.segments
      .sort((a, b) => PARTS_IN_ORDER.indexOf(a.part) - PARTS_IN_ORDER.indexOf(b.part))
      .map((s, i) => ({ ...s, key: i + 1 }))
    return {
      name: 'any',
      purpose: r.purpose,
      ...(r.stated_in ? { statedTotal: quantityOf(r.stated_in * 0.0254, 'length', 'in') } : {}),
      outfit: {
        ...(r.weight ? { line: lineOf(`WF${r.weight}F`) } : {}),
        ...(r.rod_ft ? { rod: quantityOf(r.rod_ft * 0.3048, 'length', 'ft') } : {}),
        ...(r.fish_g ? { fish: quantityOf(r.fish_g / 1000, 'mass', 'g') } : {}),
        caster: r.caster,
      },
      segments,
      tip: { joint: { knot: r.tipKnot }, ...(r.fly ? { fly: { fly: r.fly } } : {}) },
      materials: [],
    }
  })

function anySegment(): fc.Arbitrary<Segment> {
  return fc
    .record({
      thou: fc.integer({ min: 6, max: 90 }),
      length_m: fc.double({ min: 0.03, max: 2.5, noNaN: true }),
      part: fc.constantFrom<Part>(...PARTS_IN_ORDER),
      material: fc.constantFrom(...MATERIALS),
      knot: fc.constantFrom(...KNOT_IDS),
      unit: fc.constantFrom('in', 'mm', 'X', 'thou'),
      lengthUnit: fc.constantFrom('in', 'cm', 'm', 'ft', 'ft-in', 'mm'),
      label: fc.option(fc.integer({ min: 0, max: 8 })),
      strength: fc.option(fc.integer({ min: 1, max: 60 })),
    })
    .map((r) => ({
      key: 0,
      part: r.part,
      material: r.material,
      diameter: quantityOf((r.thou / 2) * 2.54e-5, 'diameter', r.unit as 'in'),
      length: quantityOf(r.length_m, 'length', r.lengthUnit as 'in'),
      ...(r.label === null ? {} : { label: `${r.label}X` }),
      ...(r.strength === null ? {} : { strength: q(`${r.strength} lb`, 'force') }),
      joint: { knot: r.knot },
      attachments: [],
    }))
}

/** Leaders that thin towards the fly in steps of any size, with knots that belong where they are. */
export const taperedLeader: fc.Arbitrary<Leader> = fc
  .record({
    base: anyLeader,
    ratios: fc.array(fc.double({ min: 0.55, max: 0.97, noNaN: true }), {
      minLength: 12,
      maxLength: 12,
    }),
    butt_thou: fc.integer({ min: 14, max: 30 }),
    knots: fc.array(fc.constantFrom<KnotId>('blood', 'surgeons-double', 'surgeons-triple'), {
      minLength: 12,
      maxLength: 12,
    }),
  })
  .map(({ base, ratios, butt_thou, knots }): Leader => {
    let d = butt_thou * 2.54e-5
    const segments = base.segments.map((s, i) => {
      if (i > 0) d = Math.max(7.62e-5, d * (ratios[i] ?? 0.8))
      const { strength: _s, label: _l, ...bare } = s
      return {
        ...bare,
        diameter: quantityOf(d, 'diameter', s.diameter.unit),
        joint: { knot: i === 0 ? ('loop-to-loop' as const) : (knots[i] ?? 'blood') },
      }
    })
    return { ...base, segments, tip: { ...base.tip, joint: { knot: 'improved-clinch' } } }
  })
