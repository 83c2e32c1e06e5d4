import type { Sourced } from '../materials/sourced'
import type { FlyLine } from './line'
import { sourced } from '../materials/sourced'
import { INCH_M, STANDARD_GRAVITY_M_S2 } from '../units'
import { chengCylinderDrag } from './cylinderDrag'
import { FRESH_WATER, reynoldsInWater } from './water'

const FLOATING = sourced(850, 750, 950, 'estimate: a floating line floats with a third above water')

/** Inches a second, slowest and fastest of each class; makers differ (common practice; VI from memory). */
const SINK_IN_S: readonly (readonly [low: number, high: number])[] = [
  [0.75, 1.25],
  [1.25, 1.75],
  [1.5, 2.5],
  [2.5, 4.5],
  [3.75, 5.5],
  [6, 8],
  [6, 7],
]
const USUAL_SINK_CLASS = 3 // where a designation says S and no class, estimate
const RATES =
  'sink classes are no standard: inches a second as the trade gives them (common practice)'

/** Sink rate (m/s) of what sinks of a line, by its class; null for a floating one. */
export function lineSinkRate({ buoyancy, sinkClass }: FlyLine): Sourced | null {
  if (buoyancy === 'F') return null
  const [low, high] = SINK_IN_S[buoyancy === 'I' ? 0 : (sinkClass ?? USUAL_SINK_CLASS)] ?? [1, 1]
  return sourced(((low + high) / 2) * INCH_M, low * INCH_M, high * INCH_M, RATES)
}

const known = new Map<string, Sourced>()

/**
 * Density (kg/m3) of the sinking part of a line, or of a floating line. A class is a sink rate, so the
 * density is the one at which a level cylinder of this mass per length (kg/m) falls at that rate.
 */
export function lineDensity(line: FlyLine, perMetre_kg_m: number): Sourced {
  const rate = lineSinkRate(line)
  if (!rate) return FLOATING
  const key = `${line.buoyancy}${line.sinkClass} ${perMetre_kg_m}`
  const there = known.get(key)
  if (there) return there
  const at = (speed: number) => densityFalling(perMetre_kg_m, speed)
  const source = `derived from its sink rate (a cylinder in fresh water); ${rate.source}`
  const density = sourced(at(rate.value), at(rate.low), at(rate.high), source)
  known.set(key, density)
  return density
}

const DENSEST_KG_M3 = 6000

/** Weight in water less drag of a metre at the speed: grows with density, so its root is found by halving. */
function densityFalling(perMetre_kg_m: number, speed_m_s: number): number {
  const water = FRESH_WATER.density_kg_m3
  let [low, high]: [number, number] = [water, DENSEST_KG_M3]
  for (let k = 0; k < 50; k++) {
    const density = (low + high) / 2
    const d = Math.sqrt((4 * perMetre_kg_m) / (Math.PI * density))
    const weight = STANDARD_GRAVITY_M_S2 * perMetre_kg_m * (1 - water / density)
    const drag = (water / 2) * chengCylinderDrag(reynoldsInWater(d, speed_m_s)) * d * speed_m_s ** 2
    if (weight < drag) low = density
    else high = density
  }
  return (low + high) / 2
}
