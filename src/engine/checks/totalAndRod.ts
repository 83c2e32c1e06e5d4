import type { Check } from './finding'
import { limitSource } from './limits'

/** Competition goes to twice the rod (common practice); a twentieth more for rounding, estimate. */
const BEYOND_COMPETITION = 2.05

/** Total length in rods: too long cannot be landed by hand, too short brings the line to the fish. */
export const totalAndRod: Check = {
  id: 'total-and-rod',
  run: ({ leader, profile, limits }) => {
    const rod = leader.outfit.rod
    if (!rod) return 'no-rod'
    const [low, high] = [limits.rodsLow, limits.rodsHigh]
    if (low === null || high === null) return 'not-for-this-purpose'
    const rods = profile.total_m / rod.si
    if (rods >= low - 0.005 && rods <= high + 0.005) return []
    const short = rods < low
    const total_m = rod.si * (short ? low : high)
    return [
      {
        id: 'total-and-rod',
        variant: short ? 'short' : 'long',
        severity: rods > BEYOND_COMPETITION ? 'caution' : 'note',
        place: { kind: 'leader', index: 0 },
        measured: { total_m: profile.total_m, rods },
        limit: { low, high, rod_m: rod.si },
        source: limitSource(short ? 'rodsLow' : 'rodsHigh', limits, leader.purpose),
        remedies: [{ id: 'scale', figures: { total_m }, edit: { kind: 'scale', total_m } }],
      },
    ]
  },
}
