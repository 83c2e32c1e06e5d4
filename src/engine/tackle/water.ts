import { WATER_DENSITY_KG_M3 } from '../materials'

/** Fresh water at 10 C: density and dynamic viscosity, London South Bank University, water data. */
export const FRESH_WATER = {
  density_kg_m3: WATER_DENSITY_KG_M3,
  viscosity_Pa_s: 1.307e-3,
} as const

/** Reynolds number of a size (m) at a speed (m/s) in fresh water. */
export function reynoldsInWater(size_m: number, speed_m_s: number): number {
  return (FRESH_WATER.density_kg_m3 * size_m * speed_m_s) / FRESH_WATER.viscosity_Pa_s
}
