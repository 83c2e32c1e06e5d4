import type { Chain } from '../chain'
import type { State } from '../state'
import {
  AX,
  AXIAL_POWER,
  AY,
  BENDING_POWER,
  COS,
  CROSS_POWER,
  DRAG_FACTOR,
  FIRST,
  FX,
  FY,
  HINGE,
  INVERSE_LENGTH,
  LINK_INERTIA,
  NATURAL_ANGLE,
  NEXT_AX,
  NEXT_AY,
  REYNOLDS,
  SIN,
  STRIDE,
  VX,
  VY,
  WEIGHT,
  recordOf,
} from '../record'
import { turnAngle } from './bending'
import { flyDragFactor } from './flyDrag'
import { linkDrag } from './lineDrag'
import { inertiaPull } from './linkInertia'

/** What the forces of a flight have in common. */
export interface Surroundings {
  readonly damping_s: number
  readonly wind_m_s: number
  /** rho/2 CdA of the fly, kg/m. */
  readonly flyDrag_kg_m: number
}

/** What a pass over the forces finds besides them. */
export interface ForceResult {
  /** Power (W) that the fly's drag takes. */
  flyPower: number
  /** Fastest turning of a link, rad/s. */
  turning: number
}

/**
 * Every force at the present positions, with velocities extrapolated to them, in one pass down the chain.
 * At link k the couple on link k-1 becomes known (it needs the bending moments at both its ends), and with
 * it the whole force on node k-2; what nodes k-1 and k have so far is carried in scalars.
 */
export function applyForces(
  { nodes, step_s }: State,
  { links, crossTable, axialTable, axialFactor }: Chain,
  { damping_s, wind_m_s, flyDrag_kg_m }: Surroundings,
  result: ForceResult,
): void {
  const half = step_s / 2
  const surface = Math.PI * axialFactor
  const zero = nodes[0]! // a number that the compiler takes for no whole one
  let nearX = nodes[FIRST + VX]! + half * nodes[FIRST + AX]!
  let nearY = nodes[FIRST + VY]! + half * nodes[FIRST + AY]!
  let nearAx = nodes[FIRST + NEXT_AX]!
  let nearAy = nodes[FIRST + NEXT_AY]!
  let fastest = zero
  // Node k-2, which lacks the couple on link k-1 alone, and node k-1.
  let olderX = zero
  let olderY = zero
  let oldX = zero
  let oldY = zero
  let ca = nodes[FIRST + STRIDE + COS]!
  let sa = nodes[FIRST + STRIDE + SIN]!
  let la = zero
  let turnA = zero
  let momentA = zero
  let hinge = zero
  let natural = zero
  const end = recordOf(links)
  for (let o = FIRST + STRIDE; o <= end; o += STRIDE) {
    const farX = nodes[o + VX]! + half * nodes[o + AX]!
    const farY = nodes[o + VY]! + half * nodes[o + AY]!
    const c = nodes[o + COS]!
    const s = nodes[o + SIN]!
    const inverse = nodes[o + INVERSE_LENGTH]!
    const dx = (farX - nearX) * inverse
    const dy = (farY - nearY) * inverse
    fastest = Math.max(fastest, dx * dx + dy * dy)

    const wx = (nearX + farX) * 0.5 - wind_m_s
    const wy = (nearY + farY) * 0.5
    const along = wx * c + wy * s
    const across = wy * c - wx * s
    const reynolds = nodes[o + REYNOLDS]!
    const factor = nodes[o + DRAG_FACTOR]!
    const fAcross = linkDrag(crossTable, reynolds, factor, across)
    const fAlong = linkDrag(axialTable, reynolds, factor * surface, along)
    nodes[o + CROSS_POWER] = 2 * fAcross * (across - wind_m_s * s)
    nodes[o + AXIAL_POWER] = 2 * fAlong * (along + wind_m_s * c)
    const dragX = fAlong * c - fAcross * s
    const dragY = fAlong * s + fAcross * c

    const farAx = nodes[o + NEXT_AX]!
    const farAy = nodes[o + NEXT_AY]!
    const inertia = nodes[o + LINK_INERTIA]!
    const pullX = inertiaPull(inertia, nearAx, farAx)
    const pullY = inertiaPull(inertia, nearAy, farAy)

    // Bending at node k-1: M = K (change of angle - natural + damping x rate). A couple on a link is a force
    // across it at its far end and the opposite one at its near end.
    const turnB = dy * c - dx * s
    const rate = turnB - turnA
    const angle = turnAngle(ca * s - sa * c, ca * c + sa * s)
    const moment = hinge * (angle - natural + damping_s * rate)
    const couple = (momentA - moment) * la
    const coupleX = couple * sa
    const coupleY = -couple * ca
    nodes[o - STRIDE + BENDING_POWER] = hinge * damping_s * rate * rate

    nodes[o - 2 * STRIDE + FX] = olderX - coupleX
    nodes[o - 2 * STRIDE + FY] = olderY - coupleY
    olderX = oldX + coupleX - dragX - pullX
    olderY = oldY + coupleY - dragY - pullY
    oldX = pullX - dragX
    oldY = pullY - dragY - nodes[o + WEIGHT]!
    nearX = farX
    nearY = farY
    nearAx = farAx
    nearAy = farAy
    ca = c
    sa = s
    la = inverse
    turnA = turnB
    momentA = moment
    hinge = nodes[o + HINGE]!
    natural = nodes[o + NATURAL_ANGLE]!
  }
  const couple = momentA * la
  const wx = nearX - wind_m_s
  const fly = flyDragFactor(flyDrag_kg_m, wx, nearY)
  nodes[end - STRIDE + FX] = olderX - couple * sa
  nodes[end - STRIDE + FY] = olderY + couple * ca
  nodes[end + FX] = oldX + couple * sa - fly * wx
  nodes[end + FY] = oldY - couple * ca - fly * nearY
  result.flyPower = fly * (wx * nearX + nearY * nearY)
  result.turning = Math.sqrt(fastest)
}
