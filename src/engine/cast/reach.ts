import type { Leader } from '../leader'
import type { CastChoices } from './fromLeader'
import { quantityOf, diameterOfX, xOfDiameter, FINEST_X } from '../units'
import { diameter_m, setDiameter, setSegment, tippetIndex } from '../leader'
import { SMALLEST_HOOK, LARGEST_HOOK } from '../tackle'
import { caseOf } from './fromLeader'
import type { Search } from './leastSpeed'
import { reachesTarget, sought } from './leastSpeed'
import { STRAIGHT_EXTENSION } from './simulated'

/** What still turns over with this line, caster and cast. null: not even the mildest does. */
export interface Reach {
  /** Finest tippet, as an X size (whole or half). */
  readonly finestTippetX: number | null
  readonly longestTippet_m: number | null
  /** Largest fly of the same style, by hook number (smaller number, larger hook). */
  readonly largestHook: number | null
}

/** Whether a leader turns its fly over at its own caster's speed. */
export function turnsOver(
  leader: Leader,
  choices: CastChoices,
  target = STRAIGHT_EXTENSION,
): boolean {
  const input = caseOf(leader, choices)
  return typeof input !== 'string' && reachesTarget(input, target)
}

type Passes = (leader: Leader) => boolean

/** The searches, one a limit. */
const SEARCHES: {
  readonly [K in keyof Reach]: (leader: Leader, ok: Passes) => Search<number | null>
} = {
  finestTippetX: finestTippet,
  longestTippet_m: longestTippet,
  largestHook,
}

export const REACHES = Object.keys(SEARCHES) as readonly (keyof Reach)[]

/** One limit, all else as it is; yields before each flight. */
export function reachSteps(
  limit: keyof Reach,
  leader: Leader,
  choices: CastChoices = {},
  target = STRAIGHT_EXTENSION,
): Search<number | null> {
  return SEARCHES[limit](leader, (candidate) => turnsOver(candidate, choices, target))
}

/** Each limit by a search of its own. */
export function reachOf(
  leader: Leader,
  choices: CastChoices = {},
  target = STRAIGHT_EXTENSION,
): Reach {
  const of = (limit: keyof Reach) => sought(reachSteps(limit, leader, choices, target))
  return {
    finestTippetX: of('finestTippetX'),
    longestTippet_m: of('longestTippet_m'),
    largestHook: of('largestHook'),
  }
}

/** The last of a list that passes, where passing stops once: by halving. */
function* lastPassing<T>(list: readonly T[], passes: (item: T) => boolean): Search<T | null> {
  let low = -1
  let high = list.length
  while (high - low > 1) {
    yield null
    const middle = (low + high) >> 1
    if (passes(list[middle] as T)) low = middle
    else high = middle
  }
  return list[low] ?? null
}

function* finestTippet(leader: Leader, ok: Passes): Search<number | null> {
  const at = tippetIndex(leader)
  const above = leader.segments[at - 1] ?? leader.segments[at]
  if (!above) return null
  const stoutest = Math.ceil(xOfDiameter(diameter_m(above)) * 2) / 2
  const sizes = Array.from({ length: 40 }, (_, i) => stoutest + i / 2).filter(
    (x) => x <= Math.floor(FINEST_X),
  )
  return yield* lastPassing(sizes, (x) =>
    ok(setDiameter(leader, at, quantityOf(diameterOfX(x), 'diameter', 'in'))),
  )
}

function* longestTippet(leader: Leader, ok: Passes): Search<number | null> {
  const at = tippetIndex(leader)
  if (at < 0) return null
  const lengths = Array.from({ length: 60 }, (_, i) => 0.1 + i * 0.05)
  return yield* lastPassing(lengths, (m) =>
    ok(setSegment(leader, at, { length: quantityOf(m, 'length', 'm') })),
  )
}

function* largestHook(leader: Leader, ok: Passes): Search<number | null> {
  const fly = leader.tip.fly?.fly
  if (!fly) return null
  const hooks = Array.from(
    { length: SMALLEST_HOOK - LARGEST_HOOK + 1 },
    (_, i) => SMALLEST_HOOK - i,
  )
  return yield* lastPassing(hooks, (hook) =>
    ok({ ...leader, tip: { ...leader.tip, fly: { fly: { style: fly.style, hook } } } }),
  )
}
