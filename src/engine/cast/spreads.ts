import type { Spread } from '../materials'
import { EVEN } from '../materials'

/** Whether a figure differs from cast to cast, or is one that is merely not known. */
export type SpreadKind = 'perCast' | 'unknown'

/** What is drawn of a case as a whole; a name with its unit has its spread in it, any other in its logarithm. */
export const CASE_FIGURES = {
  axialFriction: 'unknown',
  flyMass: 'unknown',
  flyDrag: 'unknown',
  knotMass: 'unknown',
  lineMass: 'unknown',
  lineStiffness: 'unknown',
  /** The caster's mean speed, and how each cast differs from it. */
  usualSpeed: 'unknown',
  lineSpeed: 'perCast',
  loopHeight: 'perCast',
  loopStart_m: 'perCast',
  launchAngle_deg: 'perCast',
  tipHeight_m: 'perCast',
  flyDragExponent: 'unknown',
} as const satisfies Readonly<Record<string, SpreadKind>>
export type CaseFigure = keyof typeof CASE_FIGURES
export type CaseSpreads = Readonly<Record<CaseFigure, Spread>>

/** What is drawn of each piece of a leader, none of which changes from cast to cast. */
export interface StrandSpreads {
  readonly diameter: Spread
  readonly density: Spread
  /** One draw for the whole leader, each piece by its own spread. */
  readonly modulus: Spread
  readonly length_m: Spread
}

const EXACT: Spread = { sd: 0, from: 'estimate' }
/** Evenly within so much either way. */
export const either = (halfWidth: number): Spread => ({ sd: EVEN * halfWidth, from: 'estimate' })
const between = (low: number, high: number): Spread => ({
  ...either(Math.log(high / low) / 2),
  shift: Math.log(low * high) / 2,
})

/** Tying tolerance of each piece: 15 mm either way, estimate. */
export const TIED_LENGTH = either(0.015)
/** Turns and tightness of a knot, estimate. */
export const KNOT_MASS: Spread = { sd: 0.3, from: 'estimate' }

/** What depends on nobody: all estimates. */
export const COMMON_SPREADS = {
  /** Later work finds up to twice the friction (from memory), so it leans upward. */
  axialFriction: between(0.7, 2),
  loopHeight: { sd: 0.15, from: 'estimate' },
  loopStart_m: either(0.7),
  tipHeight_m: { sd: 0.15, from: 'estimate' },
} as const satisfies Partial<CaseSpreads>

/** What a bare case is taken to be good for: its masses, line, speed and loop are as stated. Estimates. */
export const STATED_CASE: CaseSpreads = {
  ...COMMON_SPREADS,
  flyMass: EXACT,
  flyDrag: between(0.5, 2),
  knotMass: EXACT,
  lineMass: EXACT,
  lineStiffness: between(0.5, 1.5),
  usualSpeed: EXACT,
  lineSpeed: EXACT,
  loopHeight: EXACT,
  flyDragExponent: EXACT,
  launchAngle_deg: either(4),
  tipHeight_m: either(0.3),
}

/** The same of a strand of a bare case: spools of one size differ by 3 % either way. */
export const STATED_STRAND: StrandSpreads = {
  diameter: between(0.97, 1.03),
  density: EXACT,
  modulus: between(0.5, 1.5),
  length_m: TIED_LENGTH,
}
