import { trimZeros } from './format'
import { FOOT_M } from './units'

/** Size of each unit of speed in m/s: NIST Special Publication 811, 2008, appendix B; a mile is 5280 feet. */
const SIZE_M_S = {
  'm/s': 1,
  'km/h': 1000 / 3600,
  'ft/s': FOOT_M,
  mph: (5280 * FOOT_M) / 3600,
} as const

export type SpeedUnit = keyof typeof SIZE_M_S
export const SPEED_UNITS = ['m/s', 'km/h', 'ft/s', 'mph'] as const satisfies readonly SpeedUnit[]

/** A tenth where ten are said, whole ones beyond: no cast is known better. */
const TENTHS_BELOW = 20

/** A speed (m/s) as a number of a unit. */
export const speedIn = (m_s: number, unit: SpeedUnit): number => m_s / SIZE_M_S[unit]
/** A number of a unit as a speed, m/s. */
export const speedOf = (value: number, unit: SpeedUnit): number => value * SIZE_M_S[unit]

/** A speed as it is said, such as "7.5 m/s" or "25 ft/s". */
export function formatSpeed(m_s: number, unit: SpeedUnit): string {
  const value = speedIn(m_s, unit)
  const text = trimZeros(value.toFixed(Math.abs(value) < TENTHS_BELOW ? 1 : 0))
  return `${text} ${unit}`
}
