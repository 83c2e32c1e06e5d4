import type { Check, CheckInput, FindingOf, Remedy } from './finding'
import { STANDARD_GRAVITY_M_S2 } from '../units'
import {
  ROUNDING_M,
  diameter_m,
  jointAt,
  materialOf,
  roundedDiameter,
  tippetIndex,
} from '../leader'
import { knot } from '../materials'
import { diameterHolding_m } from '../strength'
import { define, sourceOf } from './limits'

const LIMITS = {
  fishPull: define(
    'factor',
    0.5,
    'estimate: a hooked fish is let run before it pulls half its weight',
  ),
}

type TipAndFish = FindingOf<
  'tip-and-fish',
  'weak',
  { strength_N: number },
  { strength_N: number; fish_kg: number }
>

/** The weakest place, wet, against the pull of the fish that is expected. */
export const tipAndFish: Check<TipAndFish, 'no-fish' | 'not-for-this-purpose', typeof LIMITS> = {
  id: 'tip-and-fish',
  oneFor: 'leader',
  bounds: [{ measured: 'strength_N', atLeast: 'strength_N' }],
  limits: LIMITS,
  run: (input) => {
    const { leader, weakest, limits } = input
    const fish = leader.outfit.fish
    if (!fish) return 'no-fish'
    if (limits.fishPull === null) return 'not-for-this-purpose'
    const needed_N = fish.si * STANDARD_GRAVITY_M_S2 * limits.fishPull
    const strength_N = weakest.strength.wet.value
    if (strength_N >= needed_N) return []
    const { kind, index } = weakest
    return [
      {
        id: 'tip-and-fish',
        variant: 'weak',
        severity: 'caution',
        place: { kind, index },
        measured: { strength_N },
        limit: { strength_N: needed_N, fish_kg: fish.si },
        source: sourceOf(LIMITS, 'fishPull', input),
        remedies: [stouter(input, needed_N)].filter((r) => r !== undefined),
      },
    ]
  },
}

/**
 * The weak piece as stout as the fish needs, its weaker knot counted; the taper is stepped anew where
 * that piece is the tippet. A new diameter has no label, so its strength is the material's.
 */
function stouter({ leader, weakest }: CheckInput, needed_N: number): Remedy | undefined {
  const at = weakest.piece
  const segment = leader.segments[at]
  if (!segment) return undefined
  const keeps = Math.min(...[at, at + 1].map((i) => knot(jointAt(leader, i).knot).efficiency.value))
  const holding_m = diameterHolding_m(materialOf(leader, segment.material), needed_N / keeps)
  // A strand that tests low is replaced by a sound one, never by a finer one.
  const size = Math.max(holding_m, diameter_m(segment) - ROUNDING_M)
  const diameter = roundedDiameter(size + ROUNDING_M, segment.diameter.unit)
  const above = leader.segments[at - 1]
  if (above && diameter.si > diameter_m(above)) return undefined
  if (at !== tippetIndex(leader)) {
    return {
      id: 'set-diameter',
      edit: { kind: 'diameter', at, diameter },
    }
  }
  return {
    id: 'restep',
    edit: { kind: 'restep', tippet: diameter },
  }
}
