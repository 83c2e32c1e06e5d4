import type { Band } from '../../engine/cast'
import type { Curve } from '../../castViews/curves'
import type { ShownFlight } from './flights'
import { STRAIGHT_EXTENSION } from '../../engine/cast'
import { SPEEDS_M_S } from './flights'

/** Greatest extension against line speed, and where the least speeds of likely casts lie. */
export function speedCurves(flights: readonly ShownFlight[], band: Band | null = null): Curve[] {
  const curves = flights.map(({ leader, extensions }, i) => ({
    name: leader.name,
    of: i,
    points: extensions.map((y, k) => ({ x: SPEEDS_M_S[k] ?? 0, y })),
  }))
  const fastest = SPEEDS_M_S.at(-1) ?? 0
  if (!band || band.p10_m_s === null) return curves
  const ends = [band.p10_m_s, band.p90_m_s ?? fastest]
  const points = ends.map((x) => ({ x: Math.min(x, fastest), y: STRAIGHT_EXTENSION }))
  return [...curves, { name: 'least speed in eight of ten likely casts', points }]
}
