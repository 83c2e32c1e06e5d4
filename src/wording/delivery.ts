import type {
  BestDelivery,
  Delivery,
  DeliveryState,
  Judgement,
  NotAsked,
  Touch,
} from '../engine/delivery'
import type { TouchPart } from '../engine/cast'
import { kicksBack } from '../engine/delivery'
import type { Leader } from '../engine/leader'
import type { CasterId } from '../engine/tackle'
import type { Say } from './say'
import { inHundred } from './say'

/** What is said of a delivery wherever a leader is judged: the answer, then what it rests on. */
export interface DeliveryWords {
  readonly title: string
  /** How good that is; none where nothing was thrown. */
  readonly mark: 'good' | 'fair' | 'poor' | 'none'
  /** How many casts, with what power and aim, how it lies, how it lands: in that order. */
  readonly sentences: readonly string[]
}

/** What each state is called. */
export const STATE_TITLES: Readonly<Record<DeliveryState, string>> = {
  easily: 'Goes over easily',
  'surely enough': 'Goes over surely enough',
  'only just': 'Only just goes over',
  'falls short': 'Falls short',
  'will not go over': 'Will not go over',
}

const MARKS: Readonly<Record<DeliveryState, DeliveryWords['mark']>> = {
  easily: 'good',
  'surely enough': 'good',
  'only just': 'fair',
  'falls short': 'poor',
  'will not go over': 'poor',
}

const UNASKED: Readonly<Record<NotAsked, readonly [title: string, sentence: string]>> = {
  'no-fly': ['Choose a fly', 'How a leader goes over depends on the fly.'],
  'no-line': ['Choose a fly line', 'How a leader goes over depends on the line that carries it.'],
  lobbed: [
    'Not judged: this is lobbed',
    'A tight-line rig is lobbed or swung, not cast in a loop.',
  ],
}

export function deliveryWords(judgement: Judgement, leader: Leader, say: Say): DeliveryWords {
  switch (judgement.kind) {
    case 'delivered':
      return wordsOf(judgement.delivery, leader, say)
    case 'not-asked': {
      const [title, sentence] = UNASKED[judgement.because]
      return { title, mark: 'none', sentences: [sentence] }
    }
    case 'checking':
      return { title: 'Checking', mark: 'none', sentences: ['Not flown yet: it is being thrown.'] }
    case 'not-flown':
      return { title: 'Not flown', mark: 'none', sentences: reasonSentences(judgement.reason) }
  }
}

/** A reason as it came, with the stop of a sentence. */
const reasonSentences = (reason: string): string[] =>
  reason === '' ? [] : [`The reason: ${reason.replace(/\.$/, '')}.`]

function wordsOf(delivery: Delivery, leader: Leader, say: Say): DeliveryWords {
  const { state, best } = delivery
  return {
    title: STATE_TITLES[state],
    mark: MARKS[state],
    sentences: [
      castsSentence(delivery, leader, say),
      adviceSentence(delivery, say),
      ...leastSentence(delivery, say),
      landingSentence(delivery, leader, say),
      ...(state === 'falls short' && kicksBack(best, delivery.greatest_m_s) ? [KICKS_BACK] : []),
      ...(isAlike(delivery, leader)
        ? ['So small and dense a fly goes over on nearly any leader.']
        : []),
      ...(best.edge === 'aim' ? ['The aim is as high or as low as was tried.'] : []),
    ],
  }
}

/** Recoil is the model's own: where it makes a difference, it is said how much. */
const DIFFERENCE = 0.03

function castsSentence({ best, wanted }: Delivery, { outfit }: Leader, say: Say): string {
  const { room, roomRecoilForgiven } = best
  const [who, lays] = outfit.ownCast
    ? ['You', 'lay']
    : [CASTERS[outfit.caster ?? 'ordinary'], 'lays']
  const casts = `${inHundred(room)} casts`
  const forgiven =
    roomRecoilForgiven - room >= DIFFERENCE
      ? `; ${Math.round(roomRecoilForgiven * 100)} come over, recoil left aside`
      : ''
  if (wanted.by === 'reach')
    return `${who} ${lays} ${casts} out straight with the fly ahead${forgiven}.`
  if (wanted.most < 1)
    return `${who} ${lays} ${casts} in the slack that is wanted, ${say.percent(1 - wanted.most)} to ${say.percent(1 - wanted.least)}${forgiven}.`
  return `${who} ${lays} out ${casts}${forgiven}.`
}

const CASTERS: Readonly<Record<CasterId, string>> = {
  learner: 'A learner',
  ordinary: 'An ordinary caster',
  strong: 'A strong caster',
}

/** What the ridge says of half of the casts, where the casts themselves do not say otherwise. */
function leastSentence({ best: { roomRecoilForgiven }, least }: Delivery, say: Say): string[] {
  const isHalf = roomRecoilForgiven >= 0.5
  if (least && isHalf)
    return [`Half of the casts come over from ${say.speed(least.lineSpeed_m_s)} on.`]
  return least || isHalf ? [] : ['At no power of this caster do half of the casts come over.']
}

/** A fuller cast, or an easier one, than this caster throws as a rule, beyond so much of it. */
const MUCH = 0.08

function adviceSentence({ best, usual_m_s, greatest_m_s }: Delivery, say: Say): string {
  const { lineSpeed_m_s } = best
  const speed = say.speed(lineSpeed_m_s)
  const power =
    lineSpeed_m_s < usual_m_s * (1 - MUCH)
      ? `ease off to ${speed}`
      : lineSpeed_m_s > usual_m_s * (1 + MUCH)
        ? `put more into it: ${speed}`
        : `throw it at ${speed} as usual`
  const share =
    best.edge === 'power'
      ? 'a full cast'
      : `${say.percent(lineSpeed_m_s / greatest_m_s)} of a full cast`
  return `Aim ${aimText(best, say)} and ${power}, ${share}.`
}

/** A height above the water where line and leader end, with the degrees beside it. */
function aimText(
  { aimHeight_m, launchAngle_deg }: Pick<BestDelivery, 'aimHeight_m' | 'launchAngle_deg'>,
  say: Say,
): string {
  const height = say.distance(Math.abs(aimHeight_m))
  const where = height.startsWith('0 ')
    ? 'at the water where the fly is to land'
    : aimHeight_m < 0
      ? 'at the water short of where the fly is to land'
      : `about ${height} above the water`
  return `${where} (${slopeText(launchAngle_deg)})`
}

export function slopeText(launchAngle_deg: number): string {
  const degrees = Math.round(launchAngle_deg)
  return degrees === 0 ? 'level' : `${Math.abs(degrees)}° ${degrees > 0 ? 'up' : 'down'}`
}

const TOUCHES: Readonly<Record<Touch, string>> = {
  soft: 'comes down softly',
  firm: 'comes down firmly',
  hard: 'comes down hard',
  plops: 'plops, whatever the leader',
}

function landingSentence({ best, wanted }: Delivery, leader: Leader, say: Say): string {
  const { lay, reachShare, touch, touchOrder } = best
  const lies =
    wanted.by === 'reach'
      ? `Line and leader reach ${say.percent(reachShare)} of their length`
      : wanted.most < 1
        ? slackText(best, leader, say)
        : `The leader lies ${layText(lay, say)}`
  return touch ? `${lies}; the fly ${touchText(touch)}${orderText(touchOrder)}.` : `${lies}.`
}

export const touchText = (touch: Touch): string => TOUCHES[touch]

/** When the fly comes down, beside the line's end and the middle of the leader. */
export const orderText = (order: readonly TouchPart[]): string => ORDERS[order.indexOf('fly')] ?? ''

const ORDERS = [', ahead of the leader', ', with the leader', ', after line and leader']

const SHAPES: readonly (readonly [least: number, shape: string])[] = [
  [0.95, 'straight'],
  [0.8, 'nearly straight'],
  [0.6, 'in soft curves'],
  [0.3, 'in loose coils'],
  [0, 'in a heap'],
]

/** How a leader lies by its lay: straight, in curves, in a heap, and how much of it is out. */
export function layText(lay: number, say: Say): string {
  // By the figure that is said: one figure has one shape.
  const said = Math.round(lay * 100) / 100
  const shape = SHAPES.find(([least]) => said >= least)?.[1]
  return shape === undefined
    ? 'in a heap behind its butt'
    : `${shape}, ${say.percent(Math.min(1, lay))} of its length out`
}

/** Slack at the aim that gives it, and in which part of the leader most of it lies. */
function slackText({ lay, pieceLays }: BestDelivery, { segments }: Leader, say: Say): string {
  if (lay < 0) return `The leader lies ${layText(lay, say)}`
  const inTippet = { tippet: 0, rest: 0 }
  for (const [i, { part, length }] of segments.entries())
    inTippet[part === 'tippet' ? 'tippet' : 'rest'] += (1 - (pieceLays[i] ?? 1)) * length.si
  const { tippet, rest } = inTippet
  const where =
    tippet > 2 * rest
      ? 'most of it in the tippet'
      : rest > 2 * tippet
        ? 'most of it above the tippet'
        : 'along tippet and taper'
  return `It gives ${say.percent(Math.max(0, 1 - lay))} of slack, ${where}`
}

export const KICKS_BACK =
  'It straightens in the air and kicks back: the tip is stout for so light a fly. How far back is the model’s, which nobody has measured.'

/** A fly that falls so fast is small for its weight: its drag does not decide how it goes over; estimate. */
const DENSE_FALL_M_S = 20

const isAlike = ({ state, fall_m_s }: Delivery, { segments }: Leader): boolean =>
  state === 'easily' &&
  fall_m_s !== null &&
  fall_m_s > DENSE_FALL_M_S &&
  segments.every(({ attachments }) => attachments.length === 0)

/** What a change brings: how the leader is then delivered. */
export function helpText({ delivery }: { readonly delivery: Delivery }, say: Say): string {
  const { state, best, least } = delivery
  const from = least ? `; half of them from ${say.speed(least.lineSpeed_m_s)} on` : ''
  return `${STATE_TITLES[state]}: ${inHundred(best.roomRecoilForgiven)} casts come over${from}.`
}

/** The answer and how many casts it rests on, in one line: where leaders stand beside each other. */
export function deliveryLine(judgement: Judgement, leader: Leader, say: Say): string {
  const { title, sentences } = deliveryWords(judgement, leader, say)
  return [`${title}.`, ...sentences.slice(0, 1)].join(' ')
}
