import type { Band } from './band'
import type { CastCase } from './castCase'
import { fallSpeed_m_s } from '../tackle'

/** What the chain simulation said of a leader with its fly, line and caster: plain data from a stored run. */
export interface SimulatedTurnover {
  readonly extension: number
  readonly flySpeedAtTurn_m_s: number | null
  /** Least line speed that turns it over, m/s; null where none up to 40 m/s does. */
  readonly leastSpeed_m_s: number | null
  readonly lineSpeed_m_s: number
  readonly band: Band | null
}

/** At least this much of its length is straight; between the two it is lazy. Estimates of ours. */
export const STRAIGHT_EXTENSION = 0.95
export const LAZY_EXTENSION = 0.85

export type TurnoverVerdict = 'straight' | 'lazy' | 'collapsed'

/** What an extension is called; differences under 0.03 are ties. */
export function verdictOf(extension: number): TurnoverVerdict {
  if (extension >= STRAIGHT_EXTENSION) return 'straight'
  return extension >= LAZY_EXTENSION ? 'lazy' : 'collapsed'
}

export type Presentation = 'delicate' | 'firm' | 'slap' | 'turned-over'

/** Fly speed at the turn over its terminal speed in still air, where a landing stops being delicate, and firm. */
const DELICATE = 3 // estimate
const FIRM = 6 // estimate
const FASTEST_FALL_M_S = 9 // small dense flies whip round; their speed at the turn says nothing of the landing
const LIGHTEST_KG = 6e-6 // below it the speed at the turn does not converge with the mesh

/**
 * How the fly comes round, by its speed at the turn against the speed it would fall at; of the smallest
 * flies only that they turned over. null where it never came round.
 */
export function presentationOf(
  { fly, air, gravity_m_s2 }: CastCase,
  flySpeedAtTurn_m_s: number | null,
): Presentation | null {
  if (flySpeedAtTurn_m_s === null) return null
  if (fly.mass_kg < LIGHTEST_KG) return 'turned-over'
  const terminal = fallSpeed_m_s(fly, air.density_kg_m3, gravity_m_s2)
  if (terminal === null || terminal > FASTEST_FALL_M_S) return 'turned-over'
  const ratio = flySpeedAtTurn_m_s / terminal
  if (ratio < DELICATE) return 'delicate'
  return ratio < FIRM ? 'firm' : 'slap'
}

/** How much harder one leader is to turn over than another; rankings are what the model is good for. */
export type Ranking = 'easier' | 'as' | 'harder'
const TIE = 0.08 // speeds within 8 % are a tie, from extension ties of 0.03

export function rankAgainst(
  leastSpeed_m_s: number | null,
  yardstick_m_s: number | null,
): Ranking | null {
  if (leastSpeed_m_s === null) return yardstick_m_s === null ? null : 'harder'
  if (yardstick_m_s === null) return 'easier'
  const ratio = leastSpeed_m_s / yardstick_m_s
  if (ratio > 1 + TIE) return 'harder'
  return ratio < 1 - TIE ? 'easier' : 'as'
}
