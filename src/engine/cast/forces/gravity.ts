import type { Chain } from '../chain'

/** Weight of a node, N; the rod tip is held. */
export function weight_N({ mass_kg }: Chain, node: number, gravity_m_s2: number): number {
  return node === 0 ? 0 : mass_kg[node]! * gravity_m_s2
}
