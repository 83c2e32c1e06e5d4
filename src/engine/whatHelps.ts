/** What would help a leader over, tried by throwing each change. Pure. */
import type { Finding, LimitOverrides, Remedy } from './checks'
import type { Delivery } from './delivery'
import type { Leader, Segment } from './leader'
import { DELIVERY_STATES, ROOM_TIE } from './delivery'
import { evaluate } from './evaluate'
import { applyEdit, diameter_m, tippetIndex, totalLength_m } from './leader'
import { SMALLEST_HOOK } from './tackle'
import { diameterOfX, quantityOf, THOU_M, xOfDiameter } from './units'

/** What a change is to bring: more of the caster's casts, or the same at less power. */
export type Goal = 'more-casts' | 'less-power'

/** A change with what it brings. */
export interface Help {
  readonly remedy: Remedy
  readonly delivery: Delivery
  /** Share of casts more, recoil forgiven, or ln of how much less speed; more than a tie. */
  readonly gain: number
}

/** A change that was thrown. */
export interface Tried {
  readonly remedy: Remedy
  readonly delivery: Delivery
}

/** Less than this is no difference, in room and in ln of the least speed. */
export const TIE = ROOM_TIE

/**
 * The changes to throw: those of the leader, then of the fly, of each kind from mild to drastic. None makes a finding
 * that the leader has not got.
 */
export function changesToTry(leader: Leader, own?: LimitOverrides): Remedy[] {
  const found = evaluate(leader, own).checks.findings
  return [...ofTippet(leader), ...ofTaper(leader), ...ofFly(leader)].filter(({ edit }) =>
    evaluate(applyEdit(leader, edit), own).checks.findings.every((each) => isOld(each, found)),
  )
}

/** A total that no longer is the stated one is none: any change of length departs from it. */
function isOld({ id, severity }: Finding, found: readonly Finding[]): boolean {
  return id === 'stated-total' || found.some((f) => f.id === id && f.severity === severity)
}

function ofTippet(leader: Leader): Remedy[] {
  const at = tippetIndex(leader)
  const tippet = leader.segments[at]
  if (!tippet) return []
  const x = Math.round(xOfDiameter(diameter_m(tippet)))
  return [
    ...[0.8, 0.6].map((share) => lengthOf(tippet, at, share, 'shorten')),
    lengthOf(tippet, at, 1.3, 'lengthen'),
    ...(at > 0 ? [0.2, 0.4].map((share) => movedUp(tippet, at, share)) : []),
    ...[1, 2].map((sizes) => stouter(tippet, x - sizes)),
  ]
}

function stouter({ diameter }: Segment, x: number): Remedy {
  const tippet = quantityOf(diameterOfX(x), 'diameter', diameter.unit)
  return { id: 'restep', edit: { kind: 'restep', tippet } }
}

function lengthOf(
  { length }: Segment,
  at: number,
  share: number,
  id: 'shorten' | 'lengthen',
): Remedy {
  const changed = quantityOf(length.si * share, 'length', length.unit)
  return { id, edit: { kind: 'length', at, length: changed } }
}

/** Length from the tippet to the piece above it, the total kept. */
function movedUp({ length }: Segment, at: number, share: number): Remedy {
  const edit = { kind: 'move-length', from: at, to: at - 1, amount_m: length.si * share } as const
  return { id: 'move-length', edit }
}

function ofTaper(leader: Leader): Remedy[] {
  const total_m = totalLength_m(leader)
  return [
    ...leader.segments.slice(0, 1).flatMap((butt) => [2, 4].map((thou) => stouterButt(butt, thou))),
    ...[0.9, 0.8].map((share): Remedy => ({
      id: 'scale',
      edit: { kind: 'scale', total_m: total_m * share },
    })),
  ]
}

function stouterButt(butt: Segment, thou: number): Remedy {
  const stouter = diameter_m(butt) + thou * THOU_M
  const size = quantityOf(stouter, 'diameter', butt.diameter.unit)
  return { id: 'fit-butt', edit: { kind: 'butt', butt: size } }
}

function ofFly({ tip }: Leader): Remedy[] {
  const hook = tip.fly?.fly.hook ?? SMALLEST_HOOK
  return [2, 4]
    .map((sizes) => hook + sizes)
    .filter((smaller) => smaller <= SMALLEST_HOOK)
    .map((smaller) => ({ id: 'smaller-fly', edit: { kind: 'hook', hook: smaller } }))
}

/**
 * What gains more than a tie, in the order of what it gains, changes of the leader before those of the fly. Of each
 * kind the mildest that is within a tie of the best.
 */
export function whatHelps(now: Delivery, tried: readonly Tried[], goal: Goal): Help[] {
  const helps = tried
    .map((each) => ({ ...each, gain: gainOf(now, each.delivery, goal) }))
    .filter(({ gain }) => gain > TIE)
  const kinds = [...new Set(helps.map(({ remedy }) => remedy.id))]
  return kinds
    .map((kind) => mildest(helps.filter(({ remedy }) => remedy.id === kind)))
    .sort((a, b) => Number(isOfFly(a)) - Number(isOfFly(b)) || b.gain - a.gain)
}

const isOfFly = ({ remedy }: Help) => remedy.id === 'smaller-fly'

function mildest(ofKind: readonly Help[]): Help {
  const most = Math.max(...ofKind.map(({ gain }) => gain))
  return ofKind.find(({ gain }) => gain >= most - TIE)!
}

function gainOf(now: Delivery, then: Delivery, goal: Goal): number {
  if (goal === 'more-casts') return then.best.roomRecoilForgiven - now.best.roomRecoilForgiven
  // Less power that fewer casts come over with is none.
  if (rankOf(then) > rankOf(now)) return 0
  if (!then.least) return 0
  const before_m_s = now.least?.lineSpeed_m_s ?? now.greatest_m_s
  return Math.log(before_m_s / then.least.lineSpeed_m_s)
}

const rankOf = ({ state }: Delivery) => DELIVERY_STATES.indexOf(state)
