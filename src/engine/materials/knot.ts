import { INCH_M, THOU_M } from '../units'
import type { Sourced } from './sourced'
import { sourced } from './sourced'

export const KNOT_IDS = [
  'blood',
  'surgeons-double',
  'surgeons-triple',
  'uni-to-uni',
  'albright',
  'loop-to-loop',
  'ring',
  'nail',
  'needle',
  'improved-clinch',
  'uni',
  'loop-knot',
] as const
export type KnotId = (typeof KNOT_IDS)[number]

/** Where along a leader a knot belongs. */
export type KnotPlace = 'line' | 'between' | 'fly'

/** A knot of the trade: what it takes up, what it keeps of the strand's strength, what it joins well. */
export interface Knot {
  readonly id: KnotId
  readonly name: string
  readonly places: readonly KnotPlace[]
  /** Turns each side makes when the user states none (common practice). */
  readonly turns: number
  /** Length a loop or an eye takes beside the turns, m; estimate. */
  readonly fixed_m: number
  /** What a hand needs at each end to tie it, wraps included, m. */
  readonly allowance_m: number
  /** Share of the weaker strand's strength that is left. */
  readonly efficiency: Sourced
  /** Largest step (m) and largest reduction in diameter that it seats on; absent where it takes any. */
  readonly largestStep?: Sourced
  readonly largestReduction?: Sourced
  readonly smallestDiameter?: Sourced
  /** Holds slick fluorocarbon on nylon. */
  readonly holdsMixed: boolean
}

const ALLOWANCES = {
  blood: 2.5 * INCH_M,
  surgeons: 3.5 * INCH_M,
  loop: 5 * INCH_M,
  nail: 7 * INCH_M,
  clinch: 3.5 * INCH_M,
}
const MEMORY = 'from memory; tests conflict widely'
const at = (value: number, source: string): Sourced => sourced(value, value, value, source)

/**
 * Efficiency: knots are not percentages; poor seating alone costs up to 40 % (common practice), so
 * each is a band. Tested values: a printed knot test (blood 83 %, surgeon's 65 %; common practice). Allowances per
 * end are bench habits, from memory, and can be changed by stating a take-up.
 */
const KNOTS: Readonly<Record<KnotId, Knot>> = {
  blood: {
    id: 'blood',
    name: 'Blood knot',
    places: ['between'],
    turns: 5,
    fixed_m: 0,
    allowance_m: ALLOWANCES.blood,
    efficiency: sourced(
      0.83,
      0.7,
      0.95,
      'a printed knot test (83 %), trade claims to 95 % (common practice)',
    ),
    largestStep: sourced(
      3 * THOU_M,
      2 * THOU_M,
      3 * THOU_M,
      '.002 in (Borger, 2009 article) to .003 in (common practice)',
    ),
    largestReduction: at(0.35, 'nylon up to 35 % thinner (Borger, 2009 article)'),
    smallestDiameter: at(1.2e-4, 'slow to seat in fine material (common practice)'),
    holdsMixed: false,
  },
  'surgeons-double': {
    id: 'surgeons-double',
    name: "Double surgeon's",
    places: ['between'],
    turns: 2,
    fixed_m: 0,
    allowance_m: ALLOWANCES.surgeons,
    efficiency: sourced(
      0.8,
      0.65,
      0.95,
      'a printed knot test (65 %), trade claims over 95 % (common practice)',
    ),
    holdsMixed: false,
  },
  'surgeons-triple': {
    id: 'surgeons-triple',
    name: "Triple surgeon's",
    places: ['between'],
    turns: 3,
    fixed_m: 0,
    allowance_m: ALLOWANCES.surgeons,
    efficiency: sourced(0.85, 0.7, 0.95, 'a third pass helps (common practice)'),
    holdsMixed: true,
  },
  'uni-to-uni': {
    id: 'uni-to-uni',
    name: 'Uni to uni',
    places: ['between'],
    turns: 4,
    fixed_m: 0,
    allowance_m: 3 * INCH_M,
    efficiency: sourced(0.82, 0.75, 0.95, MEMORY),
    holdsMixed: true,
  },
  albright: {
    id: 'albright',
    name: 'Albright',
    places: ['between', 'line'],
    turns: 8,
    fixed_m: 0.01,
    allowance_m: 4 * INCH_M,
    efficiency: sourced(0.82, 0.75, 0.9, MEMORY),
    holdsMixed: true,
  },
  'loop-to-loop': {
    id: 'loop-to-loop',
    name: 'Loop to loop',
    places: ['line', 'between'],
    turns: 1,
    fixed_m: 0.03,
    allowance_m: ALLOWANCES.loop,
    efficiency: sourced(0.8, 0.7, 0.9, MEMORY),
    holdsMixed: true,
  },
  ring: {
    id: 'ring',
    name: 'Tippet ring',
    places: ['between'],
    turns: 5,
    fixed_m: 0,
    allowance_m: ALLOWANCES.clinch,
    efficiency: sourced(0.85, 0.75, 0.95, 'two clinches; ' + MEMORY),
    holdsMixed: true,
  },
  nail: {
    id: 'nail',
    name: 'Nail knot',
    places: ['line'],
    turns: 6,
    fixed_m: 0,
    allowance_m: ALLOWANCES.nail,
    efficiency: sourced(0.85, 0.7, 0.95, MEMORY),
    holdsMixed: true,
  },
  needle: {
    id: 'needle',
    name: 'Needle knot',
    places: ['line'],
    turns: 5,
    fixed_m: 0.01,
    allowance_m: ALLOWANCES.nail,
    efficiency: sourced(0.85, 0.7, 0.95, MEMORY),
    holdsMixed: true,
  },
  'improved-clinch': {
    id: 'improved-clinch',
    name: 'Improved clinch',
    places: ['fly'],
    turns: 5,
    fixed_m: 0,
    allowance_m: ALLOWANCES.clinch,
    efficiency: sourced(0.85, 0.75, 0.95, MEMORY),
    holdsMixed: true,
  },
  uni: {
    id: 'uni',
    name: 'Uni',
    places: ['fly'],
    turns: 5,
    fixed_m: 0,
    allowance_m: ALLOWANCES.clinch,
    efficiency: sourced(0.85, 0.75, 0.95, MEMORY),
    holdsMixed: true,
  },
  'loop-knot': {
    id: 'loop-knot',
    name: 'Open loop at the eye',
    places: ['fly'],
    turns: 4,
    fixed_m: 0.01,
    allowance_m: ALLOWANCES.loop,
    efficiency: sourced(0.82, 0.7, 0.95, MEMORY),
    holdsMixed: true,
  },
}

export function knot(id: KnotId): Knot {
  return KNOTS[id]
}

export function knotsFor(place: KnotPlace): Knot[] {
  return KNOT_IDS.map(knot).filter((k) => k.places.includes(place))
}

/**
 * Length (m) that the turns of a knot take up on one side: each turn runs once round both strands,
 * pi (d1 + d2); a loop's returning leg comes on top. Derived from a tight helix.
 * @param other_m diameter of what it is tied to; a hook eye or a ring counts as the strand itself.
 */
export function takeUp_m(k: Knot, own_m: number, other_m: number, turns = k.turns): number {
  return turns * Math.PI * (own_m + other_m) + k.fixed_m
}

const SMALL_REDUCTION = 0.25 // a blood knot seats on it whatever the size, estimate
/** Slack on a knot's largest step: .004 in passes where .003 in is the rule, as it is tolerated (common practice). */
const STEP_SLACK = 1.34

/** Why a knot seats badly on two strands of these diameters (m), and the rule it breaks; undefined where it seats. */
export function seatingFault(
  k: Knot,
  a_m: number,
  b_m: number,
): { readonly fault: 'reduction' | 'step' | 'fine'; readonly rule: Sourced } | undefined {
  const [thin, stout] = [Math.min(a_m, b_m), Math.max(a_m, b_m)]
  const reduction = 1 - thin / stout
  const { largestReduction, largestStep, smallestDiameter } = k
  if (largestReduction && reduction > largestReduction.value + 1e-6)
    return { fault: 'reduction', rule: largestReduction }
  // Thousandths are a rule for trout leaders: a stout strand takes a larger step at the same share.
  if (largestStep && stout - thin > largestStep.value * STEP_SLACK && reduction > SMALL_REDUCTION)
    return { fault: 'step', rule: largestStep }
  if (smallestDiameter && thin < smallestDiameter.value)
    return { fault: 'fine', rule: smallestDiameter }
  return undefined
}
