import type { Chain } from '../chain'
import type { State } from '../state'

/**
 * Angle (rad, -pi to pi) from its sine and cosine: four times the arc tangent of its quarter, as a polynomial
 * within 1e-7 of it. Its coefficients are fitted over the quarter circle (derived), the angle is right to 4e-7.
 * No branch and no call: an arc tangent met late undoes the compiled loop.
 */
function turnAngle(sine: number, cosine: number): number {
  const half = Math.sqrt(Math.abs(1 + cosine) * 0.5 + 1e-30)
  const t = (0.5 * sine) / (half * (1 + half))
  const u = t * t
  const series =
    -0.3333246309 +
    u *
      (0.1997560832 +
        u *
          (-0.1405037559 +
            u * (0.09995454384 + u * (-0.06060975933 + u * (0.02503543078 - u * 0.004909846364)))))
  return 4 * t * (1 + u * series)
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
  let nearX = ux[1]!
  let nearY = uy[1]!
  let ca = cos[1]!
  let sa = sin[1]!
  let la = inverseLength[1]!
  let turnA = ((nearY - uy[0]!) * ca - (nearX - ux[0]!) * sa) * la
  // The couple on a link: a force across it at its far end, the opposite one at its near end.
  let momentA = hinge[0]!
  let beforeX = hinge[0]!
  let beforeY = hinge[0]!
  for (let k = 1; k < links; k++) {
    const farX = ux[k + 1]!
    const farY = uy[k + 1]!
    const cb = cos[k + 1]!
    const sb = sin[k + 1]!
    const lb = inverseLength[k + 1]!
    const K = hinge[k]!
    const turnB = ((farY - nearY) * cb - (farX - nearX) * sb) * lb
    const rate = turnB - turnA
    const angle = turnAngle(ca * sb - sa * cb, ca * cb + sa * sb)
    const moment = K * (angle - naturalAngle[k]! + damping_s * rate)
    const couple = (momentA - moment) * la
    const gx = couple * sa
    const gy = -couple * ca
    fx[k - 1] = fx[k - 1]! + beforeX - gx
    fy[k - 1] = fy[k - 1]! + beforeY - gy
    power[k] = K * damping_s * rate * rate
    beforeX = gx
    beforeY = gy
    momentA = moment
    turnA = turnB
    ca = cb
    sa = sb
    la = lb
    nearX = farX
    nearY = farY
  }
  const couple = momentA * la
  fx[links - 1] = fx[links - 1]! + beforeX - couple * sa
  fy[links - 1] = fy[links - 1]! + beforeY + couple * ca
  fx[links] = fx[links]! + couple * sa
  fy[links] = fy[links]! - couple * ca
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
