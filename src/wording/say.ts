import type { DiameterUnit, ForceUnit, LengthUnit } from '../engine/units'
import { THROWN } from '../engine/tackle'
import { formatSi, trimZeros } from '../engine/units'

/** The units in which figures are spoken. */
export interface SpokenUnits {
  readonly diameter: DiameterUnit
  readonly length: LengthUnit
  readonly force: ForceUnit
}

/** Turns SI figures into words in the chosen units. */
export interface Say {
  readonly diameter: (m: unknown) => string
  readonly step: (m: unknown) => string
  readonly length: (m: unknown) => string
  readonly force: (N: unknown) => string
  readonly percent: (share: unknown) => string
  readonly ratio: (value: unknown) => string
  readonly speed: (m_s: unknown) => string
  readonly mass: (kg: unknown) => string
}

const number = (value: unknown): number => (typeof value === 'number' ? value : NaN)

export function sayIn(units: SpokenUnits): Say {
  const stepUnit = units.diameter === 'mm' || units.diameter === 'um' ? 'mm' : 'in'
  return {
    diameter: (m) => formatSi(number(m), 'diameter', units.diameter),
    step: (m) => formatSi(Math.abs(number(m)), 'diameter', stepUnit),
    length: (m) => formatSi(number(m), 'length', units.length),
    force: (N) => formatSi(number(N), 'force', units.force),
    percent: (share) => `${Math.round(number(share) * 100)} %`,
    ratio: (value) => number(value).toFixed(2),
    speed: (m_s) => speedText(number(m_s)),
    mass: (kg) => formatSi(number(kg), 'mass', units.force === 'kg' ? 'kg' : 'lb'),
  }
}

/** Beyond what any arm throws a figure is only a way of saying no. */
export const FASTEST_SAID = THROWN.lineSpeed_m_s.high

export function speedText(m_s: number): string {
  return m_s > FASTEST_SAID ? `more than ${FASTEST_SAID} m/s` : `${trimZeros(m_s.toFixed(1))} m/s`
}
