import type { Shown } from './shown'
import type { Say } from '../wording'
import { unrolledExtension, verdictOf } from '../engine/cast'
import { fallOf, touchOf } from '../engine/delivery'
import { layText, orderText, slopeText, touchText } from '../wording'

/** A flight in one sentence, for those who do not watch it: this one cast, in the air and as it lies. */
export function flightSentence({ leader, input, flown }: Shown, say: Say): string {
  const { timeOfTurn_s, touchTime_s, lay, touchOrder } = flown
  // A chord counts once most of the leader has unrolled.
  const extension = unrolledExtension(flown)
  const touch = touchOf(fallOf(input), flown.touchSpeedRatio)
  const { lineSpeed_m_s, launchAngle_deg } = input.cast
  const parts = [
    `At ${say.speed(lineSpeed_m_s)} (${slopeText(launchAngle_deg)}) “${leader.name}” ${SHAPES[verdictOf(extension)]} in the air, to ${say.percent(extension)} of its length`,
    timeOfTurn_s === null
      ? 'the tip never comes round'
      : `the tip comes round after ${timeOfTurn_s.toFixed(2)} s`,
    touchTime_s === null
      ? 'the fly is still in the air at the end'
      : `the fly${touch ? ` ${touchText(touch)}` : ' is on the water'} after ${touchTime_s.toFixed(2)} s${orderText(touchOrder ?? [])}`,
    ...(lay === null ? [] : [`the leader lies ${layText(lay, say)}`]),
  ]
  return `${parts.join('; ')}.`
}

const SHAPES = {
  straight: 'straightens',
  lazy: 'turns over lazily',
  collapsed: 'collapses',
} as const
