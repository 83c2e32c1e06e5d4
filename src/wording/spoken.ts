import type { Leader } from '../engine/leader'
import type { DiameterUnit, LengthUnit, Quantity, SpeedUnit, Unit } from '../engine/units'
import type { SpokenUnits } from './say'
import { isMetricUnit } from '../engine/units'

/** What the person chose to read in; `typed` keeps each figure as it was typed. */
export interface UnitChoice {
  readonly diameterUnit: DiameterUnit | 'typed'
  readonly lengthUnit: LengthUnit | 'typed'
  readonly forceUnit: 'lb' | 'kg'
  readonly speedUnit: SpeedUnit
}

/** Units for figures that nobody typed: the chosen ones, else those that the leader is mostly written in. */
export function spokenUnits(choice: UnitChoice, leader: Leader | undefined): SpokenUnits {
  const diameters = leader?.segments.map((s) => s.diameter) ?? []
  const lengths = leader?.segments.map((s) => s.length) ?? []
  return {
    diameter:
      choice.diameterUnit === 'typed'
        ? (mostUsed(diameters, 'in') as DiameterUnit)
        : choice.diameterUnit,
    length:
      choice.lengthUnit === 'typed' ? (mostUsed(lengths, 'in') as LengthUnit) : choice.lengthUnit,
    force: choice.forceUnit,
    speed: choice.speedUnit,
  }
}

export function isSameUnits(a: SpokenUnits, b: SpokenUnits): boolean {
  const names = ['diameter', 'length', 'force', 'speed'] as const
  return names.every((name) => a[name] === b[name])
}

function mostUsed(quantities: readonly Quantity[], fallback: Unit): Unit {
  const counts = new Map<Unit, number>()
  for (const { unit } of quantities) counts.set(unit, (counts.get(unit) ?? 0) + 1)
  return [...counts].sort((a, b) => b[1] - a[1])[0]?.[0] ?? fallback
}

/** A whole leader is read in feet and inches or in metres, whatever its pieces are written in. */
export function totalUnit(length: LengthUnit): LengthUnit {
  return isMetricUnit(length) ? 'm' : 'ft-in'
}
