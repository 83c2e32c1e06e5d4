import type { KnotId } from '../materials'
import type { Leader, Segment } from '../leader'
import type { Quantity } from '../units'
import { limitFor } from '../checks'
import {
  diameter_m,
  insertSegment,
  materialOf,
  roundedDiameter,
  setSegment,
  tippetIndex,
  totalLength_m,
} from '../leader'
import { strengthOf } from '../strength'
import { INCH_M, quantityOf, isMetricUnit } from '../units'
import { knot, seatingFault } from '../materials'

/** What happens to a leader on the water. */
export type UseEvent =
  | { readonly kind: 'fly-change'; readonly clipped_m: number }
  | { readonly kind: 'break'; readonly lost_m: number }
  /** `with`: tied on in one go with what went before. */
  | {
      readonly kind: 'added' | 'replaced'
      readonly piece: Piece
      readonly with?: boolean | undefined
    }

/** A length of strand that is tied on at the end. */
export interface Piece {
  readonly material: string
  readonly diameter: Quantity
  readonly length: Quantity
  readonly knot: KnotId
}

/** Each change of fly takes 2 to 4 in of tippet (from memory); a break as much and what was knotted. */
export const USUAL_CLIP_M = 3 * INCH_M
export const USUAL_BREAK_M = 6 * INCH_M

const SHORTEST_LEFT_M = 0.01

/** What is left when the latest is taken back, with what was done in one go with it. */
export function withoutLast(events: readonly UseEvent[]): readonly UseEvent[] {
  const last = events.at(-1)
  const rest = events.slice(0, -1)
  return last && 'with' in last && last.with ? withoutLast(rest) : rest
}

/** The leader as it now is, from what it was and what has happened since. */
export function leaderNow(start: Leader, events: readonly UseEvent[]): Leader {
  return events.reduce(after, start)
}

function after(leader: Leader, event: UseEvent): Leader {
  switch (event.kind) {
    case 'fly-change':
      return trimmed(leader, event.clipped_m)
    case 'break':
      return trimmed(leader, event.lost_m)
    case 'added':
      return withPiece(leader, event.piece)
    case 'replaced':
      return withPiece(withoutTippet(leader), event.piece)
  }
}

/** Length (m) taken off the end; pieces that are used up go, but one stub always stays. */
export function trimmed(leader: Leader, amount_m: number): Leader {
  const last = leader.segments.at(-1)
  if (!last || amount_m <= 0) return leader
  const left_m = last.length.si - amount_m
  if (left_m >= SHORTEST_LEFT_M || leader.segments.length === 1) {
    const length = quantityOf(Math.max(SHORTEST_LEFT_M, left_m), 'length', last.length.unit)
    return setSegment(leader, leader.segments.length - 1, { length })
  }
  const shorter = { ...leader, segments: leader.segments.slice(0, -1) }
  return trimmed(shorter, amount_m - last.length.si)
}

function withoutTippet(leader: Leader): Leader {
  const kept = leader.segments.filter((s) => s.part !== 'tippet')
  return kept.length > 0 ? { ...leader, segments: kept } : leader
}

function withPiece(leader: Leader, { knot, ...strand }: Piece): Leader {
  const piece: Omit<Segment, 'key'> = {
    ...strand,
    part: 'tippet',
    joint: { knot },
    attachments: [],
  }
  return insertSegment(leader, leader.segments.length, piece)
}

export type UseState = 'fresh' | 'short' | 'in-taper'

/** How a leader in use stands. */
export interface UseStatus {
  readonly leader: Leader
  readonly state: UseState
  /** Length of tippet left, all its pieces, m; 0 once the end is in the taper. */
  readonly tippet_m: number
  /** What it began with, and what is too short for its purpose, m. */
  readonly began_m: number
  readonly shortest_m: number
  /** Changes of fly that are left before it is too short, by the usual clip. */
  readonly changesLeft: number
  /** Diameter at the end now, and of the tippet it began with, m. */
  readonly end_m: number
  readonly wanted_m: number
  readonly total_m: number
  readonly advice: Addition | null
}

/** What to tie on, and what the leader is then. */
export interface Addition {
  /** From the leader down: a step in between where the end is too stout for the tippet. */
  readonly pieces: readonly Piece[]
  /** The stub of tippet that is left is cut off first. */
  readonly replaces: boolean
  /** With it tied on. */
  readonly leader: Leader
  readonly total_m: number
  /** At the weakest place, wet, N. */
  readonly strength_N: number
  readonly place: { readonly kind: 'segment' | 'joint'; readonly index: number }
}

export function useStatus(
  start: Leader,
  events: readonly UseEvent[],
  clip_m = USUAL_CLIP_M,
): UseStatus {
  const leader = leaderNow(start, events)
  const tippet_m = tippetLength_m(leader)
  const began = start.segments[tippetIndex(start)] ?? start.segments.at(-1)
  const end = leader.segments.at(-1)
  const shortest_m = limitFor('tippetShortest', start.purpose) ?? SHORTEST_LEFT_M
  const inTaper = tippetIndex(leader) < 0
  const state = inTaper ? 'in-taper' : tippet_m < shortest_m - 1e-4 ? 'short' : 'fresh'
  const advice =
    state === 'fresh' || !began ? null : additionFor(leader, began, tippetLength_m(start))
  return {
    leader,
    state,
    tippet_m,
    began_m: tippetLength_m(start),
    shortest_m,
    changesLeft: Math.max(0, Math.floor((tippet_m - shortest_m + 1e-9) / clip_m)),
    end_m: end ? diameter_m(end) : 0,
    wanted_m: began ? diameter_m(began) : 0,
    total_m: totalLength_m(leader),
    advice,
  }
}

function tippetLength_m({ segments }: Leader): number {
  return segments.reduce((sum, s) => sum + (s.part === 'tippet' ? s.length.si : 0), 0)
}

const STUB_M = 8 * INCH_M // a shorter stub is not worth a knot, estimate
const LEAST_RATIO = 0.65 // of a step into a tippet; below it a strong warning, our reading of several rules

/** The tippet it began with, whole where hardly any is left, else what brings it back to its length. */
function additionFor(leader: Leader, began: Segment, began_m: number): Addition {
  const left_m = tippetLength_m(leader)
  const replaces = left_m > 0 && left_m < STUB_M
  const base = replaces ? withoutTippet(leader) : leader
  const lacks_m = Math.max(STUB_M, began_m - (replaces ? 0 : left_m))
  const pieces = piecesFor(base, began, lacks_m)
  const renewed = pieces.reduce(withPiece, base)
  const { weakest } = strengthOf(renewed)
  return {
    pieces,
    replaces,
    leader: renewed,
    total_m: totalLength_m(renewed),
    strength_N: weakest.strength.wet.value,
    place: { kind: weakest.kind, index: weakest.index },
  }
}

function piecesFor(base: Leader, began: Segment, lacks_m: number): Piece[] {
  const end = base.segments.at(-1)
  const tippet: Piece = {
    material: began.material,
    diameter: began.measured ?? began.diameter,
    length: quantityOf(Math.round(lacks_m / INCH_M) * INCH_M, 'length', began.length.unit),
    knot: 'surgeons-triple',
  }
  if (!end) return [tippet]
  const knot = knotBetween(base, end, began)
  const ratio = diameter_m(began) / diameter_m(end)
  if (ratio >= LEAST_RATIO) return [{ ...tippet, knot }]
  const between: Piece = {
    material: began.material,
    diameter: roundedDiameter(Math.sqrt(diameter_m(began) * diameter_m(end)), inLength(began)),
    length: quantityOf(STUB_M, 'length', began.length.unit),
    knot: 'surgeons-triple',
  }
  return [between, tippet]
}

const inLength = ({ diameter }: Segment) => (isMetricUnit(diameter.unit) ? 'mm' : 'in')

/** A blood knot where it seats, on one material; three passes of a surgeon's seat on all. */
function knotBetween(leader: Leader, a: Segment, b: Segment): KnotId {
  const seats = !seatingFault(knot('blood'), diameter_m(a), diameter_m(b))
  const same = materialOf(leader, a.material).family === materialOf(leader, b.material).family
  return seats && same && a.part !== 'tippet' ? 'blood' : 'surgeons-triple'
}
