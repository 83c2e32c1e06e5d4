import type { Material, Sourced } from '../materials'
import type { Brief } from './brief'
import type { Reason } from './reason'
import type { Water } from '../leader'
import { limitFor } from '../checks'
import { knot, sourced } from '../materials'
import { diameterHolding_m } from '../strength'
import { FRESH_WATER } from '../tackle'
import { STANDARD_GRAVITY_M_S2, xOfDiameter } from '../units'
import { purposeFor } from './brief'
import { ESTIMATE, reason } from './reason'

/** What the fish asks of the tippet. */
export interface StrengthAdvice {
  /** Pull on the leader, N. */
  readonly pull: Sourced
  /** Strength that the strand must have wet for its knots to hold the pull, N. */
  readonly strand: Sourced
  /** Finest tippet (m, and as an X size, below 0 where stouter than 0X) that holds it. */
  readonly finest_m: number
  readonly finestX: number
  readonly reasons: readonly Reason[]
}

/** Current (m/s) of each kind of water, slow to fast within it: estimates. */
const CURRENTS: Readonly<Record<Water, Sourced>> = {
  'small-stream': sourced(0.5, 0.2, 0.8, ESTIMATE),
  'pocket-water': sourced(1, 0.6, 1.6, ESTIMATE),
  riffle: sourced(0.7, 0.4, 1.1, ESTIMATE),
  flat: sourced(0.3, 0.1, 0.5, ESTIMATE),
  'still-water': sourced(0, 0, 0.1, ESTIMATE),
  'salt-water': sourced(0.3, 0, 1, ESTIMATE),
}

export function currentOf(water: Water): Sourced {
  return CURRENTS[water]
}

/**
 * A trout's length from its mass, m = 11 kg/m3 x L^3: condition factor 1.1 g/cm3 x 100 (fisheries practice,
 * from memory). Its side is about 0.165 L^2, with a drag coefficient of 1 across the flow (estimates).
 */
const CONDITION_KG_M3 = 11
const SIDE_SHARE = 0.165
/** It turns between head on and thirty degrees to the flow: the force goes with the sine squared. */
const TURNED = sourced(Math.sin(Math.PI / 6) ** 2, 0, Math.sin(Math.PI / 4) ** 2, ESTIMATE)

/** Force (N) of the current on a fish held in it. */
export function currentOnFish_N(fish_kg: number, current: Sourced): Sourced {
  const length_m = Math.cbrt(fish_kg / CONDITION_KG_M3)
  const side_m2 = SIDE_SHARE * length_m ** 2
  const force = (speed: number, turned: number) =>
    (FRESH_WATER.density_kg_m3 / 2) * side_m2 * turned * speed ** 2
  return sourced(
    force(current.value, TURNED.value),
    force(current.low, TURNED.low),
    force(current.high, TURNED.high),
    'drag on its side, turned up to 45 degrees into the current: estimate',
  )
}

/** Jerk over a steady pull: a soft rod gives more than a stout one; estimates by line class. */
function shockOf(weight: number | undefined): number {
  if (weight === undefined) return 1.35
  return weight <= 4 ? 1.2 : weight <= 6 ? 1.35 : 1.5
}

const SNAGS = 1.5 // a fish that must be stopped, not played: estimate
const DEFAULT_FISH_KG = 0.45

/** Strength and finest tippet for the fish, current, rod and knots of a brief, in a material. */
export function strengthAdvice(brief: Brief, material: Material): StrengthAdvice {
  const { outfit, conditions } = brief
  const fish_kg = outfit.fish?.si ?? DEFAULT_FISH_KG
  const share = limitFor('fishPull', purposeFor(brief)) ?? 0.5
  const weight_N = fish_kg * STANDARD_GRAVITY_M_S2 * share
  const current = currentOf(conditions.water)
  const drag = currentOnFish_N(fish_kg, current)
  const shock = shockOf(outfit.line?.weight) * (conditions.snags ? SNAGS : 1)
  const pull = sourced(
    (weight_N + drag.value) * shock,
    (weight_N * 0.6 + drag.low) * shock,
    (weight_N * 1.6 + drag.high) * shock,
    'half its weight and the current, times the jerk: estimate',
  )
  const keeps = weakestKnot(brief)
  const strand = sourced(
    pull.value / keeps.value,
    pull.low / keeps.high,
    pull.high / keeps.low,
    pull.source,
  )
  const finest_m = diameterHolding_m(material, strand.value)
  return {
    pull,
    strand,
    finest_m,
    finestX: xOfDiameter(finest_m),
    reasons: [
      ...(outfit.fish ? [] : [reason('strength-unknown', { fish_kg }, ESTIMATE)]),
      reason('strength-weight', { fish_kg, share, pull_N: weight_N }, ESTIMATE),
      ...(drag.value > 0
        ? [
            reason(
              'strength-current',
              { current_m_s: current.value, pull_N: drag.value },
              drag.source,
            ),
          ]
        : []),
      reason('strength-shock', { factor: shockOf(outfit.line?.weight) }, ESTIMATE),
      ...(conditions.snags ? [reason('strength-snags', { factor: SNAGS }, ESTIMATE)] : []),
      reason(
        'strength-knots',
        { efficiency: keeps.value, strand_N: strand.value, diameter_m: finest_m },
        keeps.source,
      ),
    ],
  }
}

/** Of the knots at both ends of a tippet, and at a bite piece, the one that keeps least. */
function weakestKnot({ conditions }: Brief): Sourced {
  const end = conditions.toothy ? ('albright' as const) : ('improved-clinch' as const)
  const knots = ([end, 'surgeons-triple'] as const).map((id) => knot(id).efficiency)
  return knots.reduce((a, b) => (b.value < a.value ? b : a))
}
