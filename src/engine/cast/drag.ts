import { chengCylinderDrag } from '../tackle'

export { chengCylinderDrag }

/**
 * The same after Sucker and Brauer, Wärme- und Stoffübertragung 8:149, 1975 (from memory).
 * The two agree within 20 % from Re 0.1 to 1e5.
 */
function suckerBrauerCylinderDrag(re: number): number {
  return 1.18 + 6.8 * re ** -0.89 + 1.96 * re ** -0.5 - (4e-4 * re) / (1 + 3.64e-7 * re * re)
}

/**
 * Friction coefficient of a filament along its axis, on the surface pi d L: 0.37 Re_d^-0.61, M. Matsui,
 * Trans. Soc. Rheol. 20:465, 1976 (from memory). Later work finds up to twice as much.
 */
export function matsuiAxialFriction(re: number): number {
  return 0.37 * re ** -0.61
}

/** Drag laws by the names that a case uses. */
export const CYLINDER_DRAG = {
  cheng: chengCylinderDrag,
  'sucker-brauer': suckerBrauerCylinderDrag,
} as const
export type CylinderDragName = keyof typeof CYLINDER_DRAG

export const AXIAL_FRICTION = { matsui: matsuiAxialFriction } as const
export type AxialFrictionName = keyof typeof AXIAL_FRICTION

export interface Air {
  readonly density_kg_m3: number
  readonly kinematicViscosity_m2_s: number
}

/** Air at 15 C: ISO 2533:1975. */
export const STANDARD_AIR: Air = {
  density_kg_m3: 1.225,
  kinematicViscosity_m2_s: 1.789e-5 / 1.225,
}

/** Entries per unit of sqrt(Re), and the largest sqrt(Re): 100 is a 2 mm line at 73 m/s. */
const PER_UNIT = 40
const LARGEST_ROOT = 100

/**
 * Coefficient x Re tabulated in sqrt(Re), so that a force is table x viscosity x speed and the hot loop
 * needs no powers. Linear between entries: within 0.1 % of the law from Re 1 on. One table a law, for reading.
 */
export function dragTable(coefficient: (re: number) => number): Float64Array {
  const made = tables.get(coefficient)
  if (made) return made
  const table = new Float64Array(PER_UNIT * LARGEST_ROOT + 2)
  for (let i = 1; i < table.length; i++) {
    const re = (i / PER_UNIT) ** 2
    table[i] = coefficient(re) * re
  }
  tables.set(coefficient, table)
  return table
}

/** Tables made so far: the powers in one cost as much as a tenth of a flight. */
const tables = new WeakMap<(re: number) => number, Float64Array>()

const LAST_PLACE = PER_UNIT * LARGEST_ROOT

/** Reads a table at a Reynolds number; beyond its end the last slope goes on. */
export function readTable(table: Float64Array, re: number): number {
  const place = Math.sqrt(re) * PER_UNIT
  // Whole part without a call or a branch: places are small and never negative.
  const i = Math.min(place, LAST_PLACE) | 0
  const low = table[i] as number
  return low + ((table[i + 1] as number) - low) * (place - i)
}
