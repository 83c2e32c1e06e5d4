import type { CastCase } from './castCase'
import type { Chain } from './chain'
import type { ForceResult, Surroundings } from './kernel'
import type { State } from './state'
import { MESHES } from './chain'
import { applyWater } from './forces/water'
import { accept, applyForces, dragOnNode, solveTensions } from './kernel'
import { layConstants } from './state'

/**
 * One step of position Verlet with the links held by tensions (SHAKE): forces at the positions, with
 * velocities extrapolated to them; one Newton iteration for the tensions, warm from the last step, by a
 * tridiagonal solve. Second order in the step; what one iteration leaves is put right by the next step.
 */
export interface Stepper extends ForceResult {
  readonly surroundings: Surroundings
  /** What hangs on the way. */
  readonly hung: readonly HungNode[]
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

interface HungNode {
  readonly node: number
  /** rho/2 CdA, kg/m. */
  readonly drag_kg_m: number
  readonly exponent: number
}

/** Forces at the present positions: the pass over the links, and what the air does to bodies on the way. */
export function applyAll(state: State, chain: Chain, stepper: Stepper): void {
  const { surroundings, hung } = stepper
  applyForces(state, chain, surroundings, stepper)
  for (const { node, drag_kg_m, exponent } of hung)
    stepper.flyPower += dragOnNode(state, node, drag_kg_m, exponent, surroundings.wind_m_s)
}

/** Estimates, chosen by trial as the meshes were: see the table of convergence on the instructors' page. */
const LONGEST_STEP_S = {
  coarse: 2e-3,
  quick: 2e-3,
  usual: 1.2e-3,
  fine: 4e-4,
  reference: 2e-4,
} as const
const LARGEST_TURN = { coarse: 0.3, quick: 0.3, usual: 0.22, fine: 0.1, reference: 0.07 } as const
/** What of the last step's limit by tension a step plans with: nearly none then need be done again, estimate. */
const FORESIGHT = 0.9
const SHORTEST_STEP_S = 1e-7 // far below any step that a sound cast takes, estimate
const FIRST_STEP_S = 1e-4 // estimate
const GROWTH = 1.15 // of a step over the last one, estimate: a sudden one loses accuracy
const RETRY = 0.8 // of the limit that a step broke, estimate

/** Makes a state ready to be stepped, and what steps it. */
export function makeStepper(chain: Chain, state: State, input: CastCase): Stepper {
  const { bendingDamping_s, mesh, air, fly, hung = [], wind_m_s } = input
  layConstants(state, chain, input)
  return {
    surroundings: {
      damping_s: bendingDamping_s,
      wind_m_s,
      flyDrag_kg_m: (air.density_kg_m3 / 2) * fly.dragArea_m2,
      flyDragExponent: fly.dragExponent ?? 0,
    },
    hung: chain.hungNodes.map((node, i) => ({
      node,
      drag_kg_m: (air.density_kg_m3 / 2) * (hung[i]?.dragArea_m2 ?? 0),
      exponent: hung[i]?.dragExponent ?? 0,
    })),
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
