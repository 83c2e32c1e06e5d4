import type { Throw } from './delivery'
import type { DeliveryCase } from './room'
import { castSteps } from './delivery'
import type { Landing } from './wanted'

/** Lay and touch over speed and aim: a row is an aim, a column a speed. null where nothing comes down. */
export interface DeliveryMap {
  readonly lineSpeeds_m_s: readonly number[]
  readonly launchAngles_deg: readonly number[]
  readonly lay: readonly (readonly (number | null)[])[]
  readonly straight: readonly (readonly number[])[]
  readonly touchSpeedRatio: readonly (readonly (number | null)[])[]
}

const SPEEDS = 12
const SLOWEST_M_S = 4
export const MAP_AIMS_DEG = [-8, -6, -4, -2, 0, 2, 4, 6, 8, 10, 12] as const

/** Speeds of a map, m/s: by equal factors up to the greatest. */
function mapSpeeds({ greatest_m_s }: Pick<DeliveryCase, 'greatest_m_s'>): number[] {
  const slowest = Math.min(SLOWEST_M_S, greatest_m_s / 2)
  const factor = (greatest_m_s / slowest) ** (1 / (SPEEDS - 1))
  return Array.from({ length: SPEEDS }, (_, i) => slowest * factor ** i)
}

/** The casts of one aim. */
export function mapRow(asked: DeliveryCase, launchAngle_deg: number): Throw[] {
  return mapSpeeds(asked).map((lineSpeed_m_s) => ({
    cast: { ...asked.input.cast, lineSpeed_m_s, launchAngle_deg },
    mesh: 'coarse',
  }))
}

/** The whole map, one cast after another; yields before each. */
export function* mapSteps(asked: DeliveryCase): Generator<null, DeliveryMap> {
  const rows: Landing[][] = []
  for (const aim of MAP_AIMS_DEG) rows.push(yield* castSteps(asked.input, mapRow(asked, aim)))
  return mapOf(asked, rows)
}

/** A map of its rows, as many as there are, in the order of the aims. */
export function mapOf(asked: DeliveryCase, rows: readonly (readonly Landing[])[]): DeliveryMap {
  return {
    lineSpeeds_m_s: mapSpeeds(asked),
    launchAngles_deg: MAP_AIMS_DEG.slice(0, rows.length),
    lay: rows.map((row) => row.map(({ lay }) => lay)),
    straight: rows.map((row) => row.map(({ straight }) => straight)),
    touchSpeedRatio: rows.map((row) => row.map(({ touchSpeedRatio }) => touchSpeedRatio)),
  }
}
