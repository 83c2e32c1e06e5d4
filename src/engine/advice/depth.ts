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

/** Where a fly hangs below something that the surface carries along faster than the water round the fly. */
export interface Hanging {
  readonly depth_m: number
  /** Angle of the strand at its upper end from straight down, degrees. */
  readonly angle_deg: number
}

const LINKS = 80

/**
 * Depth (m) of a fly below an indicator or a rod tip, on a strand of this length, in water that passes it at
 * this speed: from the fly up, each link takes the drag across it (cross-flow principle) and its weight.
 */
export function hanging(fly: Fly, strand: SunkStrand, passing_m_s: number): Hanging {
  const { weight } = flyInWater(fly)
  return hangingWith(
    weight.value,
    dragInWater_N(fly, Math.max(passing_m_s, 1e-9)),
    strand,
    passing_m_s,
  )
}

/** The same for a weight (N) and a drag (N) at the lower end. */
export function hangingWith(
  weight_N: number,
  drag_N: number,
  strand: SunkStrand,
  passing_m_s: number,
): Hanging {
  const ds = strand.length_m / LINKS
  const { diameter_m: d } = strand
  let [across, down, depth_m] = [drag_N, weight_N, 0]
  for (let k = 0; k < LINKS; k++) {
    const angle = Math.atan2(across, down)
    depth_m += Math.cos(angle) * ds
    const normal = passing_m_s * Math.cos(angle)
    const cd = normal > 0 ? chengCylinderDrag(reynoldsInWater(d, normal)) : 0
    const force = (WATER / 2) * cd * d * normal * Math.abs(normal) * ds
    across += force * Math.cos(angle)
    down += buoyantWeight_N_m(strand) * ds - force * Math.sin(angle)
  }
  return { depth_m, angle_deg: (Math.atan2(across, down) * 180) / Math.PI }
}

/** Share of the surface's speed by which the water near the bed lags it; estimate. */
const LAG = sourced(
  0.25,
  0.15,
  0.4,
  'the water near the bed runs slower than the surface: estimate',
)

/** What an indicator set for a depth really gives, and how long the strand would have to be. */
export interface IndicatorDepth {
  readonly rule_m: number
  /** Depth of the fly with the strand of the rule. */
  readonly depth: Sourced
  /** Strand (m) that reaches the depth by the computation; null where none of up to 3 depths does. */
  readonly needed_m: number | null
}

export function indicatorDepth(
  fly: Fly,
  strand: Omit<SunkStrand, 'length_m'>,
  depth_m: number,
  surface_m_s: number,
  ruleFactor: number,
): IndicatorDepth {
  const rule_m = depth_m * ruleFactor
  const at = (length_m: number, lag: number) =>
    hanging(fly, { ...strand, length_m }, surface_m_s * lag).depth_m
  return {
    rule_m,
    depth: sourced(at(rule_m, LAG.value), at(rule_m, LAG.high), at(rule_m, LAG.low), LAG.source),
    needed_m: lengthFor(depth_m, (length) => at(length, LAG.value)),
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
