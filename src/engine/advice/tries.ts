/** What the rules lead to is thrown, and where too few casts come over, what practice allows beside it. */
import type { Candidate, Change, Target } from './adapt'
import type { LengthAdvice } from './length'
import type { Reason } from './reason'
import type { TippetAdvice } from './tippet'
import type { Judgement } from '../delivery'
import type { Leader } from '../leader'
import { DELIVERY_STATES, deliveryOf } from '../delivery'
import { adapt } from './adapt'
import { HALF_FOOT_M } from './length'
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
  const shorter_m = Math.ceil(low_m / HALF_FOOT_M) * HALF_FOOT_M
  const shorter = shorter_m < length_m * (1 - SHORTER) ? [shorter_m] : []
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

/** A try that was thrown: where it stands in the list, and how it did. */
interface Thrown {
  readonly at: number
  readonly made: Made
  readonly room: number
  readonly rank: number
}

/** Takes the first that comes over surely enough, else the one that does in most casts, the milder at a tie. */
export function chosenOf(tries: readonly Made[], judged: readonly Judgement[]): Choice {
  const thrown: Thrown[] = []
  for (const [at, made] of tries.entries()) {
    const judgement = judged[at] ?? { kind: 'checking' }
    if (judgement.kind === 'checking') return { ...AS_ADVISED, next: at, reason: undefined }
    const delivery = deliveryOf(judgement)
    if (!delivery && at === 0) break
    if (!delivery) continue
    const rank = DELIVERY_STATES.indexOf(delivery.state)
    thrown.push({ at, made, room: delivery.best.roomRecoilForgiven, rank })
    if (rank <= SURE) break
  }
  const [first] = thrown
  return first ? settled(first, bestOf(thrown), tries.length) : AS_ADVISED
}

/** What goes over before what does not. */
function bestOf(thrown: readonly Thrown[]): Thrown {
  const sure = thrown.find(({ rank }) => rank <= SURE)
  if (sure) return sure
  const over = thrown.filter(({ rank }) => rank <= JUST)
  const among = over.length > 0 ? over : thrown
  const most = Math.max(...among.map(({ room }) => room))
  return among.find(({ room }) => room >= most - TIE)!
}

const SOURCE =
  'casts of each leader flown by the model: rankings of leaders are safe, speeds within about 30 %, and a fly’s drag is known within a factor of two'
/** Where nothing can be thrown. */
const AS_ADVISED: Choice = {
  taken: 0,
  next: undefined,
  reason: reason('not-thrown', {}, SOURCE),
  isHopeless: false,
}

function settled(first: Thrown, best: Thrown, of: number): Choice {
  const isHopeless = best.rank > JUST
  const figures = {
    firstRoom: first.room,
    room: best.room,
    x: first.made.tippetX,
    toX: best.made.tippetX,
    length_m: first.made.length_m,
    to_m: best.made.length_m,
  }
  const asAdvised = best.rank <= SURE || of === 1 ? 'thrown-holds' : 'thrown-best'
  const goesOver = best.at === 0 ? asAdvised : 'thrown-changed'
  const code = isHopeless ? 'thrown-in-vain' : goesOver
  return { taken: best.at, next: undefined, reason: reason(code, figures, SOURCE), isHopeless }
}
