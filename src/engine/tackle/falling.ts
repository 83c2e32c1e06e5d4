/**
 * Drag coefficient of a sphere, Re from 0.1 to 2e5: L. Schiller and A. Naumann, VDI-Zeitschrift 77, 1933,
 * up to Re 1000, and 0.44 beyond (Clift, Grace and Weber, Bubbles, Drops, and Particles, 1978; from memory).
 */
export function sphereDrag(re: number): number {
  return re < 1000 ? (24 / re) * (1 + 0.15 * re ** 0.687) : 0.44
}

const [SLOWEST_M_S, FASTEST_M_S] = [1e-7, 50]

/**
 * Speed (m/s) at which drag carries a weight (N): where the force, which must grow with speed, equals it.
 * 0 where there is no weight to carry.
 */
export function terminalSpeed_m_s(weight_N: number, drag_N: (speed_m_s: number) => number): number {
  if (!(weight_N > 0)) return 0
  let [low, high] = [SLOWEST_M_S, FASTEST_M_S]
  // Sixty halvings of a factor of 5e8 leave no figure uncertain.
  for (let k = 0; k < 60; k++) {
    const middle = Math.sqrt(low * high)
    if (drag_N(middle) < weight_N) low = middle
    else high = middle
  }
  return Math.sqrt(low * high)
}
