import type { Air } from '../drag'
import type { Chain } from '../chain'
import type { State } from '../state'
import { readTable } from '../drag'

/** Power (W) that the air takes from each link: across it and along it. */
export interface LineDragPower {
  readonly cross: Float64Array
  readonly axial: Float64Array
}

/**
 * Drag by the cross-flow principle, at the speed of each link's middle relative to the wind: across, a
 * cylinder by its own Reynolds number; along, friction on the wetted surface. Half goes to each end.
 */
export function applyLineDrag(
  state: State,
  chain: Chain,
  air: Air,
  wind_m_s: number,
  power: LineDragPower,
): void {
  const { ux, uy, cos, sin, fx, fy } = state
  const { links, length_m, diameter_m, crossTable, axialTable } = chain
  const { cross, axial } = power
  const perNu = 1 / air.kinematicViscosity_m2_s
  const half = (air.density_kg_m3 / 4) * air.kinematicViscosity_m2_s
  let nearX = ux[0]!
  let nearY = uy[0]!
  // What the link before puts on the node between.
  let beforeX = length_m[0]!
  let beforeY = length_m[0]!
  for (let k = 1; k <= links; k++) {
    const farX = ux[k]!
    const farY = uy[k]!
    const c = cos[k]!
    const s = sin[k]!
    const reynolds = diameter_m[k]! * perNu
    const wx = (nearX + farX) * 0.5 - wind_m_s
    const wy = (nearY + farY) * 0.5
    const along = wx * c + wy * s
    const across = wy * c - wx * s
    const factor = half * length_m[k]!
    const fAcross = factor * readTable(crossTable, Math.abs(across) * reynolds) * across
    const fAlong = factor * Math.PI * readTable(axialTable, Math.abs(along) * reynolds) * along
    const gx = fAlong * c - fAcross * s
    const gy = fAlong * s + fAcross * c
    fx[k - 1] = fx[k - 1]! - (beforeX + gx)
    fy[k - 1] = fy[k - 1]! - (beforeY + gy)
    cross[k] = 2 * fAcross * (across - wind_m_s * s)
    axial[k] = 2 * fAlong * (along + wind_m_s * c)
    beforeX = gx
    beforeY = gy
    nearX = farX
    nearY = farY
  }
  fx[links] = fx[links]! - beforeX
  fy[links] = fy[links]! - beforeY
}
