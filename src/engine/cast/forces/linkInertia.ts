import type { Chain } from '../chain'
import type { State } from '../state'

/**
 * What lumping a link's mass on its ends gets wrong: half-way to a consistent mass, m/12 times the
 * difference of its ends' accelerations (extrapolated from the two steps before). On the line only; on the
 * light leader it is unstable.
 */
export function applyLinkInertia(
  { ax, ay, olderAx, olderAy, fx, fy }: State,
  { butt, linkInertia }: Chain,
): void {
  let nearX = 2 * ax[0]! - olderAx[0]!
  let nearY = 2 * ay[0]! - olderAy[0]!
  let beforeX = linkInertia[0]!
  let beforeY = linkInertia[0]!
  for (let k = 1; k <= butt; k++) {
    const farX = 2 * ax[k]! - olderAx[k]!
    const farY = 2 * ay[k]! - olderAy[k]!
    const m = linkInertia[k]!
    const gx = m * (farX - nearX)
    const gy = m * (farY - nearY)
    fx[k - 1] = fx[k - 1]! + beforeX - gx
    fy[k - 1] = fy[k - 1]! + beforeY - gy
    beforeX = gx
    beforeY = gy
    nearX = farX
    nearY = farY
  }
  fx[butt] = fx[butt]! + beforeX
  fy[butt] = fy[butt]! + beforeY
}
