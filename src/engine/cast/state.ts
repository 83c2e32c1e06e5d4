import type { CastCase } from './castCase'
import type { Chain } from './chain'

/** What changes during a flight. Velocities stand half a step behind positions (leapfrog). */
export interface State {
  time_s: number
  /** The last step, s. */
  step_s: number
  readonly x: Float64Array
  readonly y: Float64Array
  readonly vx: Float64Array
  readonly vy: Float64Array
  /** Accelerations of the last step, for bringing velocities up to the time of the positions. */
  readonly ax: Float64Array
  readonly ay: Float64Array
  /** The same of the step before. */
  readonly olderAx: Float64Array
  readonly olderAy: Float64Array
  /** Velocities at the time of the positions, extrapolated; forces read these. */
  readonly ux: Float64Array
  readonly uy: Float64Array
  readonly fx: Float64Array
  readonly fy: Float64Array
  /** Tension of each link, N. */
  readonly tension: Float64Array
  /** Direction cosines of each link. */
  readonly cos: Float64Array
  readonly sin: Float64Array
  /** 1 in the air, towards 0 where the water holds a node. */
  readonly free: Float64Array
}

/** A state of nothing: every node at the origin, at rest, in the air. */
export function blankState({ links }: Chain): State {
  // One entry more than nodes: the link beyond the fly, which pulls at nothing.
  const column = () => new Float64Array(links + 2)
  return {
    time_s: 0,
    step_s: 0,
    x: column(),
    y: column(),
    vx: column(),
    vy: column(),
    ax: column(),
    ay: column(),
    olderAx: column(),
    olderAy: column(),
    ux: column(),
    uy: column(),
    fx: column(),
    fy: column(),
    tension: column(),
    cos: column(),
    sin: column(),
    free: column().fill(1),
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
function layOut(state: State, { links, length_m }: Chain, cast: CastCase['cast']): void {
  state.y[0] = cast.tipHeight_m
  let s = 0
  for (let k = 1; k <= links; k++) {
    const l = length_m[k] as number
    const angle = angleAt(s + l / 2, cast)
    s += l
    state.cos[k] = Math.cos(angle)
    state.sin[k] = Math.sin(angle)
    state.x[k] = (state.x[k - 1] as number) + l * Math.cos(angle)
    state.y[k] = (state.y[k - 1] as number) + l * Math.sin(angle)
  }
}

/** Rolling without slip: half the line speed forward, half of it back along the strand. */
function setRolling(state: State, { links, length_m }: Chain, cast: CastCase['cast']): void {
  const launch = (cast.launchAngle_deg * Math.PI) / 180
  const half = cast.lineSpeed_m_s / 2
  let s = 0
  for (let k = 1; k <= links; k++) {
    s += length_m[k] as number
    const angle = angleAt(s, cast)
    state.vx[k] = half * (Math.cos(launch) - Math.cos(angle))
    state.vy[k] = half * (Math.sin(launch) - Math.sin(angle))
  }
}

/** Least change of momentum that keeps every link's length: a tridiagonal solve for the impulses. */
export function projectVelocities(
  { vx, vy, cos, sin }: State,
  { links, inverseMass }: Chain,
): void {
  const [lower, diagonal, upper, right] = [0, 0, 0, 0].map(() => new Float64Array(links + 2)) as [
    Float64Array,
    Float64Array,
    Float64Array,
    Float64Array,
  ]
  const get = (column: Float64Array, i: number) => column[i] as number
  for (let k = 1; k <= links; k++) {
    const [wa, wb] = [get(inverseMass, k - 1), get(inverseMass, k)]
    diagonal[k] = wa + wb
    if (k > 1) lower[k] = -wa * (get(cos, k) * get(cos, k - 1) + get(sin, k) * get(sin, k - 1))
    if (k < links) upper[k] = -wb * (get(cos, k) * get(cos, k + 1) + get(sin, k) * get(sin, k + 1))
    right[k] =
      (get(vx, k) - get(vx, k - 1)) * get(cos, k) + (get(vy, k) - get(vy, k - 1)) * get(sin, k)
  }
  for (let k = 2; k <= links; k++) {
    const factor = get(lower, k) / get(diagonal, k - 1)
    diagonal[k] = get(diagonal, k) - factor * get(upper, k - 1)
    right[k] = get(right, k) - factor * get(right, k - 1)
  }
  for (let k = links; k >= 1; k--) {
    right[k] = (get(right, k) - get(upper, k) * get(right, k + 1)) / get(diagonal, k)
  }
  for (let k = 0; k <= links; k++) {
    const w = get(inverseMass, k)
    vx[k] = get(vx, k) + w * (get(right, k + 1) * get(cos, k + 1) - get(right, k) * get(cos, k))
    vy[k] = get(vy, k) + w * (get(right, k + 1) * get(sin, k + 1) - get(right, k) * get(sin, k))
  }
}

/**
 * The fly leg is to have exactly the line speed: all velocities are scaled by what the fly lacks. A fly
 * still in the loop, or before it, has no leg to speak of and keeps what rolling gives it.
 */
function rescale(state: State, { links, length_m }: Chain, cast: CastCase['cast']): void {
  const total_m = length_m.reduce((sum, l) => sum + l, 0)
  if (total_m < cast.loopStart_m + (Math.PI * cast.loopHeight_m) / 2) return
  const speed = Math.hypot(state.vx[links] as number, state.vy[links] as number)
  const factor = speed > 0 ? cast.lineSpeed_m_s / speed : 1
  for (let k = 1; k <= links; k++) {
    state.vx[k] = (state.vx[k] as number) * factor
    state.vy[k] = (state.vy[k] as number) * factor
  }
}
