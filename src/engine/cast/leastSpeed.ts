import type { CastCase } from './castCase'
import { UNROLLED, runCast } from './runCast'
import { STRAIGHT_EXTENSION } from './simulated'

/** Line speeds between which a least speed is looked for, m/s. */
const SLOWEST_M_S = 3
const FASTEST_M_S = 40

export interface SpeedSearch {
  /** Extension asked for. */
  readonly target?: number
  /** A speed to begin at: the caster's own is a good guess. */
  readonly from_m_s?: number
  readonly tolerance_m_s?: number
}

/**
 * The extension that the verdict goes by: 0 while less than 0.8 of the leader has unrolled. Right below
 * `straight`; above it, that it is above is all that is certain.
 */
export function extensionAt(
  input: CastCase,
  lineSpeed_m_s: number,
  straight = STRAIGHT_EXTENSION,
): number {
  const flight = runCast(withSpeed(input, lineSpeed_m_s), { stopWhenStraight: true, straight })
  return flight.status === 'ok' && flight.unrolledFraction >= UNROLLED ? flight.extension : 0
}

function withSpeed(input: CastCase, lineSpeed_m_s: number): CastCase {
  return { ...input, cast: { ...input.cast, lineSpeed_m_s } }
}

/**
 * Smallest line speed (m/s) between 3 and 40 that reaches the target, or null if none does: gallops away
 * from a guess until it has one speed that fails and one that does, then halves between them. Nearly
 * monotone, so what it finds is the edge next to the guess.
 */
export function leastLineSpeed(input: CastCase, search: SpeedSearch = {}): number | null {
  const { target = STRAIGHT_EXTENSION, from_m_s = 10, tolerance_m_s = 0.1 } = search
  const reaches = (v: number) => extensionAt(input, v, target) >= target
  const bracket = gallop(reaches, Math.min(FASTEST_M_S, Math.max(SLOWEST_M_S, from_m_s)))
  if (bracket === null) return null
  let { fails, does } = bracket
  while (does - fails > tolerance_m_s) {
    const middle = (fails + does) / 2
    if (reaches(middle)) does = middle
    else fails = middle
  }
  return does
}

const STRIDE = 1.2

/**
 * Strides away from a guess until one speed fails and a faster one does. Heavy flies bounce at the end of
 * the leader, so that a single speed among good ones may fail: an edge is two failures in a row.
 */
function gallop(
  reaches: (v: number) => boolean,
  from: number,
): { fails: number; does: number } | null {
  const slower = (v: number) => Math.max(SLOWEST_M_S, v / STRIDE)
  if (reaches(from)) return downFrom(reaches, from, slower)
  const below = slower(from)
  if (below < from && reaches(below)) return downFrom(reaches, below, slower)
  for (let v = from; v < FASTEST_M_S;) {
    const faster = Math.min(FASTEST_M_S, v * STRIDE)
    if (reaches(faster)) return { fails: v, does: faster }
    v = faster
  }
  return null
}

function downFrom(
  reaches: (v: number) => boolean,
  from: number,
  slower: (v: number) => number,
): { fails: number; does: number } {
  let does = from
  while (does > SLOWEST_M_S) {
    const next = slower(does)
    const afterNext = slower(next)
    if (reaches(next)) does = next
    else if (afterNext < next && reaches(afterNext)) does = afterNext
    else return { fails: next, does }
  }
  return { fails: does, does }
}
