import type { Chain } from '../chain'
import type { State } from '../state'
import { FREE, Y, STRIDE, recordOf } from '../kernel'

/** Depth over which the water takes hold, m, and how fast it then stops a node, 1/s. Our own choice. */
const DEPTH_M = 0.004
const HOLD_1_S = 4000

/**
 * How freely each node moves: 1 in the air, smoothly to nearly 0 once it is a few millimetres down.
 * @returns whether any node is held.
 */
export function applyWater({ nodes }: State, { links }: Chain, step_s: number): boolean {
  let isHeld = false
  const end = recordOf(links)
  for (let o = recordOf(1); o <= end; o += STRIDE) {
    const depth = -nodes[o + Y]!
    if (depth <= 0) {
      nodes[o + FREE] = 1
      continue
    }
    isHeld = true
    const share = Math.min(1, depth / DEPTH_M)
    nodes[o + FREE] = 1 / (1 + HOLD_1_S * share * share * (3 - 2 * share) * step_s)
  }
  return isHeld
}
