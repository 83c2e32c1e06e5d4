import type { Dimension, Unit } from './units'
import { formatNumber, formatSi } from './format'
import { SI_SIZE, diameterOfGutFifths, diameterOfX } from './units'

/**
 * A figure the user gave: its SI value (m, N or kg) and the text exactly as typed.
 * The text is what is shown and saved; the value is what is computed with.
 */
export interface Quantity {
  readonly si: number
  readonly text: string
  readonly unit: Unit
  /** The text is a bare number: its unit came from the field and is saved beside it. */
  readonly bare?: true
  /** The figure was chosen from the range of a strength label such as "20 lb": an estimate. */
  readonly estimatedFrom?: string
}

/**
 * A figure the tool made (a split, a re-stepped taper), written in a unit the user writes in.
 * Its value is that of its text, so that what is shown is what is computed with.
 */
export function quantityOf(si: number, dimension: Dimension, unit: Unit): Quantity {
  const text = formatSi(si, dimension, unit)
  return { si: roundLike(si, dimension, unit, text), text, unit }
}

/** The SI value of the rounded figure that `formatSi` wrote. */
function roundLike(si: number, dimension: Dimension, unit: Unit, text: string): number {
  if (unit === 'ft-in') return Math.round(si / 0.00254) * 0.00254
  if (unit === 'X') return sizeOf(si, text)
  return Number(formatNumber(si, dimension, unit)) * (SI_SIZE[dimension][unit] ?? 1)
}

/** The diameter (m) that an X size, a gut size or, where neither exists, inches stand for. */
function sizeOf(si: number, text: string): number {
  if (text.endsWith('X')) return diameterOfX(Number(text.slice(0, -1)))
  if (text.endsWith('/5')) return diameterOfGutFifths(Number(text.slice(0, -2)))
  return roundLike(si, 'diameter', 'in', text)
}
