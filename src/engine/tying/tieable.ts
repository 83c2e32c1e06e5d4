import type { Leader } from '../leader'
import type { Spool } from './spool'
import { cutList } from './cut'
import { planBatch } from './batch'
import { isFor } from './spool'

/** A piece that the shelf cannot give: no such spool, or none with enough left on it. */
export interface MissingPiece {
  readonly segment: number
  readonly why: 'none' | 'short'
}

export interface Tieable {
  /** Leaders that can be cut from the shelf, up to the number asked for. */
  readonly leaders: number
  /** What the first leader lacks; empty where one can be tied. */
  readonly missing: readonly MissingPiece[]
}

/** How many leaders of one formula the shelf gives. */
export function tieable(leader: Leader, spools: readonly Spool[], most = 50): Tieable {
  const one = planBatch([{ leader, count: 1 }], spools, 0)
  const missing = one.pieces
    .filter(({ spool }) => spool === null)
    .map(({ segment }) => ({ segment, why: whyMissing(leader, segment, spools) }))
  if (missing.length > 0) return { leaders: 0, missing }
  return { leaders: fitting(leader, spools, Math.min(most, atMost(leader, spools))), missing }
}

function whyMissing(leader: Leader, i: number, spools: readonly Spool[]): MissingPiece['why'] {
  const segment = leader.segments[i]
  return segment && spools.some((spool) => isFor(spool, leader, segment)) ? 'short' : 'none'
}

/** No more than the whole length on the shelf allows, piece by piece. */
function atMost(leader: Leader, spools: readonly Spool[]): number {
  const cut = cutList(leader)
  const counts = leader.segments.map((segment, i) => {
    const own = spools.filter((spool) => isFor(spool, leader, segment))
    const length_m = cut[i]?.cut_m ?? 1
    return own.reduce((sum, { left }) => sum + Math.floor(left.si / length_m), 0)
  })
  return Math.max(1, Math.min(...counts))
}

/** The largest count that leaves no piece out, found by halving. */
function fitting(leader: Leader, spools: readonly Spool[], most: number): number {
  const fits = (count: number) =>
    planBatch([{ leader, count }], spools, 0).pieces.every(({ spool }) => spool !== null)
  let [low, high] = [1, most]
  while (low < high) {
    const middle = Math.ceil((low + high) / 2)
    if (fits(middle)) low = middle
    else high = middle - 1
  }
  return low
}
