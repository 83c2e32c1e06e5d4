import type { CastCase } from './castCase'
import type { Chain } from './chain'
import type { LineDragPower } from './forces/lineDrag'
import type { State } from './state'
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
 */
export interface Stepper {
  readonly power: LineDragPower & { readonly bending: Float64Array }
  /** Power (W) that the fly's drag takes. */
  flyPower: number
  /** Longest step that the chain's bending allows, s. */
  readonly bendingLimit_s: number
  readonly longest_s: number
  readonly upper: Float64Array
  readonly right: Float64Array
  readonly trial: Float64Array
}

const LONGEST_STEP_S = { coarse: 2e-3, usual: 1.2e-3, fine: 4e-4, reference: 2e-4 } as const
/** Shares of the limits of stability and of accuracy that a step may use. */
const TENSION_SHARE = { coarse: 0.5, usual: 0.45, fine: 0.3, reference: 0.2 } as const
const LARGEST_TURN = { coarse: 0.3, usual: 0.22, fine: 0.1, reference: 0.07 } as const
const SHORTEST_STEP_S = 1e-7

export function makeStepper(chain: Chain, { bendingDamping_s, mesh }: CastCase): Stepper {
  const column = () => new Float64Array(chain.links + 2)
  return {
    power: { cross: column(), axial: column(), bending: column() },
    flyPower: 0,
    bendingLimit_s: bendingLimit(chain, bendingDamping_s),
    longest_s: LONGEST_STEP_S[mesh],
    upper: column(),
    right: column(),
    trial: column(),
  }
}

/** Half of 2/omega for the stiffest joint, and of 1/(omega^2 damping): damping on a fine mesh is the trap. */
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
  const { fx, fy, ux, uy, vx, vy, ax, ay } = state
  const half = state.step_s / 2
  for (let k = 0; k <= chain.links; k++) {
    ux[k] = vx[k]! + half * ax[k]!
    uy[k] = vy[k]! + half * ay[k]!
    fx[k] = 0
    fy[k] = 0
  }
  applyGravity(state, chain, input.gravity_m_s2)
  applyLineDrag(state, chain, input.air, input.wind_m_s, stepper.power)
  stepper.flyPower = applyFlyDrag(
    state,
    chain,
    input.fly.dragArea_m2,
    input.air.density_kg_m3,
    input.wind_m_s,
  )
  applyLinkInertia(state, chain)
  applyBending(state, chain, input.bendingDamping_s, stepper.power.bending)
}

/**
 * Moves the chain on by at most `wanted_s`, forces having been applied.
 * @returns false where no step down to 1e-7 s satisfies the limits.
 */
export function advance(
  state: State,
  chain: Chain,
  input: CastCase,
  stepper: Stepper,
  wanted_s: number,
): boolean {
  let h = Math.min(
    wanted_s,
    stepper.longest_s,
    stepper.bendingLimit_s,
    state.step_s > 0 ? state.step_s * 1.15 : 1e-4,
  )
  for (;;) {
    const between = state.step_s > 0 ? (state.step_s + h) / 2 : h / 2
    applyWater(state, chain, between)
    solveTensions(state, chain, stepper, h, between)
    const limit = allowedStep(state, chain, stepper, h, input.mesh)
    if (h <= limit) {
      accept(state, chain, stepper, h, between)
      return true
    }
    h = Math.min(limit, h) * 0.8
    if (!(h > SHORTEST_STEP_S)) return false
  }
}

/**
 * Tensions that bring every link back to its length after a step h: Newton from the last tensions. One
 * pass moves the nodes, writes each link's row and eliminates it; a second one substitutes back.
 */
function solveTensions(
  state: State,
  chain: Chain,
  stepper: Stepper,
  h: number,
  between: number,
): void {
  const { x, y, vx, vy, fx, fy, cos, sin, tension, free } = state
  const { links, inverseMass, length_m } = chain
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
  let change = 0
  for (let k = links; k >= 1; k--) {
    change = right[k]! - upper[k]! * change
    trial[k] = tension[k]! + change
  }
}

/** The shortest of what the tension wave and the turning of the links allow. */
function allowedStep(
  state: State,
  chain: Chain,
  stepper: Stepper,
  h: number,
  mesh: CastCase['mesh'],
): number {
  const { ux, uy } = state
  const { links, waveFactor, inverseLength } = chain
  const { trial } = stepper
  let wave = 0
  let turn = 0
  for (let k = 1; k <= links; k++) {
    const frequency = Math.abs(trial[k]!) * waveFactor[k]!
    if (frequency > wave) wave = frequency
    const dx = ux[k]! - ux[k - 1]!
    const dy = uy[k]! - uy[k - 1]!
    const inverse = inverseLength[k]!
    const turning = (dx * dx + dy * dy) * inverse * inverse
    if (turning > turn) turn = turning
  }
  const byWave = TENSION_SHARE[mesh] / Math.sqrt(wave + 1e-30)
  const byTurn = LARGEST_TURN[mesh] / Math.sqrt(turn + 1e-30)
  const limit = Math.min(byWave, byTurn)
  return Number.isFinite(wave) && Number.isFinite(turn) ? limit : h / 4
}

function accept(state: State, chain: Chain, stepper: Stepper, h: number, between: number): void {
  const { x, y, vx, vy, ax, ay, olderAx, olderAy, fx, fy, cos, sin, tension, free } = state
  const { links, inverseMass, inverseLength } = chain
  const { trial } = stepper
  const perBetween = 1 / between
  for (let k = 0; k <= links; k++) {
    const w = inverseMass[k]!
    const f = free[k]!
    const t = trial[k]!
    const tn = trial[k + 1]!
    const pullX = tn * cos[k + 1]! - t * cos[k]!
    const pullY = tn * sin[k + 1]! - t * sin[k]!
    const newX = f * (vx[k]! + between * w * (fx[k]! + pullX))
    const newY = f * (vy[k]! + between * w * (fy[k]! + pullY))
    olderAx[k] = ax[k]!
    olderAy[k] = ay[k]!
    ax[k] = (newX - vx[k]!) * perBetween
    ay[k] = (newY - vy[k]!) * perBetween
    vx[k] = newX
    vy[k] = newY
    x[k] = x[k]! + h * newX
    y[k] = y[k]! + h * newY
  }
  for (let k = 1; k <= links; k++) {
    const dx = x[k]! - x[k - 1]!
    const dy = y[k]! - y[k - 1]!
    // 1/sqrt by one Newton step: the link is its length to 1e-6, so this is exact to 1e-12.
    const inverse = inverseLength[k]!
    const scale = inverse * (1.5 - 0.5 * (dx * dx + dy * dy) * inverse * inverse)
    cos[k] = dx * scale
    sin[k] = dy * scale
    tension[k] = trial[k]!
  }
  state.time_s += h
  state.step_s = h
}
