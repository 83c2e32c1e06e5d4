import type { Sourced } from '../materials/sourced'
import type { Fly, FlyStyle } from './fly'
import { sourced } from '../materials/sourced'
import { STANDARD_GRAVITY_M_S2 } from '../units'
import { dragShare } from './dragLaw'
import { chengCylinderDrag } from './cylinderDrag'
import { BEAD_DENSITY, beadMass_kg, beadOf, flyFigures, hookMass_kg } from './fly'
import { gape_m, shankLength_m } from './hook'
import { sphereDrag, terminalSpeed_m_s } from './falling'
import { FRESH_WATER, reynoldsInWater } from './water'

/** What a fly weighs wet and how it meets the water. */
export interface FlyInWater {
  /** Mass soaked, kg. */
  readonly wetMass: Sourced
  /** Weight less buoyancy of the soaked fly, N: 0 for one that floats. */
  readonly weight: Sourced
  /** Area it shows to the flow head on, m2. */
  readonly frontalArea: Sourced
  /** Drag coefficient times area in water, m2, at its sink rate, or at 0.3 m/s where it floats. */
  readonly dragArea: Sourced
  /** Speed at which it falls through still water, m/s; null for a fly that is made to float. */
  readonly sinkRate: Sourced | null
}

const STEEL = 7850 // kg/m3, Machinery's Handbook, 31st ed., 2020
/** Lead and lead-free wire, kg/m3, taken together: tin alloys 7300, lead 11300 (handbook values, from memory). */
const WIRE = 9500

interface Soaking {
  /** Water taken up over the mass of the dry dressing. */
  readonly soak: number
  /** Thickness of the soaked body over gape. */
  readonly body: number
  /** Weighting wire over hook mass. */
  readonly wire?: number
  readonly floats?: true
}

/** Estimates: a streamer's dressing takes up twice its mass, foam next to nothing. */
const SOAKING: Readonly<Record<FlyStyle, Soaking>> = {
  midge: { soak: 0.5, body: 0.4, floats: true },
  parachute: { soak: 0.8, body: 0.5, floats: true },
  'collar-hackle': { soak: 0.8, body: 0.5, floats: true },
  bushy: { soak: 0.8, body: 0.6, floats: true },
  'foam-terrestrial': { soak: 0.2, body: 1, floats: true },
  emerger: { soak: 1.2, body: 0.5 },
  'soft-hackle': { soak: 1.5, body: 0.75 },
  nymph: { soak: 1.5, body: 0.6 },
  'beaded-nymph': { soak: 1.5, body: 0.6 },
  streamer: { soak: 2, body: 0.9 },
  'weighted-streamer': { soak: 2, body: 0.9, wire: 2 },
  'deer-hair': { soak: 0.5, body: 1.8, floats: true },
  popper: { soak: 0.2, body: 1.3, floats: true },
  'yarn-tuft': { soak: 3, body: 1, floats: true },
}

const ESTIMATE = 'estimate from hook geometry'
const DRAG =
  'a sphere (Schiller and Naumann, 1933) before a cylinder across the flow (Cheng, 2013); the shape is an estimate within 1.6'
const NOMINAL_SPEED_M_S = 0.3
const DRAG_FACTOR = 1.6
const MASS_SHARE = 0.35

/** A fly in fresh water, after what is known of it; its own sink rate replaces the computed one. */
export function flyInWater(fly: Fly): FlyInWater {
  const { wetMass, weight } = wetWeight(fly)
  const drag = (v: number) => dragInWater_N(fly, v)
  const { floats } = SOAKING[fly.style]
  const computed = floats ? null : fallRate(weight, drag)
  const sinkRate = floats ? null : (measuredRate(fly) ?? computed)
  const at = sinkRate?.value ?? NOMINAL_SPEED_M_S
  // A timed fall tells the drag: what carries the weight at that speed.
  const force = fly.sinkRate_m_s === undefined || floats ? drag(at) : weight.value
  const dragArea = force / ((FRESH_WATER.density_kg_m3 / 2) * at ** 2)
  const { head_m, body_m } = sizes(fly)
  const front = (Math.PI / 4) * Math.max(head_m, body_m) ** 2
  return {
    wetMass,
    weight: floats ? sourced(0, 0, 0, 'made to float') : weight,
    frontalArea: sourced(front, front / 1.5, front * 1.5, ESTIMATE),
    dragArea: sourced(dragArea, dragArea / DRAG_FACTOR, dragArea * DRAG_FACTOR, DRAG),
    sinkRate,
  }
}

function measuredRate({ sinkRate_m_s: v }: Fly): Sourced | undefined {
  return v === undefined ? undefined : sourced(v, v, v, 'as timed')
}

/** Slowest with the least weight and most drag, fastest the other way round. */
function fallRate(weight: Sourced, drag: (v: number) => number): Sourced {
  const fall = (newton: number, factor: number) =>
    terminalSpeed_m_s(newton, (v) => drag(v) * factor)
  return sourced(
    fall(weight.value, 1),
    fall(weight.low, DRAG_FACTOR),
    fall(weight.high, 1 / DRAG_FACTOR),
    DRAG,
  )
}

/** The dressing, soaked, weighs nothing in water; hook, bead and wire weigh what water does not carry. */
function wetWeight(fly: Fly) {
  const { mass } = flyFigures(fly)
  const { soak, wire = 0 } = SOAKING[fly.style]
  const hook = hookMass_kg(fly)
  const bead = beadOf(fly)
  const parts = [
    [hook, STEEL],
    [hook * wire, WIRE],
    bead ? [beadMass_kg(bead), BEAD_DENSITY[bead.metal]] : [0, STEEL],
  ] as const
  const metal = parts.reduce((sum, [kg]) => sum + kg, 0)
  const dressing = Math.max(0, mass.value - metal)
  // Where the fly was weighed lighter than its metal is thought to be, the metal is lighter too.
  const scale = Math.min(1, metal > 0 ? mass.value / metal : 1)
  const sunk = parts.reduce((sum, [kg, density]) => {
    return sum + kg * scale * (1 - FRESH_WATER.density_kg_m3 / density)
  }, 0)
  const newton = sunk * STANDARD_GRAVITY_M_S2
  const share = fly.mass_kg === undefined ? MASS_SHARE : 0.1
  const wet = mass.value + dressing * soak
  return {
    wetMass: sourced(wet, wet * (1 - MASS_SHARE), wet * (1 + MASS_SHARE), ESTIMATE),
    weight: sourced(newton, newton * (1 - share), newton * (1 + share), ESTIMATE),
  }
}

/** Diameter of the head (the bead, else the body) and of the body, m. */
function sizes(fly: Fly): { readonly head_m: number; readonly body_m: number } {
  const body_m = SOAKING[fly.style].body * gape_m(fly.hook)
  return { head_m: beadOf(fly)?.diameter_m ?? body_m, body_m }
}

/** Drag (N) of a fly at a speed (m/s) in water: its head as a sphere, its body as a cylinder as long as the shank. */
export function dragInWater_N(fly: Fly, speed_m_s: number): number {
  const { head_m, body_m } = sizes(fly)
  const pressure = (FRESH_WATER.density_kg_m3 / 2) * speed_m_s ** 2
  const sphere = sphereDrag(reynoldsInWater(head_m, speed_m_s)) * (Math.PI / 4) * head_m ** 2
  const cylinder =
    chengCylinderDrag(reynoldsInWater(body_m, speed_m_s)) * body_m * shankLength_m(fly.hook)
  return pressure * (sphere + cylinder)
}

/** Whether this style is made to float. */
export function floats(style: FlyStyle): boolean {
  return SOAKING[style].floats === true
}

const AIR_KG_M3 = 1.225 // ISO 2533:1975

/**
 * Drag area (m2) in air at 6 m/s from a timed drop from rest: with drag as the square of speed a body falls
 * h = (V^2/g) ln cosh(g t/V), V its terminal speed (Taylor, Classical Mechanics, 2005), and
 * drag area at V = 2 m g/(rho V^2); hackle that falls at 3 m/s catches more there than in a cast. Undefined where
 * the fall is faster than free fall allows.
 */
export function dragAreaFromDrop_m2(
  mass_kg: number,
  height_m: number,
  time_s: number,
  dragExponent = 0,
): number | undefined {
  const g = STANDARD_GRAVITY_M_S2
  if (!(mass_kg > 0 && height_m > 0 && time_s > 0) || height_m >= (g * time_s ** 2) / 2)
    return undefined
  let [low, high] = [height_m / time_s / 2, 1e4]
  for (let k = 0; k < 100; k++) {
    const speed = (low + high) / 2
    if (fallen_m(speed, time_s) < height_m) low = speed
    else high = speed
  }
  const terminal = (low + high) / 2
  return (2 * mass_kg * g) / (AIR_KG_M3 * terminal ** 2 * dragShare(terminal, dragExponent))
}

/** ln cosh x = x + ln(1 + exp(-2x)) - ln 2, which does not overflow. */
function fallen_m(terminal_m_s: number, time_s: number): number {
  const x = (STANDARD_GRAVITY_M_S2 * time_s) / terminal_m_s
  const lnCosh = x + Math.log1p(Math.exp(-2 * x)) - Math.LN2
  return (terminal_m_s ** 2 / STANDARD_GRAVITY_M_S2) * lnCosh
}
