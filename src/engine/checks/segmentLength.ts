import type { Check, CheckInput, FindingOf } from './finding'
import type { Piece } from '../pieces'
import { knotLength_m } from '../tying'
import { quantityOf } from '../units'
import { SHORTEST_PIECE, define, sourceOf } from './limits'

const LIMITS = {
  shortestPiece: SHORTEST_PIECE,
  longestMiddleShare: define(
    'share',
    0.4,
    'estimate: one piece that is most of the taper is a step, not a taper',
    {
      'slack-line-dry': null,
      'tight-line-nymph': null,
      'still-water': null,
      'sinking-line': null,
      'bite-tippet': null,
    },
  ),
}

const RULE_READING_M = 0.004 // 15 cm and 6 in are one length at the bench, estimate
const CLEAR_OF_KNOTS_M = 0.01 // two knots must not touch, estimate
/**
 * A knot is wound in open turns, several times as long as when drawn up: the second knot of a piece needs
 * that room clear of the first, or its turns close over it. Four times, estimate.
 */
const OPEN_TURNS = 4

type Input = CheckInput<keyof typeof LIMITS>
type Id = 'segment-length'
type TooShort = FindingOf<
  Id,
  'knots-touch' | 'short',
  { length_m: number; inKnots_m: number },
  { length_m: number }
>
type TooLong = FindingOf<
  Id,
  'long',
  { share: number; length_m: number },
  { share: number; length_m: number }
>

/** A piece too short for its knots or to tie by hand, or one mid-section piece that is most of the taper. */
export const segmentLength: Check<TooShort | TooLong, never, typeof LIMITS> = {
  id: 'segment-length',
  oneFor: 'place',
  bounds: [
    { measured: 'share', atMost: 'share' },
    { measured: 'length_m', atLeast: 'length_m' },
  ],
  limits: LIMITS,
  run: (input) =>
    input.pieces.flatMap((piece, i) => [...tooShort(input, piece, i), ...tooLong(input, piece, i)]),
}

function tooShort(input: Input, { segment, cut }: Piece, i: number): TooShort[] {
  const shortest = input.limits.shortestPiece
  if (shortest === null) return []
  // Of each of its two knots half lies on the piece.
  const needed_m = (OPEN_TURNS * knotLength_m(cut.inKnots_m)) / 2 + CLEAR_OF_KNOTS_M
  const inTheWay = cut.finished_m < needed_m
  const isTip = segment.part === 'tippet' || segment.part === 'bite' || segment.part === 'shock'
  if (!inTheWay && (isTip || cut.finished_m >= shortest - RULE_READING_M)) return []
  // A millimetre more, so that rounding does not leave it short.
  const length = quantityOf(Math.max(shortest, needed_m + 1e-3), 'length', segment.length.unit)
  return [
    {
      id: 'segment-length',
      variant: inTheWay ? 'knots-touch' : 'short',
      severity: inTheWay ? 'fault' : 'note',
      place: { kind: 'segment', index: i },
      measured: { length_m: cut.finished_m, inKnots_m: cut.inKnots_m },
      limit: { length_m: inTheWay ? needed_m : shortest },
      source: inTheWay
        ? 'turns of the two knots (derived)'
        : sourceOf(LIMITS, 'shortestPiece', input),
      remedies: [
        {
          id: 'lengthen',
          edit: { kind: 'length', at: i, length },
        },
        ...(input.leader.segments.length > 1
          ? [{ id: 'remove' as const, edit: { kind: 'remove', at: i } as const }]
          : []),
      ],
    },
  ]
}

function tooLong(input: Input, { segment }: Piece, i: number): TooLong[] {
  const limit = input.limits.longestMiddleShare
  if (segment.part !== 'mid-section' || limit === null) return []
  const share = segment.length.si / input.profile.total_m
  if (share <= limit + 1e-4) return []
  // Shortening it shortens the whole: x / (rest + x) = limit.
  const rest_m = input.profile.total_m - segment.length.si
  const longest_m = (limit / (1 - limit)) * rest_m - 1e-3
  const length = quantityOf(longest_m, 'length', segment.length.unit)
  return [
    {
      id: 'segment-length',
      variant: 'long',
      severity: 'note',
      place: { kind: 'segment', index: i },
      measured: { share, length_m: segment.length.si },
      limit: { share: limit, length_m: limit * input.profile.total_m },
      source: sourceOf(LIMITS, 'longestMiddleShare', input),
      remedies:
        longest_m > (input.limits.shortestPiece ?? 0)
          ? [
              {
                id: 'shorten',
                edit: { kind: 'length', at: i, length },
              },
            ]
          : [],
    },
  ]
}
