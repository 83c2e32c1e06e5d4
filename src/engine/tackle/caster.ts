/** Who throws: line speed (m/s) and loop height (m), common practice; uncertain by a third. */
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

/** Line speeds (m/s) and loop heights (m) that anybody throws, and a little beyond: what is taken and searched; estimates. */
export const THROWN = {
  lineSpeed_m_s: { low: 3, high: 40 },
  loopHeight_m: { low: 0.2, high: 3 },
} as const
