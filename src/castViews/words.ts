import type { Shown } from './shown'
import { landingOf } from './scene'
import { presentationOf, unrolledExtension, verdictOf } from '../engine/cast'

/** A flight in one sentence, for those who do not watch it. */
export function flightSentence(flight: Shown): string {
  const { leader, input, flown } = flight
  const { timeOfTurn_s, flySpeedAtTurn_m_s, touchTime_s } = flown
  // As the verdict on the bench has it: a chord counts once most of the leader has unrolled.
  const extension = unrolledExtension(flown)
  const manner = presentationOf(input, flySpeedAtTurn_m_s)
  const landing = landingOf(flight)
  const landed = landing ? `, ${LANDINGS[landing]}` : ''
  const { slackOnWater } = flown
  const slack =
    slackOnWater === null ? '' : `, with ${Math.round(slackOnWater * 100)} % of slack at the end`
  const parts = [
    `At ${input.cast.lineSpeed_m_s.toFixed(1)} m/s “${leader.name}” ${shape(extension)}, to ${Math.round(extension * 100)} % of its length`,
    timeOfTurn_s === null
      ? 'the tip never comes round'
      : `the tip comes round after ${timeOfTurn_s.toFixed(2)} s at ${(flySpeedAtTurn_m_s ?? 0).toFixed(1)} m/s${manner && manner !== 'turned-over' ? ` (${manner})` : ''}`,
    touchTime_s === null
      ? 'the fly is still in the air at the end'
      : `the fly is on the water after ${touchTime_s.toFixed(2)} s${landed}${slack}`,
  ]
  return `${parts.join('; ')}.`
}

const LANDINGS = {
  'fly-first': 'ahead of the leader',
  'leader-first': 'after the leader',
  together: 'with the leader',
} as const

const SHAPES = {
  straight: 'straightens',
  lazy: 'turns over lazily',
  collapsed: 'collapses',
} as const

function shape(extension: number): string {
  return SHAPES[verdictOf(extension)]
}
