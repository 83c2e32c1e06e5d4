import type { ComputedRef } from 'vue'
import { computed } from 'vue'
import type { LimitOverrides } from '../engine/checks'
import type { Judgement } from '../engine/delivery'
import type { Leader } from '../engine/leader'
import type { Goal, Help, Tried } from '../engine/whatHelps'
import type { Question } from '../worker/spread'
import type { Answer, Urgency } from './casts'
import { deliveryOf, deliveryQuestion, judgementOf } from '../engine/delivery'
import { applyEdit } from '../engine/leader'
import { changesToTry, whatHelps } from '../engine/whatHelps'
import { reasonOf, useCasts, valueOf } from './casts'

type DeliveryQuestion = Question & { readonly kind: 'delivery' }

const known = new WeakMap<Leader, DeliveryQuestion | Judgement>()

/** What is asked of a leader, or why nothing is: worked out once, for all who ask. Two leaders that fly alike ask the same. */
function askedOf(leader: Leader): DeliveryQuestion | Judgement {
  const asked = known.get(leader) ?? questionOf(leader)
  known.set(leader, asked)
  return asked
}

function questionOf(leader: Leader): DeliveryQuestion | Judgement {
  const asked = deliveryQuestion(leader)
  return typeof asked === 'string'
    ? { kind: 'not-asked', because: asked }
    : { ...asked, kind: 'delivery' }
}

const isQuestion = (asked: DeliveryQuestion | Judgement): asked is DeliveryQuestion =>
  asked.kind === 'delivery'

/** What is known of any leader's delivery, whether or not somebody has it thrown. */
export function useJudged(): (leader: Leader) => Judgement {
  const casts = useCasts()
  return (leader) => {
    const asked = askedOf(leader)
    return isQuestion(asked) ? judged(casts.answerTo(asked)) : asked
  }
}

/** How each leader is delivered: thrown for as long as the calling scope stands, the first first. */
export function useDeliveries(
  leaders: () => readonly Leader[],
  urgency: Urgency,
): ComputedRef<readonly Judgement[]> {
  const casts = useCasts()
  const asked = computed(() => leaders().map(askedOf))
  casts.askAll(() => asked.value.filter(isQuestion), urgency)
  return computed(() =>
    asked.value.map((each) => (isQuestion(each) ? judged(casts.answerTo(each)) : each)),
  )
}

/** How one leader is delivered; undefined without one. */
export function useDelivery(
  leader: () => Leader | undefined,
  urgency: Urgency,
): ComputedRef<Judgement | undefined> {
  const all = useDeliveries(() => [leader()].filter((each) => each !== undefined), urgency)
  return computed(() => all.value[0])
}

function judged(answer: Answer<Parameters<typeof judgementOf>[0]>): Judgement {
  const reason = reasonOf(answer)
  return reason === undefined ? judgementOf(valueOf(answer)) : { kind: 'not-flown', reason }
}

/** What would help a leader: as far as its changes have been thrown, and how many of them. */
export interface Helping {
  /** Of the leader as it is; undefined without one. */
  readonly now: Judgement | undefined
  readonly helps: readonly Help[]
  readonly thrown: number
  readonly of: number
}

/** Throws every change of a leader that might help, of which only those wanted are told; nothing is asked without one. */
export function useWhatHelps(
  leader: () => Leader | undefined,
  own: () => LimitOverrides,
  goal: () => Goal,
  isWanted: (tried: Tried) => boolean = () => true,
): ComputedRef<Helping> {
  const now = useDelivery(leader, 'background')
  const changes = computed(() => {
    const plain = leader()
    if (!plain || !deliveryOf(now.value)) return []
    return changesToTry(plain, own()).map((remedy) => ({
      remedy,
      leader: applyEdit(plain, remedy.edit),
    }))
  })
  const judgements = useDeliveries(() => changes.value.map((each) => each.leader), 'background')
  return computed(() => {
    const [from, to] = [deliveryOf(now.value), judgements.value]
    const tried = changes.value.flatMap(({ remedy }, i): Tried[] => {
      const delivery = deliveryOf(to[i])
      return delivery ? [{ remedy, delivery }] : []
    })
    return {
      now: now.value,
      helps: from ? whatHelps(from, tried.filter(isWanted), goal()) : [],
      thrown: to.filter(({ kind }) => kind !== 'checking').length,
      of: to.length,
    }
  })
}
