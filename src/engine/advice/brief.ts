import type { Conditions, Leader, Outfit, Purpose } from '../leader'
import type { Fly } from '../tackle'
import { floats, flyFigures } from '../tackle'

/** What a leader is to be made for. */
export interface Brief {
  readonly fly: Fly
  readonly outfit: Outfit
  readonly conditions: Conditions
}

/** The brief that a leader carries; undefined where it has none or no fly. */
export function briefOf({ brief, tip, outfit }: Leader): Brief | undefined {
  return brief && tip.fly ? { fly: tip.fly.fly, outfit, conditions: brief } : undefined
}

const STREAMERS: readonly string[] = ['streamer', 'weighted-streamer', 'deer-hair', 'popper']

export const isStreamer = ({ style }: Fly): boolean => STREAMERS.includes(style)

/** Behind a line that sinks the leader is short: it keeps the fly down and lands on nobody's head. */
export function isBehindSinkingLine({ outfit }: Brief): boolean {
  return outfit.line !== undefined && outfit.line.buoyancy !== 'F'
}

/** The purpose, by whose limits the leader is then judged. */
export function purposeFor(brief: Brief): Purpose {
  const { fly, conditions } = brief
  const { water, wariness, toothy } = conditions
  if (isBehindSinkingLine(brief)) return 'sinking-line'
  if (toothy) return 'bite-tippet'
  if (water === 'salt-water') return 'salt-water'
  if (isStreamer(fly)) return 'streamer'
  if (water === 'still-water') return 'still-water'
  if (!floats(fly.style) && fly.style !== 'emerger') return 'nymph'
  return water === 'flat' && wariness === 'pressured' ? 'slack-line-dry' : 'general-dry'
}

export type FlyWeight = 'light' | 'ordinary' | 'heavy'

/** A fly against the collar-hackled dry of its hook, by which the rule was made: estimates. */
const HEAVY = 1.25
const LIGHT_DRAG = 0.75
const LIGHT_MASS = 1

export interface AgainstOrdinary {
  readonly kind: FlyWeight
  readonly massRatio: number
  readonly dragRatio: number
}

/** Whether a fly is light, ordinary, or heavy or bulky for its hook, by its mass and its drag in air. */
export function againstOrdinary(fly: Fly): AgainstOrdinary {
  const [own, usual] = [flyFigures(fly), flyFigures({ style: 'collar-hackle', hook: fly.hook })]
  const massRatio = own.mass.value / usual.mass.value
  const dragRatio = own.dragArea.value / usual.dragArea.value
  const isHeavy = Math.max(massRatio, dragRatio) >= HEAVY
  const isLight = dragRatio <= LIGHT_DRAG && massRatio <= LIGHT_MASS
  return { kind: isHeavy ? 'heavy' : isLight ? 'light' : 'ordinary', massRatio, dragRatio }
}

/** Whether the air holds a fly back: what is no streamer and has much more drag than a hackled dry of its hook. */
export const isBulky = (fly: Fly): boolean =>
  againstOrdinary(fly).dragRatio >= HEAVY && !isStreamer(fly)

/** How much the water, the fish and the distance ask for caution: -3 to 3; estimate. */
export function wariness({ water, wariness: fish, distance }: Conditions): number {
  const ofFish = { easy: -1, usual: 0, pressured: 1 }[fish]
  const ofWater =
    water === 'flat' || water === 'still-water' ? 1 : water === 'pocket-water' ? -1 : 0
  const ofDistance = { near: -1, usual: 0, far: 1 }[distance]
  return ofFish + ofWater + ofDistance
}
