import type { DiameterUnit, ForceUnit, LengthUnit, SpeedUnit } from '../engine/units'
import { FOOT_M, formatSi, formatSpeed, isMetricUnit } from '../engine/units'

/** The units in which figures are spoken. */
export interface SpokenUnits {
  readonly diameter: DiameterUnit
  readonly length: LengthUnit
  readonly force: ForceUnit
  readonly speed: SpeedUnit
}

/** Turns SI figures into words in the chosen units. */
export interface Say {
  readonly diameter: (m: number) => string
  readonly step: (m: number) => string
  readonly length: (m: number) => string
  readonly force: (N: number) => string
  readonly percent: (share: number) => string
  readonly ratio: (value: number) => string
  readonly speed: (m_s: number) => string
  /** A distance over the water, as far as it is judged by eye. */
  readonly distance: (m: number) => string
  readonly mass: (kg: number) => string
}

/** A share of casts: "45 of 100". */
export const inHundred = (share: number): string => `${Math.round(share * 100)} of 100`

export function sayIn(units: SpokenUnits): Say {
  const stepUnit = isMetricUnit(units.diameter) ? 'mm' : 'in'
  return {
    diameter: (m) => formatSi(m, 'diameter', units.diameter),
    step: (m) => formatSi(Math.abs(m), 'diameter', stepUnit),
    length: (m) => formatSi(m, 'length', units.length),
    force: (N) => formatSi(N, 'force', units.force),
    percent: (share) => `${Math.round(share * 100)} %`,
    ratio: (value) => value.toFixed(2),
    speed: (m_s) => formatSpeed(m_s, units.speed),
    distance: (m) =>
      isMetricUnit(units.length)
        ? `${(Math.round(m * 2) / 2).toString()} m`
        : `${Math.round(m / FOOT_M)} ft`,
    mass: (kg) => formatSi(kg, 'mass', units.force === 'kg' ? 'kg' : 'lb'),
  }
}
