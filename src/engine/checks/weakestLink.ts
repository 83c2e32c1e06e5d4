import type { Check, CheckInput, FindingOf, Remedy } from './finding'
import type { KnotId } from '../materials'
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

const STOUTER = 1.15 // a seventh stouter is about a third stronger, estimate

type Id = 'weakest-link'
type WeakestLink =
  | FindingOf<Id, 'segment', { strength_N: number }, { strength_N: number }>
  | FindingOf<Id, 'joint', { strength_N: number; knot: KnotId }, { strength_N: number }>

/** A leader should break at its tippet, where least is lost. */
export const weakestLink: Check<WeakestLink> = {
  id: 'weakest-link',
  oneFor: 'leader',
  bounds: [{ measured: 'strength_N', atLeast: 'strength_N' }],
  limits: {},
  run: (input) => {
    const { weakest, pieces } = input
    if (isAtTippet(input)) return []
    const { kind, index, strength } = weakest
    const strength_N = strength.wet.value
    const tippet = pieces.filter(({ segment }) => segment.part === 'tippet').at(-1) ?? pieces.at(-1)
    return [
      {
        id: 'weakest-link',
        severity: 'caution',
        place: { kind, index },
        ...(kind === 'joint'
          ? { variant: kind, measured: { strength_N, knot: jointAt(input.leader, index).knot } }
          : { variant: kind, measured: { strength_N } }),
        limit: { strength_N: tippet?.strength.wet.value ?? 0 },
        source: `least wet strength of every segment and knot (${strength.wet.source})`,
        remedies: [stouter(input)].filter((r) => r !== undefined),
      },
    ]
  },
}

/**
 * The tippet is the weak strand, in itself or in one of its knots; a bite piece below counts as its end.
 * A weaker strand tied to the tippet breaks in its own knots, and may take the tippet with it.
 */
function isAtTippet({ weakest, leader }: CheckInput): boolean {
  const parts = leader.segments.map((s) => s.part)
  if (!parts.includes('tippet')) return weakest.index >= parts.length - 1
  return parts[weakest.piece] === 'tippet' || parts[weakest.index - 1] === 'tippet'
}

/**
 * The weak piece a seventh stouter, or as stout as it takes to hold what the tippet holds: a new diameter
 * has no label and no pull test, so its strength is the material's.
 */
function stouter({ leader, weakest, pieces }: CheckInput): Remedy | undefined {
  const weak = weakest.piece
  const segment = leader.segments[weak]
  if (!segment) return undefined
  const material = materialOf(leader, segment.material)
  const keeps = Math.min(
    ...[weak, weak + 1].map((at) => knot(jointAt(leader, at).knot).efficiency.value),
  )
  const holding_m = diameterHolding_m(
    material,
    (pieces[tippetIndex(leader)]?.strength.wet.value ?? 0) / keeps,
  )
  const size = Math.max(diameter_m(segment) * STOUTER, holding_m)
  const diameter = roundedDiameter(size + ROUNDING_M, segment.diameter.unit)
  return {
    id: 'set-diameter',
    edit: { kind: 'diameter', at: weak, diameter },
  }
}
