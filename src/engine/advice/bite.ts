import type { Leader } from '../leader'
import type { Material } from '../materials'
import type { Brief } from './brief'
import type { Reason } from './reason'
import { insertSegment, roundedDiameter, setJoint, tippetIndex, withMaterial } from '../leader'
import { knot, sourced } from '../materials'
import { diameterHolding_m, strengthOf } from '../strength'
import { INCH_M, isMetricUnit, quantityOf } from '../units'
import { CP, reason } from './reason'

/** What stands between teeth and tippet. */
export interface BiteAdvice {
  /** From the tippet's knot to the eye, m. */
  readonly length_m: number
  readonly material: Omit<Material, 'id'>
  readonly reasons: readonly Reason[]
}

/** An inch less than the foot that the IGFA's fly rules allow with its knots; practice ties 12 to 18 in. */
const BITE_M = 11 * INCH_M
/** Wire of some 30 lb is stout enough for teeth and still takes a knot (common practice). */
const USUAL_WIRE_M = 0.45e-3
/** The tippet is to part first, at its knot to the wire; estimate. */
const STRONGER = 1.25

const DEMO = 'estimate: stranded steel in a soft coating; weigh and test your own'
const exactly = (value: number) => sourced(value, value, value, DEMO)
const KNOTTABLE_WIRE: Omit<Material, 'id'> = {
  name: 'Knottable wire',
  family: 'wire',
  density: exactly(4800),
  modulus: exactly(20e9),
  wetModulus: exactly(1),
  tensileStrength: exactly(900e6),
  wetStrength: exactly(1),
}

/** A bite piece for fish that have teeth; undefined for all others. */
export function biteAdvice({ conditions }: Brief): BiteAdvice | undefined {
  if (!conditions.toothy) return undefined
  const source = `wire of 12 to 18 in (${CP}); a foot at most with its knots (IGFA fly fishing rules)`
  return {
    length_m: BITE_M,
    material: KNOTTABLE_WIRE,
    reasons: [
      reason('bite-teeth', { length_m: BITE_M }, source),
      reason('bite-knot', { knot: 'albright' }, CP),
    ],
  }
}

/** The leader with the bite piece tied below its tippet, stouter than what it must outlast. */
export function withBite(leader: Leader, { length_m, material }: BiteAdvice): Leader {
  const last = leader.segments.length
  const tippet = leader.segments[tippetIndex(leader)]
  if (!tippet) return leader
  const unit = isMetricUnit(tippet.length.unit) ? 'mm' : 'in'
  const longer = insertSegment(leader, last, {
    part: 'bite',
    material: tippet.material,
    diameter: roundedDiameter(wireFor_m(leader, material), unit),
    length: quantityOf(length_m, 'length', tippet.length.unit),
    joint: { knot: 'albright' },
    attachments: [],
  })
  // A stiff wire drawn tight holds the fly stiff: an open loop lets it swing.
  return setJoint(withMaterial(longer, last, material), last + 1, { knot: 'loop-knot' })
}

function wireFor_m(leader: Leader, wire: Omit<Material, 'id'>): number {
  const tippet_N = strengthOf(leader).segments[tippetIndex(leader)]?.wet.value ?? 0
  const wanted_N = (STRONGER * tippet_N) / knot('loop-knot').efficiency.value
  return Math.max(USUAL_WIRE_M, diameterHolding_m(wire, wanted_N))
}
