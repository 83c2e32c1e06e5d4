import type { Measures } from './measures'
import { THROWN } from '../tackle'
import { MEASURE_IDS } from './measures'

/** What a lesson can claim about its leaders: what a cast shows, what they hold, and how hard they are to turn over. */
export const CLAIMED_IDS = [...MEASURE_IDS, 'strength_N', 'leastSpeed_m_s'] as const
export type ClaimedId = (typeof CLAIMED_IDS)[number]

export const DIRECTIONS = ['more', 'less', 'same'] as const

/** One leader (by its place, from 0) has more or less of something than another, by at least so much, or the same within it. */
export interface Claim {
  readonly measure: ClaimedId
  readonly of: number
  readonly against: number
  readonly direction: (typeof DIRECTIONS)[number]
  /** In the measure's own unit. */
  readonly by: number
}

/** What was found of one leader; null where it never came to it. */
export type Found = Measures & {
  readonly strength_N: number
  readonly leastSpeed_m_s: number | null
}

/** What stands for no line speed at all, m/s: as far as least speeds are searched. */
const HOPELESS_M_S = THROWN.lineSpeed_m_s.high

/** Whether what was found bears a claim out; undefined where a figure is missing. */
export function bearsOut(claim: Claim, found: readonly Partial<Found>[]): boolean | undefined {
  const [a, b] = [claim.of, claim.against].map((i) => valueOf(claim.measure, found[i]))
  if (a === undefined || b === undefined) return undefined
  if (claim.direction === 'same') return Math.abs(a - b) <= claim.by
  return claim.direction === 'more' ? a - b >= claim.by : b - a >= claim.by
}

function valueOf(id: ClaimedId, found: Partial<Found> | undefined): number | undefined {
  const value = found?.[id]
  return value === null && id === 'leastSpeed_m_s' ? HOPELESS_M_S : (value ?? undefined)
}
