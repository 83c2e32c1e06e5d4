/** What the rules lead to is thrown, and where too few casts come over, what practice allows beside it. */
import type { Candidate, Change, Target } from './adapt'
import type { LengthAdvice } from './length'
import type { Reason } from './reason'
import type { TippetAdvice } from './tippet'
import type { DeliveryState, Judgement } from '../delivery'
import type { Leader } from '../leader'
import { limitFor, limitsFor, runChecks } from '../checks'
import { deliveryOf, goesOver, ROOM_TIE } from '../delivery'
import { rulingPurpose } from '../leader'
import { piecesOf } from '../pieces'
import { INCH_M } from '../units'
import { adapt } from './adapt'
import { judgeAgainstBrief } from './judge'
import { HALF_FOOT_M } from './length'
import { reason } from './reason'

/** What of a target a try may have otherwise. */
type Wanted = Pick<Target, 'tippetX' | 'length_m' | 'tippet_m'>

/** A leader that might do, how it was come by, and what of the rules it departs from. */
export interface Made extends Wanted {
  readonly from: Candidate
  readonly leader: Leader
  readonly changes: readonly Change[]
}

/**
 * From the leader by the rules to what departs most from them within practice, as a caster would go about it: the
 * tippet shortened, then stouter, then the leader shorter, then all of it.
 */
export function triesFor(
  from: Candidate,
  target: Target,
  { interval }: TippetAdvice,
  { low_m }: LengthAdvice,
): Made[] {
  const { tippetX, length_m, tippet_m } = target
  const short = { tippet_m: shortTippet_m(target) }
  const stouter = stouterSizes(tippetX, interval.stoutX).map((x) => ({ tippetX: x }))
  const shorter = shorterLengths(length_m, low_m).map((m) => ({ length_m: m }))
  const wanted: Partial<Wanted>[] = [
    {},
    ...(short.tippet_m < tippet_m ? [short] : []),
    ...stouter.map((x) => ({ ...short, ...x })),
    ...shorter.flatMap((m) => [{}, ...stouter.slice(-1)].map((x) => ({ ...short, ...x, ...m }))),
  ]
  const [byRule, ...others] = wanted.map((each) => madeOf(from, { ...target, ...each }))
  if (!byRule) return []
  const known = troublesOf(byRule.leader)
  const isNoWorse = ({ leader }: Made) => troublesOf(leader).every((each) => known.includes(each))
  return [byRule, ...others.filter(isNoWorse)]
}

/** What the bench would say against a leader before it is thrown, as it stands and by its brief. */
function troublesOf(leader: Leader): string[] {
  const purpose = rulingPurpose(leader)
  const limits = limitsFor(purpose)
  const { findings } = runChecks({ leader: { ...leader, purpose }, ...piecesOf(leader), limits })
  return [
    ...findings.flatMap(({ id, severity }) => (severity === 'note' ? [] : [`${severity} ${id}`])),
    ...(judgeAgainstBrief(leader) ?? []).flatMap(({ what, ok }) => (ok ? [] : [what])),
  ]
}

export function madeOf(from: Candidate, target: Target): Made {
  const { tippetX, length_m, tippet_m } = target
  return { from, ...adapt(from.leader, target), tippetX, length_m, tippet_m }
}

/** A tippet that does not turn over is cut back by a third (common practice; by how much: estimate). */
const CUT_BACK = 2 / 3

/** To a whole inch, and no shorter than the purpose has them. */
function shortTippet_m({ tippet_m, purpose }: Target): number {
  const shortest = limitFor('tippetShortest', purpose) ?? 0
  return Math.max(shortest, Math.ceil((tippet_m * CUT_BACK) / INCH_M) * INCH_M)
}

/** A leader shorter by less is no other leader; estimate. */
const SHORTER = 0.04

/** The shortest that would do, of those that are spoken of; none where it is hardly shorter. */
function shorterLengths(length_m: number, low_m: number): number[] {
  const shorter = Math.ceil(low_m / HALF_FOOT_M) * HALF_FOOT_M
  return shorter < length_m * (1 - SHORTER) ? [shorter] : []
}

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
  /** So many of the first are thrown, or are to be. */
  readonly looked: number
  /** Why; undefined while it is being thrown, or cannot be. */
  readonly reason: Reason | undefined
  /** Nothing that practice allows comes over often enough. */
  readonly isHopeless: boolean
}

const isSure = (state: DeliveryState) => state === 'easily' || state === 'surely enough'

/** A try that was thrown: where it stands in the list, and how it did. */
interface Thrown {
  readonly at: number
  readonly made: Made
  readonly room: number
  readonly state: DeliveryState
}

/** Takes the first that comes over surely enough, else the one that does in most casts, the milder at a tie. */
export function chosenOf(tries: readonly Made[], judged: readonly Judgement[]): Choice {
  const thrown: Thrown[] = []
  let looked = 0
  for (const [at, made] of tries.entries()) {
    const judgement = judged[at] ?? { kind: 'checking' }
    looked = at + 1
    if (judgement.kind === 'checking') return { ...AS_ADVISED, next: at, looked, reason: undefined }
    const delivery = deliveryOf(judgement)
    if (!delivery && at === 0) break
    if (!delivery) continue
    const { state, best } = delivery
    thrown.push({ at, made, room: best.roomRecoilForgiven, state })
    if (isSure(state)) break
  }
  const [first] = thrown
  if (!first) return { ...AS_ADVISED, looked }
  const best = bestOf(thrown)
  // Of tries that could not be flown nothing is known, so nothing is said of all of them.
  if (!isSure(best.state) && thrown.length < looked)
    return { ...AS_ADVISED, taken: best.at, looked, reason: undefined }
  return { ...settled(first, best, tries.length), looked }
}

/** What goes over before what does not. */
function bestOf(thrown: readonly Thrown[]): Thrown {
  const sure = thrown.find(({ state }) => isSure(state))
  if (sure) return sure
  const over = thrown.filter(({ state }) => goesOver(state))
  const among = over.length > 0 ? over : thrown
  const most = Math.max(...among.map(({ room }) => room))
  return among.find(({ room }) => room >= most - ROOM_TIE)!
}

const SOURCE =
  'casts of each leader flown by the model: rankings of leaders are safe, speeds within about 30 %, and a fly’s drag is known within a factor of two'
/** Where nothing can be thrown. */
const AS_ADVISED: Choice = {
  taken: 0,
  next: undefined,
  looked: 0,
  reason: reason('not-thrown', {}, SOURCE),
  isHopeless: false,
}

function settled(first: Thrown, best: Thrown, of: number): Omit<Choice, 'looked'> {
  const isHopeless = !goesOver(best.state)
  const figures = {
    firstRoom: first.room,
    room: best.room,
    x: first.made.tippetX,
    toX: best.made.tippetX,
    length_m: first.made.length_m,
    toLength_m: best.made.length_m,
    tippet_m: first.made.tippet_m,
    toTippet_m: best.made.tippet_m,
  }
  const asAdvised = isSure(best.state) || of === 1 ? 'thrown-holds' : 'thrown-best'
  const over = best.at === 0 ? asAdvised : 'thrown-changed'
  const code = isHopeless ? 'thrown-in-vain' : over
  return { taken: best.at, next: undefined, reason: reason(code, figures, SOURCE), isHopeless }
}
