import type { CastCase, FlightResult } from '../engine/cast'
import type { Leader } from '../engine/leader'

/** A cast to be shown: of which leader, from what, and what came of it. */
export interface Shown {
  readonly leader: Leader
  readonly input: CastCase
  readonly flown: FlightResult
}

/** How the leaders that are shown together are told apart, in words and beside their curves. */
export const LETTERS = ['A', 'B', 'C', 'D'] as const
