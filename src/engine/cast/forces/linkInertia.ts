/**
 * What lumping a link's mass on its ends gets wrong: half-way to a consistent mass, m/12 times the
 * difference of its ends' accelerations (extrapolated from the two steps before). On the line only; on the
 * light leader it is unstable.
 * @returns one component of the force on the far end, N; the near end feels the opposite.
 */
export function inertiaPull(inertia_kg: number, near_m_s2: number, far_m_s2: number): number {
  return inertia_kg * (far_m_s2 - near_m_s2)
}
