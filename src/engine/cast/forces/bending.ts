import type { Chain } from '../chain'
import type { State } from '../state'

/** Below this tangent of the half angle the series is right to 1e-7 rad and saves the arc tangent. */
const SERIES = 0.15

/** Angle (rad, -pi to pi) from its sine and cosine. */
export function turnAngle(sine: number, cosine: number): number {
  const t = sine / (1 + cosine)
  if (!(Math.abs(t) < SERIES)) return Math.atan2(sine, cosine)
  const t2 = t * t
  return 2 * t * (1 - t2 * (1 / 3 - t2 * (1 / 5 - t2 / 7)))
}

/**
 * Bending moments at the joints, M = K (change of angle - natural + damping x rate), as couples on the two
 * links that meet.
 * @param power W taken by the damping at each node.
 */
export function applyBending(
  state: State,
  chain: Chain,
  damping_s: number,
  power: Float64Array,
): void {
  const { ux, uy, cos, sin, fx, fy } = state
  const { links, inverseLength, hinge, naturalAngle } = chain
  for (let k = 1; k < links; k++) {
    const K = hinge[k]!
    if (K === 0) continue
    const ca = cos[k]!
    const sa = sin[k]!
    const cb = cos[k + 1]!
    const sb = sin[k + 1]!
    const la = inverseLength[k]!
    const lb = inverseLength[k + 1]!
    const turnA = ((uy[k]! - uy[k - 1]!) * ca - (ux[k]! - ux[k - 1]!) * sa) * la
    const turnB = ((uy[k + 1]! - uy[k]!) * cb - (ux[k + 1]! - ux[k]!) * sb) * lb
    const rate = turnB - turnA
    const angle = turnAngle(ca * sb - sa * cb, ca * cb + sa * sb)
    const moment = K * (angle - naturalAngle[k]! + damping_s * rate)
    const qa = moment * la
    const qb = moment * lb
    fx[k - 1] = fx[k - 1]! + qa * sa
    fy[k - 1] = fy[k - 1]! - qa * ca
    fx[k] = fx[k]! - qa * sa - qb * sb
    fy[k] = fy[k]! + qa * ca + qb * cb
    fx[k + 1] = fx[k + 1]! + qb * sb
    fy[k + 1] = fy[k + 1]! - qb * cb
    power[k] = K * damping_s * rate * rate
  }
}

/** Energy (J) stored in the bent joints. */
export function bendingEnergy({ cos, sin }: State, { links, hinge, naturalAngle }: Chain): number {
  let energy = 0
  for (let k = 1; k < links; k++) {
    const sine = cos[k]! * sin[k + 1]! - sin[k]! * cos[k + 1]!
    const cosine = cos[k]! * cos[k + 1]! + sin[k]! * sin[k + 1]!
    energy += (hinge[k]! / 2) * (turnAngle(sine, cosine) - naturalAngle[k]!) ** 2
  }
  return energy
}
