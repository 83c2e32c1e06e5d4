import type { CastCase, FlightResult } from '../engine/cast'
import type { Leader } from '../engine/leader'

/** A cast to be shown: of which leader, from what, and what came of it. */
export interface Shown {
  readonly leader: Leader
  readonly input: CastCase
  readonly flown: FlightResult
}

/** How the leaders that are shown together are told apart: by letter, by ink and by the dash of their strand. */
export const LETTERS = ['A', 'B', 'C', 'D'] as const
export const INKS = ['--ink', '--water', '--third', '--fourth'] as const
export const DASHES = ['', '8 4', '2 3', '10 3 2 3'] as const
