import type { Chain } from './chain'
import type { State } from './state'
import { turnAngle as bent } from './forces/bending'
import { bodyDragFactor as braked } from './forces/flyDrag'
import { linkDrag as dragged } from './forces/lineDrag'
import { inertiaPull as pulled } from './forces/linkInertia'

// Names of this module's own, which unbundled code, as tests run it, reaches without a look-up at each link.
const turnAngle = bent
const linkDrag = dragged
const inertiaPull = pulled
const bodyDragFactor = braked

/**
 * The loops of a step, and the layout that they share, in one file: literal numbers of the same module are the only
 * ones that every compiler sees through.
 *
 * What a step knows of each node lies in one record of one array, constants beside what changes: the loops
 * then check one array's bounds and keep one base address, which makes them a third faster than an array a
 * quantity. Record k holds node k and the link that ends there. SI.
 *
 * The loops are written for the compiler: what two turns of a loop share is carried in scalars; a least or
 * greatest value begins as an element of an array, since one that begins as a whole number is taken for one;
 * and no branch is first taken late, since that undoes the compiled loop, sometimes for good.
 */
export const X = 0
export const Y = 1
/** Velocities stand half a step behind positions (leapfrog). */
export const VX = 2
export const VY = 3
/** Accelerations of the last step, for bringing velocities up to the time of the positions. */
export const AX = 4
export const AY = 5
/** The same extrapolated one step on: twice the last less the one before. */
export const NEXT_AX = 6
export const NEXT_AY = 7
export const FX = 8
export const FY = 9
/** Direction cosines of the link. */
export const COS = 10
export const SIN = 11
/** Tension of the link, N, and what a step tries in its place. */
export const TENSION = 12
export const TRIAL = 13
/** Rows of the tridiagonal solve, eliminated. */
export const UPPER = 14
export const RIGHT = 15
/** 1 in the air, towards 0 where the water holds the node. */
export const FREE = 16
/** Power (W) that the air takes from the link, across it and along it, and damping at the node. */
export const CROSS_POWER = 17
export const AXIAL_POWER = 18
export const BENDING_POWER = 19
// Constants of the chain from here on.
export const LENGTH = 20
export const INVERSE_LENGTH = 21
export const WAVE_FACTOR = 22
export const INVERSE_MASS = 23
/** Weight of the node, N. */
export const WEIGHT = 24
export const LINK_INERTIA = 25
export const HINGE = 26
export const NATURAL_ANGLE = 27
/** Reynolds number per speed, s/m, and force per (table value x speed), N s/m, for half of the link. */
export const REYNOLDS = 28
export const DRAG_FACTOR = 29

export const STRIDE = 30

/** Two records of nothing lead, since the loop of forces writes two behind, and one follows the fly. */
export const FIRST = 2 * STRIDE
export const recordCount = (links: number): number => links + 4

/** Where the record of a node begins. */
export const recordOf = (node: number): number => FIRST + node * STRIDE

/** What the forces of a flight have in common. */
export interface Surroundings {
  readonly damping_s: number
  readonly wind_m_s: number
  /** rho/2 CdA of the fly, kg/m, and how it falls with speed. */
  readonly flyDrag_kg_m: number
  readonly flyDragExponent: number
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
  { damping_s, wind_m_s, flyDrag_kg_m, flyDragExponent }: Surroundings,
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
  const fly = bodyDragFactor(flyDrag_kg_m, flyDragExponent, wx, nearY)
  nodes[end - STRIDE + FX] = olderX - couple * sa
  nodes[end - STRIDE + FY] = olderY + couple * ca
  nodes[end + FX] = oldX + couple * sa - fly * wx
  nodes[end + FY] = oldY - couple * ca - fly * nearY
  result.flyPower = fly * (wx * nearX + nearY * nearY)
  result.turning = Math.sqrt(fastest)
}

/**
 * What the air does to a body on the way, at the velocity of its node: beside the pass over the links, so that a
 * leader with one fly pays nothing for it.
 * @returns power (W) that it takes.
 */
export function dragOnNode(
  { nodes, step_s }: State,
  node: number,
  perSpeed_kg_m: number,
  exponent: number,
  wind_m_s: number,
): number {
  const o = recordOf(node)
  const vx = nodes[o + VX]! + (step_s / 2) * nodes[o + AX]!
  const vy = nodes[o + VY]! + (step_s / 2) * nodes[o + AY]!
  const factor = bodyDragFactor(perSpeed_kg_m, exponent, vx - wind_m_s, vy)
  nodes[o + FX] = nodes[o + FX]! - factor * (vx - wind_m_s)
  nodes[o + FY] = nodes[o + FY]! - factor * vy
  return factor * ((vx - wind_m_s) * vx + vy * vy)
}

/**
 * Tensions that bring every link back to its length after a step h: Newton from the last tensions. One
 * pass moves the nodes, writes each link's row and eliminates it; a second one substitutes back.
 * @returns the square of the fastest wave by these tensions, 1/s^2.
 */
export function solveTensions(
  { nodes }: State,
  { links }: Chain,
  h: number,
  between: number,
): number {
  const twice = 1 / (2 * h * between)
  const zero = nodes[0]! // a number that the compiler takes for no whole one
  const end = recordOf(links)
  let t = nodes[FIRST + STRIDE + TENSION]!
  let c = nodes[FIRST + STRIDE + COS]!
  let s = nodes[FIRST + STRIDE + SIN]!
  let wa = nodes[FIRST + INVERSE_MASS]!
  let nearX =
    nodes[FIRST + X]! + h * (nodes[FIRST + VX]! + wa * between * (nodes[FIRST + FX]! + t * c))
  let nearY =
    nodes[FIRST + Y]! + h * (nodes[FIRST + VY]! + wa * between * (nodes[FIRST + FY]! + t * s))
  let cosBefore = zero
  let sinBefore = zero
  let upper = zero
  let right = zero
  for (let o = FIRST + STRIDE; o <= end; o += STRIDE) {
    const tn = nodes[o + STRIDE + TENSION]!
    const cn = nodes[o + STRIDE + COS]!
    const sn = nodes[o + STRIDE + SIN]!
    const f = nodes[o + FREE]!
    const inverseMass = nodes[o + INVERSE_MASS]!
    const w = inverseMass * between
    const farX = nodes[o + X]! + h * f * (nodes[o + VX]! + w * (nodes[o + FX]! + tn * cn - t * c))
    const farY = nodes[o + Y]! + h * f * (nodes[o + VY]! + w * (nodes[o + FY]! + tn * sn - t * s))
    const dx = farX - nearX
    const dy = farY - nearY
    const wb = inverseMass * f
    const l = nodes[o + LENGTH]!
    const lower = -wa * (dx * cosBefore + dy * sinBefore)
    const pivot = 1 / ((wa + wb) * (dx * c + dy * s) - lower * upper)
    upper = -wb * (dx * cn + dy * sn) * pivot
    right = ((dx * dx + dy * dy - l * l) * twice - lower * right) * pivot
    nodes[o + UPPER] = upper
    nodes[o + RIGHT] = right
    nearX = farX
    nearY = farY
    wa = wb
    cosBefore = c
    sinBefore = s
    t = tn
    c = cn
    s = sn
  }
  let change = zero
  let wave = zero
  for (let o = end; o > FIRST; o -= STRIDE) {
    change = nodes[o + RIGHT]! - nodes[o + UPPER]! * change
    const t = nodes[o + TENSION]! + change
    nodes[o + TRIAL] = t
    wave = Math.max(wave, Math.abs(t) * nodes[o + WAVE_FACTOR]!)
  }
  return wave
}

/**
 * Takes a step with the tensions that were tried.
 * @returns the height of the lowest node, m.
 */
export function accept(state: State, { links }: Chain, h: number, between: number): number {
  const { nodes } = state
  const perBetween = 1 / between
  const end = recordOf(links)
  let t = nodes[0]!
  let c = nodes[0]!
  let s = nodes[0]!
  let nearX = nodes[FIRST + X]!
  let nearY = nodes[FIRST + Y]!
  let lowest = nearY
  for (let o = FIRST; o <= end; o += STRIDE) {
    const tn = nodes[o + STRIDE + TRIAL]!
    const cn = nodes[o + STRIDE + COS]!
    const sn = nodes[o + STRIDE + SIN]!
    const push = between * nodes[o + INVERSE_MASS]!
    const f = nodes[o + FREE]!
    const oldX = nodes[o + VX]!
    const oldY = nodes[o + VY]!
    const newX = f * (oldX + push * (nodes[o + FX]! + tn * cn - t * c))
    const newY = f * (oldY + push * (nodes[o + FY]! + tn * sn - t * s))
    const ax = (newX - oldX) * perBetween
    const ay = (newY - oldY) * perBetween
    nodes[o + NEXT_AX] = 2 * ax - nodes[o + AX]!
    nodes[o + NEXT_AY] = 2 * ay - nodes[o + AY]!
    nodes[o + AX] = ax
    nodes[o + AY] = ay
    nodes[o + VX] = newX
    nodes[o + VY] = newY
    const farX = nodes[o + X]! + h * newX
    const farY = nodes[o + Y]! + h * newY
    nodes[o + X] = farX
    nodes[o + Y] = farY
    lowest = Math.min(lowest, farY)
    // The link that ends here; 1/sqrt by one Newton step: it is its length to 1e-6, so exact to 1e-12.
    const dx = farX - nearX
    const dy = farY - nearY
    const inverse = nodes[o + INVERSE_LENGTH]!
    const scale = inverse * (1.5 - 0.5 * (dx * dx + dy * dy) * inverse * inverse)
    nodes[o + COS] = dx * scale
    nodes[o + SIN] = dy * scale
    nodes[o + TENSION] = t
    nearX = farX
    nearY = farY
    t = tn
    c = cn
    s = sn
  }
  state.time_s += h
  state.step_s = h
  return lowest
}
