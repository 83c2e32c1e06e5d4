import type { Chain } from '../chain'
import type { State } from '../state'

/**
 * Drag of the fly, on the last node: rho/2 CdA |u| u relative to the wind.
 * @returns the power (W) it takes.
 */
export function applyFlyDrag(
  { ux, uy, fx, fy }: State,
  { links }: Chain,
  dragArea_m2: number,
  airDensity_kg_m3: number,
  wind_m_s: number,
): number {
  const wx = ux[links]! - wind_m_s
  const wy = uy[links]!
  const factor = (airDensity_kg_m3 / 2) * dragArea_m2 * Math.sqrt(wx * wx + wy * wy)
  fx[links] = fx[links]! - factor * wx
  fy[links] = fy[links]! - factor * wy
  return factor * (wx * ux[links]! + wy * uy[links]!)
}
