import type { CastCase } from './castCase'
import type { Chain } from './chain'
import type { LineDragPower } from './forces/lineDrag'
import type { State } from './state'
import { MESHES } from './chain'
import { applyBending } from './forces/bending'
import { applyFlyDrag } from './forces/flyDrag'
import { applyLinkInertia } from './forces/linkInertia'
import { applyGravity } from './forces/gravity'
import { applyLineDrag } from './forces/lineDrag'
import { applyWater } from './forces/water'

/**
 * One step of position Verlet with the links held by tensions (SHAKE): forces at the positions, with
 * velocities extrapolated to them; one Newton iteration for the tensions, warm from the last step, by a
 * tridiagonal solve. Second order in the step; what one iteration leaves is put right by the next step.
 *
 * The loops are written for the compiler: what two turns of a loop share is carried in scalars; a least or
 * greatest value begins as an element of an array, since one that begins as a whole number is taken for one;
 * and no branch is first taken late, since that undoes the compiled loop, sometimes for good.
 */
export interface Stepper {
  readonly power: LineDragPower & { readonly bending: Float64Array }
  /** Power (W) that the fly's drag takes. */
  flyPower: number
  /** Fastest turning of a link, rad/s. */
  turning: number
  /** Fastest wave by tension over the lightest node and its link in the last step, 1/s. */
  wave: number
  /** Whether the water held a node in the last step, or may have. */
  isHeld: boolean
  /** Height of the lowest node, m. */
  lowest_m: number
  /** Longest step that the chain's bending allows, s. */
  readonly bendingLimit_s: number
  readonly longest_s: number
  /** Shares of the limits of stability and of accuracy that a step may use: tension's wave, turning (rad). */
  readonly tensionShare: number
  readonly largestTurn: number
  readonly upper: Float64Array
  readonly right: Float64Array
  readonly trial: Float64Array
}

/** Estimates, chosen by trial as the meshes were: see the table of convergence on the instructors' page. */
const LONGEST_STEP_S = { coarse: 2e-3, usual: 1.2e-3, fine: 4e-4, reference: 2e-4 } as const
const LARGEST_TURN = { coarse: 0.3, usual: 0.22, fine: 0.1, reference: 0.07 } as const
/** What of the last step's limit by tension a step plans with: nearly none then need be done again, estimate. */
const FORESIGHT = 0.9
const SHORTEST_STEP_S = 1e-7 // far below any step that a sound cast takes, estimate
const FIRST_STEP_S = 1e-4 // estimate
const GROWTH = 1.15 // of a step over the last one, estimate: a sudden one loses accuracy
const RETRY = 0.8 // of the limit that a step broke, estimate

export function makeStepper(chain: Chain, { bendingDamping_s, mesh }: CastCase): Stepper {
  const column = () => new Float64Array(chain.links + 2)
  return {
    power: { cross: column(), axial: column(), bending: column() },
    flyPower: NaN,
    turning: NaN,
    wave: 1e-15,
    isHeld: true,
    lowest_m: NaN,
    bendingLimit_s: bendingLimit(chain, bendingDamping_s),
    longest_s: LONGEST_STEP_S[mesh],
    tensionShare: MESHES[mesh].tensionShare,
    largestTurn: LARGEST_TURN[mesh],
    upper: column(),
    right: column(),
    trial: column(),
  }
}

/**
 * Half of 2/omega for the stiffest joint, and 0.8 of 1/(omega^2 damping): damping on a fine mesh is the trap.
 * Both limits are derived, the second for extrapolated velocities; the shares taken of them are estimates.
 */
function bendingLimit({ links, hinge, length_m, inverseMass }: Chain, damping_s: number): number {
  let limit = Infinity
  for (let k = 1; k < links; k++) {
    const shortest = Math.min(length_m[k]!, length_m[k + 1]!)
    const lightest = Math.max(inverseMass[k - 1]!, inverseMass[k]!, inverseMass[k + 1]!)
    const square = (16 * hinge[k]! * lightest) / (shortest * shortest)
    if (square > 0)
      limit = Math.min(limit, 1 / Math.sqrt(square), 0.8 / (square * (damping_s + 1e-12)))
  }
  return limit
}

/** Forces at the present positions. */
export function applyForces(state: State, chain: Chain, input: CastCase, stepper: Stepper): void {
  stepper.turning = Math.sqrt(extrapolate(state, chain))
  applyGravity(state, chain, input.gravity_m_s2)
  applyLinkInertia(state, chain)
  applyLineDrag(state, chain, input.air, input.wind_m_s, stepper.power)
  stepper.flyPower = applyFlyDrag(
    state,
    chain,
    input.fly.dragArea_m2,
    input.air.density_kg_m3,
    input.wind_m_s,
  )
  applyBending(state, chain, input.bendingDamping_s, stepper.power.bending)
}

/**
 * Velocities at the time of the positions, and no force yet.
 * @returns the square of the fastest turning of a link, rad^2/s^2.
 */
function extrapolate(
  { step_s, fx, fy, ux, uy, vx, vy, ax, ay }: State,
  { links, inverseLength }: Chain,
): number {
  const half = step_s / 2
  let nearX = vx[0]! + half * ax[0]!
  let nearY = vy[0]! + half * ay[0]!
  ux[0] = nearX
  uy[0] = nearY
  fx[0] = 0
  fy[0] = 0
  let fastest = inverseLength[0]!
  for (let k = 1; k <= links; k++) {
    const farX = vx[k]! + half * ax[k]!
    const farY = vy[k]! + half * ay[k]!
    const inverse = inverseLength[k]!
    const dx = (farX - nearX) * inverse
    const dy = (farY - nearY) * inverse
    fastest = Math.max(fastest, dx * dx + dy * dy)
    ux[k] = farX
    uy[k] = farY
    fx[k] = 0
    fy[k] = 0
    nearX = farX
    nearY = farY
  }
  return fastest
}

/**
 * Moves the chain on by at most `wanted_s`, forces having been applied.
 * @returns false where no step down to 1e-7 s satisfies the limits.
 */
export function advance(state: State, chain: Chain, stepper: Stepper, wanted_s: number): boolean {
  const share = stepper.tensionShare
  let h = Math.min(
    wanted_s,
    stepper.longest_s,
    stepper.bendingLimit_s,
    stepper.largestTurn / (stepper.turning + 1e-15),
    (share / stepper.wave) * FORESIGHT,
    state.step_s > 0 ? state.step_s * GROWTH : FIRST_STEP_S,
  )
  for (;;) {
    const between = state.step_s > 0 ? (state.step_s + h) / 2 : h / 2
    if (stepper.isHeld || stepper.lowest_m < 0) stepper.isHeld = applyWater(state, chain, between)
    const wave = Math.sqrt(solveTensions(state, chain, stepper, h, between)) + 1e-15
    const limit = share / wave
    if (h <= limit) {
      stepper.wave = wave
      stepper.lowest_m = accept(state, chain, stepper, h, between)
      return true
    }
    h = Number.isFinite(wave) ? limit * RETRY : h / 4
    if (!(h > SHORTEST_STEP_S)) return false
  }
}

/**
 * Tensions that bring every link back to its length after a step h: Newton from the last tensions. One
 * pass moves the nodes, writes each link's row and eliminates it; a second one substitutes back.
 * @returns the square of the fastest wave by these tensions, 1/s^2.
 */
function solveTensions(
  state: State,
  chain: Chain,
  stepper: Stepper,
  h: number,
  between: number,
): number {
  const { x, y, vx, vy, fx, fy, cos, sin, tension, free } = state
  const { links, inverseMass, length_m, waveFactor } = chain
  const { upper, right, trial } = stepper
  const twice = 1 / (2 * h * between)
  let t = tension[1]!
  let c = cos[1]!
  let s = sin[1]!
  let wa = inverseMass[0]!
  let nearX = x[0]! + h * (vx[0]! + wa * between * (fx[0]! + t * c))
  let nearY = y[0]! + h * (vy[0]! + wa * between * (fy[0]! + t * s))
  let cosBefore = 0
  let sinBefore = 0
  let upperBefore = 0
  let rightBefore = 0
  for (let k = 1; k <= links; k++) {
    const tn = tension[k + 1]!
    const cn = cos[k + 1]!
    const sn = sin[k + 1]!
    const f = free[k]!
    const w = inverseMass[k]! * between
    const farX = x[k]! + h * f * (vx[k]! + w * (fx[k]! + tn * cn - t * c))
    const farY = y[k]! + h * f * (vy[k]! + w * (fy[k]! + tn * sn - t * s))
    const dx = farX - nearX
    const dy = farY - nearY
    const wb = inverseMass[k]! * f
    const l = length_m[k]!
    const lower = -wa * (dx * cosBefore + dy * sinBefore)
    const pivot = 1 / ((wa + wb) * (dx * c + dy * s) - lower * upperBefore)
    upperBefore = -wb * (dx * cn + dy * sn) * pivot
    rightBefore = ((dx * dx + dy * dy - l * l) * twice - lower * rightBefore) * pivot
    upper[k] = upperBefore
    right[k] = rightBefore
    nearX = farX
    nearY = farY
    wa = wb
    cosBefore = c
    sinBefore = s
    t = tn
    c = cn
    s = sn
  }
  let change = tension[links + 1]!
  let wave = tension[links + 1]!
  for (let k = links; k >= 1; k--) {
    change = right[k]! - upper[k]! * change
    const t = tension[k]! + change
    trial[k] = t
    wave = Math.max(wave, Math.abs(t) * waveFactor[k]!)
  }
  return wave
}

/** @returns the height of the lowest node, m. */
function accept(state: State, chain: Chain, stepper: Stepper, h: number, between: number): number {
  const { x, y, vx, vy, ax, ay, olderAx, olderAy, fx, fy, cos, sin, tension, free } = state
  const { links, inverseMass, inverseLength } = chain
  const { trial } = stepper
  const perBetween = 1 / between
  let t = trial[0]!
  let c = cos[0]!
  let s = sin[0]!
  let nearX = x[0]!
  let nearY = y[0]!
  let lowest = nearY
  for (let k = 0; k <= links; k++) {
    const tn = trial[k + 1]!
    const cn = cos[k + 1]!
    const sn = sin[k + 1]!
    const push = between * inverseMass[k]!
    const f = free[k]!
    const oldX = vx[k]!
    const oldY = vy[k]!
    const newX = f * (oldX + push * (fx[k]! + tn * cn - t * c))
    const newY = f * (oldY + push * (fy[k]! + tn * sn - t * s))
    olderAx[k] = ax[k]!
    olderAy[k] = ay[k]!
    ax[k] = (newX - oldX) * perBetween
    ay[k] = (newY - oldY) * perBetween
    vx[k] = newX
    vy[k] = newY
    const farX = x[k]! + h * newX
    const farY = y[k]! + h * newY
    x[k] = farX
    y[k] = farY
    lowest = Math.min(lowest, farY)
    // The link that ends here; 1/sqrt by one Newton step: it is its length to 1e-6, so exact to 1e-12.
    const dx = farX - nearX
    const dy = farY - nearY
    const inverse = inverseLength[k]!
    const scale = inverse * (1.5 - 0.5 * (dx * dx + dy * dy) * inverse * inverse)
    cos[k] = dx * scale
    sin[k] = dy * scale
    tension[k] = t
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
