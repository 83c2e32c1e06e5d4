import type { Air } from '../drag'
import type { Chain } from '../chain'
import { readTable as read } from '../drag'

const readTable = read

/**
 * Drag by the cross-flow principle, at the speed of each link's middle relative to the wind: across, a
 * cylinder by its own Reynolds number; along, friction on the wetted surface. Half goes to each end.
 * @param factor N s/m per value of the table: see `dragFactor`.
 * @returns what one end feels, N, in the direction of the speed.
 */
export function linkDrag(
  table: Float64Array,
  reynolds_s_m: number,
  factor: number,
  speed_m_s: number,
): number {
  return factor * speed_m_s * readTable(table, Math.abs(speed_m_s) * reynolds_s_m)
}

/** rho/2 nu L/2: times table and speed the drag across half a link; times pi more, the friction along it. */
export function dragFactor({ length_m }: Chain, link: number, air: Air): number {
  return (air.density_kg_m3 / 4) * air.kinematicViscosity_m2_s * length_m[link]!
}

export function reynoldsPerSpeed({ diameter_m }: Chain, link: number, air: Air): number {
  return diameter_m[link]! / air.kinematicViscosity_m2_s
}
