import type { Spread } from '../materials/sourced'

/** Who throws: line speed (m/s) and loop height (m), common practice. */
export interface Caster {
  readonly lineSpeed_m_s: number
  readonly loopHeight_m: number
}

export const CASTERS = {
  learner: { lineSpeed_m_s: 8, loopHeight_m: 1.5 },
  ordinary: { lineSpeed_m_s: 12, loopHeight_m: 0.8 },
  strong: { lineSpeed_m_s: 18, loopHeight_m: 0.4 },
} as const satisfies Readonly<Record<string, Caster>>

export type CasterId = keyof typeof CASTERS
export const CASTER_IDS = Object.keys(CASTERS) as CasterId[]

/** The fastest that each can throw and still aim, m/s; estimates. */
export const GREATEST_SPEED_M_S = {
  learner: 12,
  ordinary: 16,
  strong: 22,
} as const satisfies Readonly<Record<CasterId, number>>

/** How much faster than the usual speed somebody can throw of whom that alone is known; estimate, as an ordinary caster. */
export const GREATEST_OVER_USUAL = 4 / 3

/** How one caster's casts differ (sd): the speed's logarithm, and the aim in degrees; estimates. */
export const SPREAD_OF_CASTS = {
  learner: { lineSpeed: estimate(0.12), launchAngle_deg: estimate(3.5) },
  ordinary: { lineSpeed: estimate(0.09), launchAngle_deg: estimate(2.5) },
  strong: { lineSpeed: estimate(0.07), launchAngle_deg: estimate(2) },
} as const satisfies Readonly<Record<CasterId, Readonly<Record<string, Spread>>>>

/** How well a caster's usual speed is known: the preset by a third (estimate), a filmed loop to 7 %. */
export const USUAL_SPEED = {
  preset: estimate(0.33),
  filmed: { sd: 0.07, from: 'measured' },
} as const satisfies Readonly<Record<string, Spread>>

function estimate(sd: number): Spread {
  return { sd, from: 'estimate' }
}

/** Line speeds (m/s) and loop heights (m) that anybody throws, and a little beyond: what is taken and searched; estimates. */
export const THROWN = {
  lineSpeed_m_s: { low: 3, high: 40 },
  loopHeight_m: { low: 0.2, high: 3 },
} as const
