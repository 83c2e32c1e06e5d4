import type { Curve } from '../../castViews/curves'
import type { ShownFlight } from './flights'
import type { SpeedUnit } from '../../engine/units'
import { speedIn } from '../../engine/units'
import { SPEEDS_M_S } from './flights'

/** Greatest extension in the air against line speed. */
export function speedCurves(flights: readonly ShownFlight[], unit: SpeedUnit): Curve[] {
  return flights.map(({ leader, extensions }, i) => ({
    name: leader.name,
    of: i,
    points: extensions.map((y, k) => ({ x: speedIn(SPEEDS_M_S[k] ?? 0, unit), y })),
  }))
}
