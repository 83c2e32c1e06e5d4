import type { Check, CheckInput, FindingOf, Remedy } from './finding'
import type { Leader } from '../leader'
import type { CutPiece } from '../tying'
import { knotLength_m } from '../tying'
import { STANDARD_GRAVITY_M_S2, quantityOf } from '../units'
import { isShock, tippetIndex } from '../leader'

/** Class tippet at least 15 in inside its knots: IGFA fly fishing rules. */
export const CLASS_TIPPET_M = 0.381
const SHOCK_TIPPET_M = 0.3048
/** The heaviest class: 10 kg, labelled 20 lb. */
const HEAVIEST_CLASS_N = 10 * STANDARD_GRAVITY_M_S2
export const RULES = 'IGFA fly fishing rules'

export type RecordClause =
  | 'class-length'
  | 'class-strength'
  | 'class-material'
  | 'shock-length'
  | 'rod-length'
  | 'flies'
  | 'butt'

/** One clause of the fly-record rules: what is there, what is allowed, and whether it is kept. */
export interface ClauseResult {
  readonly clause: RecordClause
  readonly status: 'pass' | 'fail' | 'unknown' | 'not-used'
  /** Segment it speaks of. */
  readonly index: number
  readonly measured?: number
  readonly limit?: number
  readonly source: string
}

export interface ForRecords {
  readonly leader: Leader
  readonly cut: readonly CutPiece[]
}

/** Lengths and strengths, measured as the rules measure them. */
export function measuredClauses(input: ForRecords): ClauseResult[] {
  return [classLength(input), classStrength(input.leader), ...shockLengths(input)]
}

export const judged = (
  clause: RecordClause,
  index: number,
  measured: number,
  limit: number,
  ok: boolean,
): ClauseResult => ({
  clause,
  index,
  measured,
  limit,
  status: ok ? 'pass' : 'fail',
  source: RULES,
})

export const noFigure = (
  clause: RecordClause,
  index: number,
  status: 'unknown' | 'not-used',
): ClauseResult => ({ clause, index, status, source: RULES })

/** Class tippet at least 15 in inside the connecting knots: finished length less half of what its knots cover. */
function classLength({ leader, cut }: ForRecords): ClauseResult {
  const at = tippetIndex(leader)
  const piece = cut[at]
  if (!piece) return noFigure('class-length', at, 'unknown')
  const inside_m = piece.finished_m - knotLength_m(piece.inKnots_m) / 2
  return judged('class-length', at, inside_m, CLASS_TIPPET_M, inside_m >= CLASS_TIPPET_M)
}

/** Only a strength that is stated is judged: an estimate of ours decides no record. */
function classStrength({ segments }: Leader): ClauseResult {
  const at = segments.map((s) => s.part).lastIndexOf('tippet')
  const tippet = segments[at]
  const stated = tippet?.pullTest ?? tippet?.strength
  if (!stated) return noFigure('class-strength', at, 'unknown')
  return judged('class-strength', at, stated.si, HEAVIEST_CLASS_N, stated.si <= HEAVIEST_CLASS_N)
}

/** Shock tippet at most 12 in from the hook's eye to the single strand of class tippet, knots included. */
function shockLengths(input: ForRecords): ClauseResult[] {
  const { segments } = input.leader
  const found = segments.flatMap((s, at) => {
    if (!isShock(s)) return []
    const measured_m = s.length.si + halfKnotAbove_m(input, at)
    return [
      judged('shock-length', at, measured_m, SHOCK_TIPPET_M, measured_m <= SHOCK_TIPPET_M + 1e-4),
    ]
  })
  return found.length > 0 ? found : [noFigure('shock-length', -1, 'not-used')]
}

/** Half of the knot at its butt end lies beyond the middle from which its finished length counts. */
function halfKnotAbove_m({ cut }: ForRecords, at: number): number {
  const [above, own] = [cut[at - 1], cut[at]]
  if (!above || !own) return 0
  // Each piece has two knots; the one they share is half of what both give.
  return knotLength_m((above.inKnots_m + own.inKnots_m) / 2) / 2
}

type Id = 'record-rules'
type RecordRules =
  | FindingOf<Id, 'class-short' | 'shock-long', { length_m: number }, { length_m: number }>
  | FindingOf<Id, 'class-strong', { strength_N: number }, { strength_N: number }>

/** Fly-record lengths: class tippet at least 15 in inside its knots, shock tippet at most 12 in with knots. */
export const recordRules: Check<RecordRules, 'no-record-purpose'> = {
  id: 'record-rules',
  oneFor: 'place',
  bounds: [],
  limits: {},
  run: (input) => {
    const { leader } = input
    if (!isForRecords(leader)) return 'no-record-purpose'
    const cut = input.pieces.map((piece) => piece.cut)
    return measuredClauses({ leader, cut }).flatMap((result) => finding(input, result))
  },
}

/** Whether a leader is of the kind that records are fished with. */
export function isForRecords({ segments, purpose }: Leader): boolean {
  return segments.some(isShock) || purpose === 'salt-water' || purpose === 'bite-tippet'
}

function finding(input: CheckInput, result: ClauseResult): RecordRules[] {
  const { clause, status, index, measured = 0, limit = 0 } = result
  if (status !== 'fail') return []
  const common = {
    id: 'record-rules',
    severity: 'note',
    place: { kind: 'segment', index },
    source: RULES,
    remedies: remedies(input, result),
  } as const
  if (clause === 'class-strength') {
    const [strength, most] = [{ strength_N: measured }, { strength_N: limit }]
    return [{ ...common, variant: 'class-strong', measured: strength, limit: most }]
  }
  const variant = clause === 'class-length' ? 'class-short' : 'shock-long'
  return [{ ...common, variant, measured: { length_m: measured }, limit: { length_m: limit } }]
}

function remedies({ leader }: CheckInput, { clause, index, measured = 0 }: ClauseResult): Remedy[] {
  const segment = leader.segments[index]
  if (!segment || clause === 'class-strength') return []
  const [id, limit_m, spare_m] =
    clause === 'class-length'
      ? (['lengthen', CLASS_TIPPET_M, 0.005] as const)
      : (['shorten', SHOCK_TIPPET_M, -0.005] as const)
  const wanted_m = segment.length.si + limit_m - measured + spare_m
  const length = quantityOf(wanted_m, 'length', segment.length.unit)
  return [{ id, edit: { kind: 'length', at: index, length } }]
}
