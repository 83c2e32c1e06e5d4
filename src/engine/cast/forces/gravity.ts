import type { Chain } from '../chain'
import type { State } from '../state'

/** Weight of every node. */
export function applyGravity({ fy }: State, { links, mass_kg }: Chain, gravity_m_s2: number): void {
  for (let k = 1; k <= links; k++) fy[k] = fy[k]! - mass_kg[k]! * gravity_m_s2
}
