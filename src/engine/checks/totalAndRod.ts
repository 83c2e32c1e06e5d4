import type { Check, FindingOf } from './finding'
import { define, sourceOf } from './limits'

const RODS =
  'about the rod to one and a half (common practice); competition to twice the rod (common practice)'
const LIMITS = {
  rodsLow: define('rods', 0.75, RODS, {
    streamer: 0.5,
    'sinking-line': 0.15,
    'bite-tippet': 0.6,
    teaching: 0.6,
  }),
  rodsHigh: define('rods', 1.5, RODS, {
    'slack-line-dry': 1.6,
    'tight-line-nymph': 2,
    'still-water': 2,
    'sinking-line': 1,
    'salt-water': 1.75,
    streamer: 1.3,
  }),
}

/** Competition goes to twice the rod (common practice); a twentieth more for rounding, estimate. */
const BEYOND_COMPETITION = 2.05

type TotalAndRod = FindingOf<
  'total-and-rod',
  'short' | 'long',
  { total_m: number; rods: number },
  { low: number; high: number; rod_m: number }
>

/** Total length in rods: too long cannot be landed by hand, too short brings the line to the fish. */
export const totalAndRod: Check<TotalAndRod, 'no-rod' | 'not-for-this-purpose', typeof LIMITS> = {
  id: 'total-and-rod',
  oneFor: 'leader',
  bounds: [{ measured: 'rods', atLeast: 'low', atMost: 'high' }],
  limits: LIMITS,
  run: (input) => {
    const { leader, profile, limits } = input
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
        source: sourceOf(LIMITS, short ? 'rodsLow' : 'rodsHigh', input),
        remedies: [{ id: 'scale', edit: { kind: 'scale', total_m } }],
      },
    ]
  },
}
