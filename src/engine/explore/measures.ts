import type { FlightResult } from '../cast'
import { unrolledExtension } from '../cast'

/** What a class looks at in a cast; null where it never came to it. */
export interface Measures {
  /** Chord over leader length; 0 unless most of the leader has unrolled. */
  readonly extension: number
  readonly flySpeedAtTurn_m_s: number | null
  readonly touchSpeed_m_s: number | null
  /** 1 less chord over length when all is over. */
  readonly slackOnWater: number | null
}

export const MEASURE_IDS = [
  'extension',
  'flySpeedAtTurn_m_s',
  'touchSpeed_m_s',
  'slackOnWater',
] as const satisfies readonly (keyof Measures)[]
export type MeasureId = (typeof MEASURE_IDS)[number]

export function measuresOf(flight: FlightResult): Measures {
  const { flySpeedAtTurn_m_s, touchSpeed_m_s, slackOnWater } = flight
  return {
    extension: unrolledExtension(flight),
    flySpeedAtTurn_m_s,
    touchSpeed_m_s,
    slackOnWater,
  }
}
