/**
 * Units the tool reads and shows, with their size in SI.
 *
 * Sources: international inch 25.4 mm, foot 12 in, pound 0.45359237 kg, standard gravity
 * 9.80665 m/s2, grain 64.79891 mg (NIST Special Publication 811, 2008, appendix B).
 * The X sizes follow the rule of eleven: thousandths of an inch = 11 - X (common practice).
 */

/** What a figure measures. A diameter is a length with its own units, limits and habits. */
export type Dimension = 'diameter' | 'length' | 'spool-length' | 'force' | 'mass'

export type DiameterUnit = 'in' | 'thou' | 'mm' | 'um' | 'X'
export type LengthUnit = 'in' | 'ft' | 'ft-in' | 'mm' | 'cm' | 'm'
export type SpoolLengthUnit = 'yd' | 'ft' | 'm'
export type ForceUnit = 'lb' | 'kg' | 'N'
export type MassUnit = 'mg' | 'g' | 'kg' | 'lb' | 'oz' | 'gr'
export type Unit = DiameterUnit | LengthUnit | SpoolLengthUnit | ForceUnit | MassUnit

/** Written in metres or parts of them; the rest is of the inch. */
export function isMetricUnit(unit: Unit): boolean {
  return unit === 'm' || unit === 'cm' || unit === 'mm' || unit === 'um'
}

export const INCH_M = 0.0254
export const FOOT_M = 0.3048
export const THOU_M = 2.54e-5
export const POUND_KG = 0.45359237
export const STANDARD_GRAVITY_M_S2 = 9.80665
export const POUND_FORCE_N = POUND_KG * STANDARD_GRAVITY_M_S2
export const GRAIN_KG = 64.79891e-6

/** SI size of one unit. X and feet-and-inches are not plain multiples and have rules of their own. */
export const SI_SIZE: Readonly<Record<Dimension, Readonly<Partial<Record<Unit, number>>>>> = {
  diameter: { in: INCH_M, thou: THOU_M, mm: 1e-3, um: 1e-6 },
  length: { in: INCH_M, ft: FOOT_M, mm: 1e-3, cm: 1e-2, m: 1 },
  'spool-length': { yd: 3 * FOOT_M, ft: FOOT_M, m: 1 },
  force: { lb: POUND_FORCE_N, kg: STANDARD_GRAVITY_M_S2, N: 1 },
  mass: { mg: 1e-6, g: 1e-3, kg: 1, lb: POUND_KG, oz: POUND_KG / 16, gr: GRAIN_KG },
}

/** Diameter (m) of an X size by the rule of eleven; fractions allowed. */
export function diameterOfX(x: number): number {
  return Number(((11 - x) * THOU_M).toPrecision(12))
}

/** The finest X that is read and written; finer strands have no size and are written in inches. */
export const FINEST_X = 8.9

/** X size of a diameter (m); above 11 thousandths it is negative and has no X. */
export function xOfDiameter(diameter_m: number): number {
  return 11 - diameter_m / THOU_M
}

/**
 * Diameter (m) of the old gut size n/5 above 0X: thousandths = 21 - n, so 0/5 is .021 in.
 * From memory, at about 85 % confidence; other notations conflict, so the diameter is what is stored.
 */
export function diameterOfGutFifths(n: number): number {
  return Number(((21 - n) * THOU_M).toPrecision(12))
}

interface Range {
  readonly low: number
  readonly high: number
}

/** What the tool takes at all, in SI. Beyond it a figure is a slip of the pen. Our own limits. */
export const ACCEPTED: Readonly<Record<Dimension, Range>> = {
  diameter: { low: 2e-5, high: 3e-3 },
  length: { low: 1e-3, high: 60 },
  'spool-length': { low: 0.01, high: 5000 },
  force: { low: 0.05, high: 5000 },
  mass: { low: 1e-8, high: 500 },
}

/** What a leader usually holds, in SI: a bare number is read so that it falls in here. Our own limits. */
export const USUAL: Readonly<Record<Dimension, Range>> = {
  diameter: { low: 5e-5, high: 1.4e-3 },
  length: { low: 0.025, high: 8 },
  'spool-length': { low: 0.5, high: 1000 },
  force: { low: 0.4, high: 1000 },
  mass: { low: 1e-7, high: 60 },
}

export function within(range: Range, si: number): boolean {
  return si >= range.low * (1 - 1e-9) && si <= range.high * (1 + 1e-9)
}
