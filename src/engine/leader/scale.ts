import type { Quantity, Unit } from '../units'
import type { Leader } from './types'
import { INCH_M, isMetricUnit, quantityOf } from '../units'
import { SHORTEST_PIECE_M, moveLength, setSegment } from './edits'
import { shareOf, totalLength_m } from './read'

/** What a rule on the bench shows: half inches, or centimetres. */
function grid_m(unit: Unit): number {
  return isMetricUnit(unit) ? 0.01 : INCH_M / 2
}

/** Six inches, or fifteen centimetres: one length at the bench. */
export function shortestPiece_m(unit: Unit): number {
  return isMetricUnit(unit) ? 0.15 : SHORTEST_PIECE_M
}

/** Which of the lengths is the longest. */
export const longestOf = (lengths: readonly number[]): number =>
  lengths.indexOf(Math.max(...lengths))

/**
 * Scales the leader to a new total (m), in lengths that a rule shows; what the grid leaves over goes to the
 * longest piece, no piece of the taper gets too short to tie, and a stated total follows.
 */
export function scaleTo(leader: Leader, total_m: number): Leader {
  const factor = total_m / totalLength_m(leader)
  const wanted = leader.segments.map(({ length }) => length.si * factor)
  const lengths = onGrid(wanted, leader, total_m)
  const scaled = lengths.reduce((acc, length, i) => setSegment(acc, i, { length }), leader)
  return withStatedTotal(withoutShortPieces(scaled, leader))
}

const COARSE = 4 // pieces shorter than so many marks of the rule are scaled as they are: estimate

/** Lengths cut down to the grid; the marks that are then left go to the pieces that lost most. */
function onGrid(wanted_m: readonly number[], { segments }: Leader, total_m: number): Quantity[] {
  const units = segments.map(({ length }) => length.unit)
  const grids = wanted_m.map((length, i) => {
    const grid = grid_m(units[i] ?? 'in')
    return length < COARSE * grid ? 0 : grid
  })
  const cut = wanted_m.map((length, i) => floorTo(length, grids[i] ?? 0))
  const marked = shareOut(cut, grids, wanted_m, total_m)
  const lengths = marked.map((length, i) => quantityOf(length, 'length', units[i] ?? 'in'))
  const longest = longestOf(marked)
  const rest_m = total_m - lengths.reduce((sum, { si }) => sum + si, 0)
  return lengths.map((q, i) => (i === longest ? quantityOf(q.si + rest_m, 'length', q.unit) : q))
}

/** One mark of the rule each, in the order of what was lost, while there are any left. */
function shareOut(
  cut_m: readonly number[],
  grids: readonly number[],
  wanted_m: readonly number[],
  total_m: number,
): number[] {
  const lost = (i: number) => (wanted_m[i] ?? 0) - (cut_m[i] ?? 0)
  const byLoss = [...cut_m.keys()].sort((a, b) => lost(b) - lost(a))
  const marked = [...cut_m]
  let rest_m = total_m - cut_m.reduce((sum, length) => sum + length, 0)
  for (const i of byLoss) {
    const grid = grids[i] ?? 0
    if (grid === 0 || rest_m < grid - 1e-9) continue
    marked[i] = (marked[i] ?? 0) + grid
    rest_m -= grid
  }
  return marked
}

const floorTo = (value: number, grid: number) =>
  grid === 0 ? value : Math.floor(value / grid + 1e-6) * grid

/** Pieces above the tippet that scaling made too short to tie take what they lack from the longest. */
function withoutShortPieces(leader: Leader, before: Leader): Leader {
  const at = leader.segments.findIndex(({ part, length }, i) => {
    const shortest = shortestPiece_m(length.unit)
    const was_m = before.segments[i]?.length.si ?? 0
    const isTip = shareOf(part) === 'tippet'
    return !isTip && length.si < shortest - 1e-3 && was_m >= shortest - 4e-3
  })
  const longest = longestOf(leader.segments.map(({ length }) => length.si))
  const [short, giver] = [leader.segments[at], leader.segments[longest]]
  if (!short || !giver) return leader
  const shortest = shortestPiece_m(short.length.unit)
  if (giver.length.si < 3 * shortest) return leader
  const moved = moveLength(leader, longest, at, shortest - short.length.si)
  return withoutShortPieces(moved, before)
}

function withStatedTotal(leader: Leader): Leader {
  const { statedTotal } = leader
  if (!statedTotal) return leader
  const sum = quantityOf(totalLength_m(leader), 'length', statedTotal.unit)
  return { ...leader, statedTotal: sum }
}
