import type { Body } from './dragLaw'
import type { HookSize } from './hook'
import { dryHookMass_kg, gape_m } from './hook'
import { measured, sourced } from '../materials/sourced'
import type { Sourced } from '../materials/sourced'

/** Generic styles of the trade; each gives a fly its dressing and its drag. */
export const FLY_STYLES = [
  'midge',
  'parachute',
  'collar-hackle',
  'bushy',
  'foam-terrestrial',
  'emerger',
  'soft-hackle',
  'nymph',
  'beaded-nymph',
  'streamer',
  'weighted-streamer',
  'deer-hair',
  'popper',
  'yarn-tuft',
] as const
export type FlyStyle = (typeof FLY_STYLES)[number]

export type BeadMetal = 'tungsten' | 'brass'

export interface Bead {
  readonly metal: BeadMetal
  readonly diameter_m: number
}

/** A fly as the user names it, with what they weighed or measured where they did. */
export interface Fly {
  readonly style: FlyStyle
  readonly hook: HookSize
  readonly bead?: Bead
  readonly mass_kg?: number
  readonly dragArea_m2?: number
  /** Timed in still water. */
  readonly sinkRate_m_s?: number
}

export interface FlyFigures {
  /** Mass dry, kg. */
  readonly mass: Sourced
  /** Drag coefficient times frontal area in air at 6 m/s, m2. */
  readonly dragArea: Sourced
  /** How it falls with speed: see `dragShare`. */
  readonly dragExponent: Sourced
}

interface StyleFigures {
  /** Dressing mass over hook mass. */
  readonly dressing: number
  /** Hook wire weight over dry-fly wire. */
  readonly wire: number
  /** Drag area = coefficient x pi/4 x (span x gape)^2. */
  readonly coefficient: number
  readonly span: number
  /** Dressed in hackle, hair or yarn, which the air folds back. */
  readonly soft?: true
  /** Whether the trade chooses tippet by hook size for it. */
  readonly sizedByHook: boolean
}

const DISC = 3 // a hackle of 1.5 gapes makes a disc three gapes across (common practice)

/**
 * Dressing and drag by style. Estimates from hook geometry, uncertain by 35 % in mass and by two in
 * drag area: a dense collar of barbs at Reynolds numbers of 10 to 50 blocks about as much air as its
 * disc, less a third for folding back at speed. Popper: open cup, 1.42 (Hoerner, Fluid-Dynamic Drag,
 * 1965, from memory), times 1.2 for tail and collar. Hook wire: wet-fly and nymph hooks a fifth heavier
 * than dry-fly wire, streamer hooks nearly half. A drop test replaces it: drag area = 2 m g / (rho v^2).
 */
const STYLES: Readonly<Record<FlyStyle, StyleFigures>> = {
  midge: { dressing: 0.3, wire: 1, coefficient: 0.15, span: DISC, sizedByHook: true, soft: true },
  parachute: {
    dressing: 0.4,
    wire: 1,
    coefficient: 0.35,
    span: DISC,
    sizedByHook: true,
    soft: true,
  },
  'collar-hackle': {
    dressing: 0.6,
    wire: 1,
    coefficient: 0.65,
    span: DISC,
    sizedByHook: true,
    soft: true,
  },
  bushy: { dressing: 0.8, wire: 1, coefficient: 0.95, span: DISC, sizedByHook: true, soft: true },
  'foam-terrestrial': { dressing: 2.5, wire: 1, coefficient: 0.8, span: DISC, sizedByHook: true },
  emerger: { dressing: 0.4, wire: 1, coefficient: 0.25, span: DISC, sizedByHook: true, soft: true },
  'soft-hackle': {
    dressing: 0.4,
    wire: 1.2,
    coefficient: 0.25,
    span: DISC,
    sizedByHook: true,
    soft: true,
  },
  nymph: { dressing: 0.4, wire: 1.2, coefficient: 0.7, span: 0.6, sizedByHook: true },
  'beaded-nymph': { dressing: 0.4, wire: 1.2, coefficient: 0.7, span: 0.6, sizedByHook: true },
  streamer: {
    dressing: 2.5,
    wire: 1.45,
    coefficient: 1.2,
    span: 1.2,
    sizedByHook: false,
    soft: true,
  },
  'weighted-streamer': {
    dressing: 4.5,
    wire: 1.45,
    coefficient: 1.2,
    span: 1.2,
    sizedByHook: false,
    soft: true,
  },
  'deer-hair': { dressing: 2.5, wire: 1, coefficient: 1, span: 1.8, sizedByHook: false },
  popper: { dressing: 2, wire: 1, coefficient: 1.42 * 1.2, span: 1.3, sizedByHook: false },
  'yarn-tuft': {
    dressing: 0,
    wire: 0,
    coefficient: 0.5,
    span: DISC,
    sizedByHook: false,
    soft: true,
  },
}

const ESTIMATE = 'estimate from hook geometry'
const YARN_MASS_KG = 20e-6 // a tuft of practice yarn, estimate

/** Bead metals, kg/m3: tungsten alloy and brass (from memory, more likely right than not). */
export const BEAD_DENSITY: Readonly<Record<BeadMetal, number>> = { tungsten: 18000, brass: 8500 }
const BEAD_FILL = 0.78 // share of the sphere left by its hole, our estimate

/** Mass (kg) of a bead: a sphere less what its hole takes. */
export function beadMass_kg({ metal, diameter_m }: Bead): number {
  return BEAD_DENSITY[metal] * BEAD_FILL * (Math.PI / 6) * diameter_m ** 3
}

/** Bead that usually goes on a hook when the user names none: 0.7 of the gape (common practice). */
function usualBead(hook: HookSize): Bead {
  return { metal: 'tungsten', diameter_m: 0.7 * gape_m(hook) }
}

/** The bead of a fly: the one named, or the usual one of a style that has one. */
export function beadOf({ bead, style, hook }: Fly): Bead | undefined {
  return bead ?? (style === 'beaded-nymph' ? usualBead(hook) : undefined)
}

/** Mass (kg) of the bare hook that a style is dressed on. */
export function hookMass_kg({ style, hook }: Pick<Fly, 'style' | 'hook'>): number {
  return dryHookMass_kg(hook) * STYLES[style].wire
}

/** A mass (kg) off a scale with tenths of a gram, twenty alike at once: sd 5 %, estimate. */
const weighed = (mass_kg: number): Sourced => measured(mass_kg, 0.05, 'as weighed')

/**
 * A drag area (m2) from a timed drop. Sd 25 %: a filmed one is good to 13 %, and a fly falls otherwise than it
 * flies, eye first, by a fifth at least; estimates.
 */
const timed = (dragArea_m2: number): Sourced => measured(dragArea_m2, 0.25, 'as measured')

/** Mass and drag area of a fly with their bands; what the user measured replaces the estimate. */
export function flyFigures(fly: Fly): FlyFigures {
  const dragExponent = STYLES[fly.style].soft ? SOFT : SOLID
  return { mass: flyMass(fly), dragArea: flyDragArea(fly), dragExponent }
}

/**
 * Hackle, hair and yarn: nothing measured on a fly is known; barbs as cylinders (Cheng, 2013) and a plumed seed lie
 * between. Foam, clipped hair, beads and bare bodies keep their area.
 */
const SOFT = sourced(0.35, 0.2, 0.5, 'barbs as cylinders by Cheng, 2013; estimate')
const SOLID = sourced(0, 0, 0, 'common practice')

/** A fly as a body in the air, its figures at their centre. */
export const bodyOf = ({ mass, dragArea, dragExponent }: FlyFigures): Body => ({
  mass_kg: mass.value,
  dragArea_m2: dragArea.value,
  dragExponent: dragExponent.value,
})

function flyMass(fly: Fly): Sourced {
  if (fly.mass_kg !== undefined) return weighed(fly.mass_kg)
  const style = STYLES[fly.style]
  const bead = beadOf(fly)
  const dressed = hookMass_kg(fly) * (1 + style.dressing)
  const mass = (fly.style === 'yarn-tuft' ? YARN_MASS_KG : dressed) + (bead ? beadMass_kg(bead) : 0)
  return sourced(mass, mass * 0.65, mass * 1.35, ESTIMATE)
}

function flyDragArea(fly: Fly): Sourced {
  if (fly.dragArea_m2 !== undefined) return timed(fly.dragArea_m2)
  const { coefficient, span } = STYLES[fly.style]
  const area = coefficient * (Math.PI / 4) * (span * gape_m(fly.hook)) ** 2
  return sourced(area, area / 2, area * 2, ESTIMATE)
}

/** Whether the trade picks tippet for this fly by its hook size; not for streamers, poppers and their like. */
export function isSizedByHook(style: FlyStyle): boolean {
  return STYLES[style].sizedByHook
}
