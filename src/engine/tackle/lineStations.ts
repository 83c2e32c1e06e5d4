import type { Sourced } from '../materials/sourced'
import type { FlyLine } from './line'
import { sourced } from '../materials/sourced'
import { lineFigures, linePieces } from './line'
import { shapeOf } from './lineShape'

export const STATIONS = ['tip', 'front-taper', 'belly', 'back'] as const
export type Station = (typeof STATIONS)[number]

/** What a line is at one place: its tip, the middle of its front taper, its belly, behind its rear taper. */
export interface LineStation {
  readonly station: Station
  readonly diameter_m: number
  readonly linearDensity_kg_m: number
  /** Bending stiffness, N m2; the tip's scaled with the fourth power of diameter. */
  readonly stiffness: Sourced
}

/** Figures along a line from its stated geometry, or from what the user measured in its place. */
export function lineStations(line: FlyLine): LineStation[] {
  const { tipDiameter_m, tipStiffness } = lineFigures(line)
  const { levelTip_m, frontTaper_m, belly_m, rearTaper_m, total_m } = shapeOf(line)
  const behind = levelTip_m + frontTaper_m
  const places = {
    tip: 0,
    'front-taper': levelTip_m + frontTaper_m / 2,
    belly: behind + belly_m / 2,
    back: Math.min(total_m - 0.01, behind + belly_m + rearTaper_m + 1),
  }
  return STATIONS.map((station) => {
    const { diameter_m, linearDensity_kg_m } = at(line, places[station])
    const d = station === 'tip' ? tipDiameter_m : diameter_m
    const fourth = (d / tipDiameter_m) ** 4
    const { value, low, high, source } = tipStiffness
    return {
      station,
      diameter_m: d,
      linearDensity_kg_m,
      stiffness: sourced(value * fourth, low * fourth, high * fourth, source),
    }
  })
}

function at(line: FlyLine, place_m: number) {
  const pieces = linePieces(line, place_m + 0.02)
  return pieces.at(-1) ?? { diameter_m: 0, linearDensity_kg_m: 0 }
}
