import type { Check, CheckInput, Remedy } from './finding'
import { STANDARD_GRAVITY_M_S2 } from '../units'
import { diameter_m, roundedDiameter, tippetIndex } from '../leader'
import { limitSource } from './limits'

/** The weakest place, wet, against the pull of the fish that is expected. */
export const tipAndFish: Check = {
  id: 'tip-and-fish',
  run: (input) => {
    const { leader, strength, limits } = input
    const fish = leader.outfit.fish
    if (!fish) return 'no-fish'
    if (limits.fishPull === null) return 'not-for-this-purpose'
    const needed_N = fish.si * STANDARD_GRAVITY_M_S2 * limits.fishPull
    const strength_N = strength.weakest.strength.wet.value
    if (strength_N >= needed_N) return []
    const { kind, index } = strength.weakest
    return [
      {
        id: 'tip-and-fish',
        variant: 'weak',
        severity: 'caution',
        place: { kind, index },
        measured: { strength_N },
        limit: { strength_N: needed_N, fish_kg: fish.si },
        source: limitSource('fishPull', limits, leader.purpose),
        remedies: [stouterTippet(input, needed_N / strength_N)].filter((r) => r !== undefined),
      },
    ]
  },
}

/** Strength goes with the square of diameter. */
function stouterTippet({ leader }: CheckInput, factor: number): Remedy | undefined {
  const at = tippetIndex(leader)
  const tippet = leader.segments[at]
  if (!tippet) return undefined
  const size = diameter_m(tippet) * Math.sqrt(factor) + 0.7e-5
  const diameter = roundedDiameter(size, tippet.diameter.unit)
  const above = leader.segments[at - 1]
  if (above && diameter.si > diameter_m(above)) return undefined
  return {
    id: 'restep',
    figures: { diameter_m: diameter.si },
    edit: { kind: 'restep', tippet: diameter },
  }
}
