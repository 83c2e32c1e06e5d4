/** What the rules lead to is thrown, and where too few casts come over, what practice allows beside it. */
import type { Candidate, Change, Target } from './adapt'
import type { LengthAdvice } from './length'
import type { Reason } from './reason'
import type { TippetAdvice } from './tippet'
import type { Judgement } from '../delivery'
import type { Leader } from '../leader'
import { DELIVERY_STATES, deliveryOf } from '../delivery'
import { adapt } from './adapt'
import { reason } from './reason'

/** A leader that might do, how it was come by, and what of the rules it departs from. */
export interface Made {
  readonly from: Candidate
  readonly leader: Leader
  readonly changes: readonly Change[]
  readonly tippetX: number
  readonly length_m: number
}

/** From the leader by the rules to what departs most from them within practice: stouter, shorter, both. */
export function triesFor(
  from: Candidate,
  target: Target,
  { interval }: TippetAdvice,
  { low_m }: LengthAdvice,
): Made[] {
  const { tippetX, length_m } = target
  const stouter = stouterSizes(tippetX, interval.stoutX)
  const shorter = low_m < length_m * (1 - SHORTER) ? [low_m] : []
  const wanted: readonly (readonly [x: number, length_m: number])[] = [
    [tippetX, length_m],
    ...stouter.map((x) => [x, length_m] as const),
    ...shorter.flatMap((m) => [tippetX, ...stouter].map((x) => [x, m] as const)),
  ]
  return wanted.map(([x, m]) => madeOf(from, { ...target, tippetX: x, length_m: m }))
}

export function madeOf(from: Candidate, target: Target): Made {
  const { tippetX, length_m } = target
  return { from, ...adapt(from.leader, target), tippetX, length_m }
}

/** A leader shorter by less is no other leader; estimate. */
const SHORTER = 0.04
const MOST_SIZES = 2

/** Whole sizes down to what practice allows, two at most. */
function stouterSizes(x: number, stoutest: number): number[] {
  const count = Math.min(MOST_SIZES, Math.max(0, Math.floor(x - stoutest)))
  return Array.from({ length: count }, (_, i) => x - i - 1)
}

/** Which of the tries is taken; until that is known, which is to be thrown next. */
export interface Choice {
  readonly taken: number
  /** undefined once the choice stands. */
  readonly next: number | undefined
  /** Why; undefined while it is being thrown, or cannot be. */
  readonly reason: Reason | undefined
  /** Nothing that practice allows comes over often enough. */
  readonly isHopeless: boolean
}

const SURE = DELIVERY_STATES.indexOf('surely enough')
const JUST = DELIVERY_STATES.indexOf('only just')
/** Rooms closer than this are one. */
const TIE = 0.05

/** Takes the first that comes over surely enough, else the one that does in most casts, the milder at a tie. */
export function chosenOf(tries: readonly Made[], judged: readonly Judgement[]): Choice {
  const rooms: number[] = []
  const ranks: number[] = []
  for (const [i] of tries.entries()) {
    const judgement = judged[i] ?? { kind: 'checking' }
    if (judgement.kind === 'checking')
      return { taken: 0, next: i, reason: undefined, isHopeless: false }
    const delivery = deliveryOf(judgement)
    if (!delivery) return { taken: 0, next: undefined, reason: UNTHROWN, isHopeless: false }
    rooms.push(delivery.best.roomRecoilForgiven)
    ranks.push(DELIVERY_STATES.indexOf(delivery.state))
    if (ranks[i]! <= SURE) return settled(tries, rooms, i, false)
  }
  const most = rooms.findIndex((room) => room >= Math.max(...rooms) - TIE)
  return settled(tries, rooms, most, (ranks[most] ?? 0) > JUST)
}

const SOURCE =
  'casts of each leader flown by the model: rankings of leaders are safe, speeds within about 30 %, and a fly’s drag is known within a factor of two'
const UNTHROWN = reason('not-thrown', {}, SOURCE)

function settled(
  tries: readonly Made[],
  rooms: readonly number[],
  taken: number,
  isHopeless: boolean,
): Choice {
  const [first, then] = [tries[0], tries[taken]]
  const [firstRoom, room] = [rooms[0] ?? 0, rooms[taken] ?? 0]
  if (!first || !then) return { taken, next: undefined, reason: UNTHROWN, isHopeless }
  const figures = {
    firstRoom,
    room,
    x: first.tippetX,
    toX: then.tippetX,
    length_m: first.length_m,
    to_m: then.length_m,
  }
  const code = isHopeless ? 'thrown-in-vain' : taken === 0 ? 'thrown-holds' : 'thrown-changed'
  return { taken, next: undefined, reason: reason(code, figures, SOURCE), isHopeless }
}
