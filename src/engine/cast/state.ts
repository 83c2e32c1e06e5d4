import type { CastCase } from './castCase'
import type { Chain } from './chain'
import { weight_N } from './forces/gravity'
import { dragFactor, reynoldsPerSpeed } from './forces/lineDrag'
import {
  COS,
  DRAG_FACTOR,
  FREE,
  HINGE,
  INVERSE_LENGTH,
  INVERSE_MASS,
  LENGTH,
  LINK_INERTIA,
  NATURAL_ANGLE,
  REYNOLDS,
  SIN,
  VX,
  VY,
  WAVE_FACTOR,
  WEIGHT,
  X,
  Y,
  STRIDE,
  recordCount,
  recordOf,
} from './kernel'

/** What changes during a flight, and what a step wants beside it: see record.ts. */
export interface State {
  time_s: number
  /** The last step, s. */
  step_s: number
  readonly nodes: Float64Array
}

/** A state of nothing: every node at the origin, at rest, in the air. */
export function blankState({ links }: Chain): State {
  const nodes = new Float64Array(recordCount(links) * STRIDE)
  for (let k = 0; k <= links; k++) nodes[recordOf(k) + FREE] = 1
  return { time_s: 0, step_s: 0, nodes }
}

/** Lays the constants of the chain beside what changes. */
export function layConstants({ nodes }: State, chain: Chain, input: CastCase): void {
  const { links, butt } = chain
  for (let k = 0; k <= links; k++) {
    const o = recordOf(k)
    nodes[o + LENGTH] = chain.length_m[k]!
    nodes[o + INVERSE_LENGTH] = chain.inverseLength[k]!
    nodes[o + WAVE_FACTOR] = chain.waveFactor[k]!
    nodes[o + INVERSE_MASS] = chain.inverseMass[k]!
    nodes[o + WEIGHT] = weight_N(chain, k, input.gravity_m_s2)
    nodes[o + LINK_INERTIA] = k <= butt ? chain.linkInertia[k]! : 0
    nodes[o + HINGE] = chain.hinge[k]!
    nodes[o + NATURAL_ANGLE] = chain.naturalAngle[k]!
    nodes[o + REYNOLDS] = reynoldsPerSpeed(chain, k, input.air)
    nodes[o + DRAG_FACTOR] = dragFactor(chain, k, input.air)
  }
}

/** The loop as formed: rod leg at rest, semicircle rolling, fly leg at exactly the line speed. */
export function startState(chain: Chain, { cast }: CastCase): State {
  const state = blankState(chain)
  layOut(state, chain, cast)
  setRolling(state, chain, cast)
  projectVelocities(state, chain)
  rescale(state, chain, cast)
  return state
}

/** Angle of the strand at a distance from the rod tip; the loop turns up and back over the rod leg. */
function angleAt(s: number, cast: CastCase['cast']): number {
  const launch = (cast.launchAngle_deg * Math.PI) / 180
  const round = (Math.PI * cast.loopHeight_m) / 2
  const turned = Math.min(1, Math.max(0, (s - cast.loopStart_m) / round))
  return launch + Math.PI * turned
}

/** Links keep their exact length; each points as the strand does at its middle. */
function layOut({ nodes }: State, { links, length_m }: Chain, cast: CastCase['cast']): void {
  nodes[recordOf(0) + Y] = cast.tipHeight_m
  let s = 0
  for (let k = 1; k <= links; k++) {
    const o = recordOf(k)
    const l = length_m[k]!
    const angle = angleAt(s + l / 2, cast)
    s += l
    nodes[o + COS] = Math.cos(angle)
    nodes[o + SIN] = Math.sin(angle)
    nodes[o + X] = nodes[o - STRIDE + X]! + l * Math.cos(angle)
    nodes[o + Y] = nodes[o - STRIDE + Y]! + l * Math.sin(angle)
  }
}

/** Rolling without slip: half the line speed forward, half of it back along the strand. */
function setRolling({ nodes }: State, { links, length_m }: Chain, cast: CastCase['cast']): void {
  const launch = (cast.launchAngle_deg * Math.PI) / 180
  const half = cast.lineSpeed_m_s / 2
  let s = 0
  for (let k = 1; k <= links; k++) {
    s += length_m[k]!
    const angle = angleAt(s, cast)
    nodes[recordOf(k) + VX] = half * (Math.cos(launch) - Math.cos(angle))
    nodes[recordOf(k) + VY] = half * (Math.sin(launch) - Math.sin(angle))
  }
}

/** Least change of momentum that keeps every link's length: a tridiagonal solve for the impulses. */
export function projectVelocities({ nodes }: State, { links, inverseMass }: Chain): void {
  const column = () => new Float64Array(links + 2)
  const [diagonal, upper, right] = [column(), column(), column()]
  const field = (k: number, which: number) => nodes[recordOf(k) + which]!
  const turned = (k: number) =>
    field(k, COS) * field(k - 1, COS) + field(k, SIN) * field(k - 1, SIN)
  for (let k = 1; k <= links; k++) {
    const [wa, wb] = [inverseMass[k - 1]!, inverseMass[k]!]
    const lower = k > 1 ? -wa * turned(k) : 0
    const factor = k > 1 ? lower / diagonal[k - 1]! : 0
    diagonal[k] = wa + wb - factor * upper[k - 1]!
    upper[k] = k < links ? -wb * turned(k + 1) : 0
    right[k] =
      (field(k, VX) - field(k - 1, VX)) * field(k, COS) +
      (field(k, VY) - field(k - 1, VY)) * field(k, SIN) -
      factor * right[k - 1]!
  }
  for (let k = links; k >= 1; k--) {
    right[k] = (right[k]! - upper[k]! * right[k + 1]!) / diagonal[k]!
  }
  for (let k = 0; k <= links; k++) {
    const [o, w] = [recordOf(k), inverseMass[k]!]
    const along = (which: number) =>
      w * (right[k + 1]! * field(k + 1, which) - right[k]! * field(k, which))
    nodes[o + VX] = nodes[o + VX]! + along(COS)
    nodes[o + VY] = nodes[o + VY]! + along(SIN)
  }
}

/**
 * The fly leg is to have exactly the line speed: all velocities are scaled by what the fly lacks. A fly
 * still in the loop, or before it, has no leg to speak of and keeps what rolling gives it.
 */
function rescale({ nodes }: State, { links, length_m }: Chain, cast: CastCase['cast']): void {
  const total_m = length_m.reduce((sum, l) => sum + l, 0)
  if (total_m < cast.loopStart_m + (Math.PI * cast.loopHeight_m) / 2) return
  const fly = recordOf(links)
  const speed = Math.hypot(nodes[fly + VX]!, nodes[fly + VY]!)
  const factor = speed > 0 ? cast.lineSpeed_m_s / speed : 1
  for (let o = recordOf(1); o <= fly; o += STRIDE) {
    nodes[o + VX] = nodes[o + VX]! * factor
    nodes[o + VY] = nodes[o + VY]! * factor
  }
}
