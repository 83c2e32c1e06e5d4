import type { Dimension, Unit } from './units'
import { FINEST_X, SI_SIZE, THOU_M, xOfDiameter } from './units'

/** Decimals that a person at a bench can set or read off a micrometer, a rule or a scale. */
const DECIMALS: Readonly<Record<Dimension, Readonly<Partial<Record<Unit, number>>>>> = {
  diameter: { in: 4, thou: 1, mm: 3, um: 0 },
  length: { in: 1, ft: 2, mm: 0, cm: 1, m: 3 },
  'spool-length': { yd: 1, ft: 1, m: 2 },
  force: { lb: 1, kg: 2, N: 1 },
  mass: { mg: 1, g: 3, kg: 2, lb: 1, oz: 1, gr: 1 },
}

/** How each unit is written behind its number. */
export const SYMBOL: Readonly<Record<Unit, string>> = {
  in: 'in',
  ft: 'ft',
  'ft-in': 'ft in',
  mm: 'mm',
  cm: 'cm',
  m: 'm',
  yd: 'yd',
  um: 'µm',
  thou: 'thou',
  X: 'X',
  lb: 'lb',
  kg: 'kg',
  N: 'N',
  mg: 'mg',
  g: 'g',
  oz: 'oz',
  gr: 'gr',
}

/** The bare number of an SI value in a unit, without trailing zeros; inches of diameter as `.006`. */
export function formatNumber(si: number, dimension: Dimension, unit: Unit): string {
  const size = SI_SIZE[dimension][unit]
  if (size === undefined) return formatSi(si, dimension, unit)
  const text = trimZeros((si / size).toFixed(DECIMALS[dimension][unit] ?? 3))
  return dimension === 'diameter' && unit === 'in' ? inchDiameter(text) : text
}

/**
 * An SI value in a unit, written as the trade writes it: `.006 in`, `5X`, `7' 6"`, `0.152 mm`.
 * Never exponential; rounded to what a bench can measure.
 */
export function formatSi(si: number, dimension: Dimension, unit: Unit): string {
  if (!Number.isFinite(si)) return '–'
  if (unit === 'X') return formatX(si)
  if (unit === 'ft-in') return formatFeetInches(si)
  return `${formatNumber(si, dimension, unit)} ${SYMBOL[unit]}`
}

/** 0X to 8X by the rule of eleven, n/5 for the heavy sizes up to .021 in, inches where no size exists. */
export function formatX(diameter_m: number): string {
  const x = Math.round(xOfDiameter(diameter_m) * 10) / 10
  if (x >= 0 && x <= FINEST_X) return `${trimZeros(x.toFixed(1))}X`
  const thou = diameter_m / THOU_M
  const fifths = Math.round(21 - thou)
  const isFifth = fifths >= 0 && fifths <= 9 && Math.abs(21 - thou - fifths) < 0.05
  return isFifth ? `${fifths}/5` : formatSi(diameter_m, 'diameter', 'in')
}

function formatFeetInches(length_m: number): string {
  const tenths = Math.round(length_m / 0.00254)
  const feet = Math.trunc(tenths / 120)
  const inches = trimZeros(((tenths - feet * 120) / 10).toFixed(1))
  if (feet === 0) return `${inches}"`
  return inches === '0' ? `${feet}'` : `${feet}' ${inches}"`
}

/** `-0.000` and `1.50` are noise on a bench. */
export function trimZeros(text: string): string {
  const trimmed = text.includes('.') ? text.replace(/\.?0+$/, '') : text
  return trimmed === '-0' ? '0' : trimmed
}

/** So many digits that count, and never a power of ten: `310`, not `3.1e+2`. */
export function significant(value: number, digits: number): string {
  const text = value.toPrecision(digits)
  return text.includes('e') ? String(Number(text)) : text
}

/** `.006` rather than `0.006`, and at least three decimals, as a micrometer is read. */
function inchDiameter(text: string): string {
  const [whole = '0', decimals = ''] = text.split('.')
  return `${whole === '0' ? '' : whole}.${decimals.padEnd(3, '0')}`
}
