import type { ExplorerId, MeasureId } from '../engine/explore'
import type { SpokenUnits } from './say'
import { formatSi, SI_SIZE, SYMBOL, trimZeros, isMetricUnit, significant } from '../engine/units'

export const EXPLORER_NAMES: Readonly<Record<ExplorerId, string>> = {
  'butt-share': 'Share of butt',
  'tippet-length': 'Length of the tippet',
  'tippet-size': 'Size of the tippet',
  step: 'Size of one step',
  material: 'Stiff or supple material',
  'line-speed': 'Line speed',
  'loop-height': 'Loop height',
  wind: 'Wind',
  'fly-mass': 'Mass of the fly',
  'fly-drag': 'Drag area of the fly',
}

export const MEASURE_NAMES: Readonly<Record<MeasureId, string>> = {
  extension: 'Extension in the air, chord over length',
  flySpeedAtTurn_m_s: 'Speed of the fly as it comes round in the air, m/s',
  touchSpeed_m_s: 'Speed of the fly as it lands, m/s',
  slackOnWater: 'Slack on the water, share of length',
}

/** Beside what is read off the one cast of a class: no verdict of how a leader is delivered. */
export const IN_THE_AIR =
  'Judged in the air, not as it lies, by one cast that is the same for all. How each leader is delivered at its best stands under Side by side.'

/** An axis for a quantity: how it is named and by what its SI value is divided. */
export interface Axis {
  readonly unit: string
  readonly size: number
}

export function axisOf(id: ExplorerId, units: SpokenUnits): Axis {
  switch (id) {
    case 'butt-share':
      return { unit: '% of the length', size: 0.01 }
    case 'step':
      return { unit: '% of the diameter kept', size: 0.01 }
    case 'material':
      return { unit: 'times as stiff as tied', size: 1 }
    case 'tippet-length':
      return lengthAxis(units)
    case 'tippet-size': {
      const unit = isMetricUnit(units.diameter) ? 'mm' : 'thou'
      return {
        unit: unit === 'mm' ? 'mm' : 'thousandths of an inch',
        size: SI_SIZE.diameter[unit] ?? 1,
      }
    }
    case 'line-speed':
      return { unit: 'm/s', size: 1 }
    case 'wind':
      return { unit: 'm/s, head wind negative', size: 1 }
    case 'loop-height':
      return { unit: 'm', size: 1 }
    case 'fly-mass':
      return { unit: 'mg', size: 1e-6 }
    case 'fly-drag':
      return { unit: 'mm²', size: 1e-6 }
  }
}

function lengthAxis({ length }: SpokenUnits): Axis {
  const unit = length === 'ft-in' || length === 'ft' ? 'in' : length
  return { unit: SYMBOL[unit], size: SI_SIZE.length[unit] ?? 1 }
}

/** A value as it is spoken: `38 in`, `5X`, `62 %`. */
export function explorerFigure(id: ExplorerId, value: number, units: SpokenUnits): string {
  if (id === 'tippet-length') return formatSi(value, 'length', units.length)
  if (id === 'tippet-size') return formatSi(value, 'diameter', units.diameter)
  const { unit, size } = axisOf(id, units)
  const figure = trimZeros(significant(value / size, 3))
  return id === 'butt-share' ? `${figure} %` : `${figure} ${unit}`
}
