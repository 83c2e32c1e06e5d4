import type { DiameterUnit, ForceUnit, LengthUnit } from '../engine/units'
import { THROWN } from '../engine/tackle'
import { formatSi, isMetricUnit, trimZeros } from '../engine/units'

/** The units in which figures are spoken. */
export interface SpokenUnits {
  readonly diameter: DiameterUnit
  readonly length: LengthUnit
  readonly force: ForceUnit
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
  readonly mass: (kg: number) => string
}

export function sayIn(units: SpokenUnits): Say {
  const stepUnit = isMetricUnit(units.diameter) ? 'mm' : 'in'
  return {
    diameter: (m) => formatSi(m, 'diameter', units.diameter),
    step: (m) => formatSi(Math.abs(m), 'diameter', stepUnit),
    length: (m) => formatSi(m, 'length', units.length),
    force: (N) => formatSi(N, 'force', units.force),
    percent: (share) => `${Math.round(share * 100)} %`,
    ratio: (value) => value.toFixed(2),
    speed: speedText,
    mass: (kg) => formatSi(kg, 'mass', units.force === 'kg' ? 'kg' : 'lb'),
  }
}

/** Beyond what any arm throws a figure is only a way of saying no. */
export const FASTEST_SAID = THROWN.lineSpeed_m_s.high

export function speedText(m_s: number): string {
  return m_s > FASTEST_SAID ? `more than ${FASTEST_SAID} m/s` : `${trimZeros(m_s.toFixed(1))} m/s`
}
