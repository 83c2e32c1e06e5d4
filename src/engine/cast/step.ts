import type { CastCase } from './castCase'
import type { Chain } from './chain'
import type { ForceResult, Surroundings } from './forces/apply'
import type { State } from './state'
import { MESHES } from './chain'
import { applyWater } from './forces/water'
import {
  AX,
  AY,
  COS,
  FIRST,
  FREE,
  FX,
  FY,
  INVERSE_LENGTH,
  INVERSE_MASS,
  LENGTH,
  NEXT_AX,
  NEXT_AY,
  RIGHT,
  SIN,
  STRIDE,
  TENSION,
  TRIAL,
  UPPER,
  VX,
  VY,
  WAVE_FACTOR,
  X,
  Y,
  recordOf,
} from './record'
import { layConstants } from './state'

/**
 * One step of position Verlet with the links held by tensions (SHAKE): forces at the positions, with
 * velocities extrapolated to them; one Newton iteration for the tensions, warm from the last step, by a
 * tridiagonal solve. Second order in the step; what one iteration leaves is put right by the next step.
 *
 * The loops are written for the compiler: what two turns of a loop share is carried in scalars; a least or
 * greatest value begins as an element of an array, since one that begins as a whole number is taken for one;
 * and no branch is first taken late, since that undoes the compiled loop, sometimes for good.
 */
export interface Stepper extends ForceResult {
  readonly surroundings: Surroundings
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

/** Makes a state ready to be stepped, and what steps it. */
export function makeStepper(chain: Chain, state: State, input: CastCase): Stepper {
  const { bendingDamping_s, mesh, air, fly, wind_m_s } = input
  layConstants(state, chain, input)
  return {
    surroundings: {
      damping_s: bendingDamping_s,
      wind_m_s,
      flyDrag_kg_m: (air.density_kg_m3 / 2) * fly.dragArea_m2,
    },
    flyPower: NaN,
    turning: NaN,
    wave: 1e-15,
    isHeld: true,
    lowest_m: NaN,
    bendingLimit_s: bendingLimit(chain, bendingDamping_s),
    longest_s: LONGEST_STEP_S[mesh],
    tensionShare: MESHES[mesh].tensionShare,
    largestTurn: LARGEST_TURN[mesh],
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
    const wave = Math.sqrt(solveTensions(state, chain, h, between)) + 1e-15
    const limit = share / wave
    if (h <= limit) {
      stepper.wave = wave
      stepper.lowest_m = accept(state, chain, h, between)
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
function solveTensions({ nodes }: State, { links }: Chain, h: number, between: number): number {
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

/** @returns the height of the lowest node, m. */
function accept(state: State, { links }: Chain, h: number, between: number): number {
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
