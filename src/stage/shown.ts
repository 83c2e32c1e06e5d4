import type { CastCase } from '../engine/cast'
import type { Leader } from '../engine/leader'
import type { Flown } from '../worker/protocol'

/** A cast to be shown: of which leader, from what, and what came of it. */
export interface Shown {
  readonly leader: Leader
  readonly input: CastCase
  readonly flown: Flown
}

/** How the leaders that are shown together are told apart, in words and beside their curves. */
export const LETTERS = ['A', 'B', 'C', 'D'] as const
