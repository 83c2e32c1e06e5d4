import type { Fly } from '../tackle'
import type { Sourced } from '../materials'
import { matsuiAxialFriction } from '../cast'
import { sourced } from '../materials'
import {
  FRESH_WATER,
  chengCylinderDrag,
  dragInWater_N,
  flyInWater,
  reynoldsInWater,
} from '../tackle'
import { STANDARD_GRAVITY_M_S2 } from '../units'

/** A level strand in water. */
export interface SunkStrand {
  readonly length_m: number
  readonly diameter_m: number
  readonly density_kg_m3: number
}

const WATER = FRESH_WATER.density_kg_m3
const buoyantWeight_N_m = ({ diameter_m: d, density_kg_m3 }: SunkStrand) =>
  (density_kg_m3 - WATER) * STANDARD_GRAVITY_M_S2 * (Math.PI / 4) * d * d

/** Depth against time of a fly that drifts with the water and draws its tippet down after it. */
export interface Sinking {
  /** Depth, m, with its band: weight and drag of the fly are poorly known. */
  readonly depth: Sourced
  /** How far the current has carried it, m. */
  readonly drift_m: number
  /** Depth (m) by the rule: sink rate of the fly alone times the time. */
  readonly byRule_m: number
}

const STEP_M = 0.02
const SOURCE =
  'weight against drag of fly and tippet (sphere, cylinder and filament in water); shape of the fly an estimate'

/**
 * Depth (m) after a time (s), slack enough that nothing holds it back. The strand is drawn along its axis
 * (Matsui, 1976, from memory), so a stouter one brakes more; what it weighs in water helps or hinders.
 */
export function sinking(
  fly: Fly,
  strand: SunkStrand,
  time_s: number,
  current_m_s: number,
): Sinking {
  const { sinkRate, weight } = flyInWater(fly)
  const rate = sinkRate ?? sourced(0, 0, 0, 'made to float')
  const fall = (speed: number) =>
    fallen_m(fly, weight.value, speed / (rate.value || 1), strand, time_s)
  const depth = sinkRate
    ? sourced(fall(rate.value), fall(rate.low), fall(rate.high), SOURCE)
    : sourced(0, 0, 0, 'made to float')
  return {
    depth,
    drift_m: current_m_s * time_s,
    byRule_m: Math.min(strand.length_m, rate.value * time_s),
  }
}

/** Quasi-steady: at each depth the speed at which weight and drag balance; `faster` scales the fly's own rate. */
function fallen_m(
  fly: Fly,
  weight_N: number,
  faster: number,
  strand: SunkStrand,
  time_s: number,
): number {
  let [depth, left_s] = [0, time_s]
  while (depth < strand.length_m && left_s > 0) {
    const speed = speedAt(fly, weight_N, faster, strand, depth)
    if (speed <= 0) break
    const step = Math.min(STEP_M, strand.length_m - depth)
    const taken_s = step / speed
    if (taken_s > left_s) return depth + speed * left_s
    left_s -= taken_s
    depth += step
  }
  return depth
}

function speedAt(
  fly: Fly,
  weight_N: number,
  faster: number,
  strand: SunkStrand,
  depth_m: number,
): number {
  const pull = weight_N + buoyantWeight_N_m(strand) * depth_m
  const surface = Math.PI * strand.diameter_m * depth_m
  const drag = (v: number) => {
    const friction = matsuiAxialFriction(reynoldsInWater(strand.diameter_m, v)) * surface
    return dragInWater_N(fly, v / faster) + (WATER / 2) * v * v * friction
  }
  let [low, high] = [0, 5]
  for (let k = 0; k < 40; k++) {
    const v = (low + high) / 2
    if (drag(v) < pull) low = v
    else high = v
  }
  return low
}

/** Where a fly hangs below something that drifts at the surface. */
export interface Hanging {
  readonly depth_m: number
  /** Angle of the strand at its upper end from straight down, degrees. */
  readonly angle_deg: number
}

/** Speed (m/s) at which the water at a depth (m) passes the strand. */
export type Passing = (depth_m: number) => number

const LINKS = 80

/**
 * Depth (m) of what hangs on a strand, with its weight (N) and drag (N) at the lower end: from the fly up,
 * each link takes the drag across it (cross-flow principle) and its weight in water.
 * @param fly_m depth at which the fly is taken to hang, from which depths along the strand are counted.
 */
export function hangingWith(
  weight_N: number,
  drag_N: number,
  strand: SunkStrand,
  passing: Passing,
  fly_m = strand.length_m,
): Hanging {
  const ds = strand.length_m / LINKS
  const { diameter_m: d } = strand
  let [across, down, depth_m] = [drag_N, weight_N, 0]
  for (let k = 0; k < LINKS; k++) {
    const angle = Math.atan2(across, down)
    const normal = passing(Math.max(0, fly_m - depth_m)) * Math.cos(angle)
    depth_m += Math.cos(angle) * ds
    const cd = normal > 0 ? chengCylinderDrag(reynoldsInWater(d, normal)) : 0
    const force = (WATER / 2) * cd * d * normal * Math.abs(normal) * ds
    across += force * Math.cos(angle)
    down += buoyantWeight_N_m(strand) * ds - force * Math.sin(angle)
  }
  return { depth_m, angle_deg: (Math.atan2(across, down) * 180) / Math.PI }
}

/** Slower towards the bed by the seventh root of the height above it (Prandtl, 1925, from memory). */
const POWER = 1 / 7
const NEAREST_BED = 0.05 // share of the depth; below it stones rule

/** How the surface outruns the water at each depth of a river so deep (m). */
export function laggingCurrent(surface_m_s: number, river_m: number): Passing {
  return (depth_m) => {
    const height = Math.max(NEAREST_BED, 1 - depth_m / river_m)
    return surface_m_s * (1 - height ** POWER)
  }
}

/** Depth (m) of a fly below an indicator that drifts with the surface; by turns with the depth it comes to. */
export function hanging(fly: Fly, strand: SunkStrand, passing: Passing): Hanging {
  const { weight } = flyInWater(fly)
  let found: Hanging = { depth_m: strand.length_m, angle_deg: 0 }
  for (let k = 0; k < 12; k++) {
    const fly_m = found.depth_m
    const drag = dragInWater_N(fly, Math.max(1e-9, passing(fly_m)))
    const next = hangingWith(weight.value, drag, strand, passing, fly_m)
    found = { ...next, depth_m: (fly_m + next.depth_m) / 2 }
  }
  return found
}

/** Length between indicator and fly by the rule of thumb, what it gives, and what it would take. */
export interface IndicatorDepth {
  readonly rule_m: number
  /** Depth of the fly with the strand of the rule, for a surface a third slower to a third faster. */
  readonly depth: Sourced
  /** Strand (m) that reaches the depth by the computation; null where none of up to 3 depths does. */
  readonly needed_m: number | null
}

const CURRENT_SPREAD = 1.33
const LAG_SOURCE =
  'cross-flow drag on the strand in a current that slows towards the bed (seventh-root profile, from memory)'

export function indicatorDepth(
  fly: Fly,
  strand: Omit<SunkStrand, 'length_m'>,
  depth_m: number,
  surface_m_s: number,
  ruleFactor: number,
): IndicatorDepth {
  const rule_m = depth_m * ruleFactor
  const river_m = depth_m / (1 - NEAREST_BED)
  const at = (length_m: number, speed: number) =>
    hanging(fly, { ...strand, length_m }, laggingCurrent(speed, river_m)).depth_m
  return {
    rule_m,
    depth: sourced(
      at(rule_m, surface_m_s),
      at(rule_m, surface_m_s * CURRENT_SPREAD),
      at(rule_m, surface_m_s / CURRENT_SPREAD),
      LAG_SOURCE,
    ),
    needed_m: lengthFor(depth_m, (length) => at(length, surface_m_s)),
  }
}

function lengthFor(depth_m: number, depthWith: (length_m: number) => number): number | null {
  let [low, high] = [depth_m, 3 * depth_m]
  if (depthWith(high) < depth_m) return null
  for (let k = 0; k < 30; k++) {
    const middle = (low + high) / 2
    if (depthWith(middle) < depth_m) low = middle
    else high = middle
  }
  return high
}
