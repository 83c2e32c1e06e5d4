import type { Check, CheckInput, Finding } from './finding'
import { knotLength_m } from '../bench'
import { STANDARD_GRAVITY_M_S2, quantityOf } from '../units'
import { tippetIndex } from '../leader'

const CLASS_TIPPET_M = 0.381
const SHOCK_TIPPET_M = 0.3048
/** The heaviest class: 10 kg, labelled 20 lb. */
const HEAVIEST_CLASS_N = 10 * STANDARD_GRAVITY_M_S2
const RULES = 'IGFA fly fishing rules'

/** Fly-record lengths: class tippet at least 15 in inside its knots, shock tippet at most 12 in with knots. */
export const recordRules: Check = {
  id: 'record-rules',
  run: (input) => {
    const { leader } = input
    const hasShock = leader.segments.some((s) => s.part === 'shock' || s.part === 'bite')
    if (!hasShock && leader.purpose !== 'salt-water' && leader.purpose !== 'bite-tippet')
      return 'no-record-purpose'
    return [...classTippet(input), ...classStrength(input), ...shockTippet(input)]
  },
}

/** Inside the connecting knots: the finished length less half of what its two knots cover. */
function classTippet({ leader, cut }: CheckInput): Finding[] {
  const at = tippetIndex(leader)
  const tippet = leader.segments[at]
  const piece = cut[at]
  if (!tippet || !piece) return []
  const knotsHalf_m = knotLength_m(piece.inKnots_m) / 2
  const inside_m = piece.finished_m - knotsHalf_m
  if (inside_m >= CLASS_TIPPET_M) return []
  const length = quantityOf(CLASS_TIPPET_M + knotsHalf_m + 0.005, 'length', tippet.length.unit)
  return [
    finding('class-short', at, inside_m, CLASS_TIPPET_M, [
      { id: 'lengthen', figures: { length_m: length.si }, edit: { kind: 'length', at, length } },
    ]),
  ]
}

/** Only a strength that is stated is judged: an estimate of ours decides no record. */
function classStrength({ leader }: CheckInput): Finding[] {
  const at = tippetIndex(leader)
  const stated = leader.segments[at]?.pullTest ?? leader.segments[at]?.strength
  if (!stated || stated.si <= HEAVIEST_CLASS_N) return []
  return [
    {
      id: 'record-rules',
      variant: 'class-strong',
      severity: 'note',
      place: { kind: 'segment', index: at },
      measured: { strength_N: stated.si },
      limit: { strength_N: HEAVIEST_CLASS_N },
      source: RULES,
      remedies: [],
    },
  ]
}

function shockTippet({ leader }: CheckInput): Finding[] {
  return leader.segments.flatMap((segment, at) => {
    const isShock = segment.part === 'shock' || segment.part === 'bite'
    if (!isShock || segment.length.si <= SHOCK_TIPPET_M + 1e-4) return []
    const length = quantityOf(SHOCK_TIPPET_M - 0.005, 'length', segment.length.unit)
    return [
      finding('shock-long', at, segment.length.si, SHOCK_TIPPET_M, [
        { id: 'shorten', figures: { length_m: length.si }, edit: { kind: 'length', at, length } },
      ]),
    ]
  })
}

function finding(
  variant: string,
  at: number,
  measured_m: number,
  limit_m: number,
  remedies: Finding['remedies'],
): Finding {
  return {
    id: 'record-rules',
    variant,
    severity: 'note',
    place: { kind: 'segment', index: at },
    measured: { length_m: measured_m },
    limit: { length_m: limit_m },
    source: RULES,
    remedies,
  }
}
