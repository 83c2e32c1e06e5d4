import type { Chain } from '../chain'
import type { State } from '../state'
import { COS, SIN, STRIDE, recordOf } from '../kernel'

/**
 * Angle (rad, -pi to pi) from its sine and cosine: four times the arc tangent of its quarter, as a polynomial
 * within 1e-7 of it. Its coefficients are fitted over the quarter circle (derived), the angle is right to 4e-7.
 * No branch and no call: an arc tangent met late undoes the compiled loop. The terms go in pairs, so that
 * they need not wait for one another.
 */
export function turnAngle(sine: number, cosine: number): number {
  const half = Math.sqrt(Math.abs(1 + cosine) * 0.5 + 1e-30)
  const t = (0.5 * sine) / (half * (1 + half))
  const u = t * t
  const u2 = u * u
  const low = 1 - 0.3333246309 * u + u2 * (0.1997560832 - 0.1405037559 * u)
  const high = 0.09995454384 - 0.06060975933 * u + u2 * (0.02503543078 - 0.004909846364 * u)
  return 4 * t * (low + u2 * u2 * high)
}

/** Energy (J) stored in the bent joints. */
export function bendingEnergy({ nodes }: State, { links, hinge, naturalAngle }: Chain): number {
  let energy = 0
  for (let k = 1; k < links; k++) {
    const o = recordOf(k)
    const [ca, sa] = [nodes[o + COS]!, nodes[o + SIN]!]
    const [cb, sb] = [nodes[o + STRIDE + COS]!, nodes[o + STRIDE + SIN]!]
    const angle = turnAngle(ca * sb - sa * cb, ca * cb + sa * sb) - naturalAngle[k]!
    energy += (hinge[k]! / 2) * angle * angle
  }
  return energy
}
