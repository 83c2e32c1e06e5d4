import type { Sourced } from './sourced'
import { sourced } from './sourced'

/** Families matter to knots (which slip on which), to weathering and to how a strand is drawn. */
export const FAMILIES = [
  'nylon',
  'copolymer',
  'fluorocarbon',
  'polyester',
  'braid',
  'wire',
] as const
export type Family = (typeof FAMILIES)[number]

/** What a strand is made of. SI; every constant carries its source. */
export interface Material {
  readonly id: string
  readonly name: string
  readonly family: Family
  /** kg/m3 */
  readonly density: Sourced
  /** Young's modulus in bending, dry, Pa */
  readonly modulus: Sourced
  /** Wet modulus over dry modulus */
  readonly wetModulus: Sourced
  /** Breaking stress of drawn monofilament, Pa: only used where no strength is labelled or tested */
  readonly tensileStrength: Sourced
  /** Wet strength over dry strength */
  readonly wetStrength: Sourced
  readonly refractiveIndex?: Sourced
}

const NYLON_DENSITY = sourced(1140, 1120, 1150, 'US Fish & Wildlife Service, Net materials')
const NYLON_WET_MODULUS = sourced(
  0.75,
  0.5,
  1,
  'estimate: moulded polyamide halves when wet, drawn fibre changes little (Humeau et al. 2018)',
)
const NYLON_WET_STRENGTH = sourced(
  0.85,
  0.8,
  0.9,
  'US Fish & Wildlife Service, Net materials: loses 10 to 20 % wet',
)
const NYLON_INDEX = sourced(
  1.53,
  1.51,
  1.59,
  'handbook value of polyamide; drawn strands differ along and across',
)
const FINE_STRENGTH = 'derived from generic tippet tables (common practice)'
const MODULUS = 'estimate within 1.5 to 4 GPa for drawn polyamide strands, from memory'

const NYLON_STIFF: Material = {
  id: 'nylon-stiff',
  name: 'Stiff nylon',
  family: 'nylon',
  density: NYLON_DENSITY,
  modulus: sourced(3.0e9, 2.0e9, 4.0e9, MODULUS),
  wetModulus: NYLON_WET_MODULUS,
  tensileStrength: sourced(
    590e6,
    480e6,
    700e6,
    'derived from generic butt-nylon tables (common practice)',
  ),
  wetStrength: NYLON_WET_STRENGTH,
  refractiveIndex: NYLON_INDEX,
}

const NYLON_SUPPLE: Material = {
  ...NYLON_STIFF,
  id: 'nylon-supple',
  name: 'Supple nylon',
  modulus: sourced(2.0e9, 1.5e9, 3.0e9, MODULUS),
  tensileStrength: sourced(850e6, 610e6, 1100e6, FINE_STRENGTH),
}

const COPOLYMER: Material = {
  ...NYLON_SUPPLE,
  id: 'copolymer',
  name: 'Copolymer',
  family: 'copolymer',
  modulus: sourced(2.3e9, 1.5e9, 3.2e9, MODULUS),
  tensileStrength: sourced(900e6, 650e6, 1150e6, FINE_STRENGTH),
}

const FLUOROCARBON: Material = {
  id: 'fluorocarbon',
  name: 'Fluorocarbon',
  family: 'fluorocarbon',
  density: sourced(1780, 1760, 1800, 'US patent 7,582,353 (1790) and moulding bulletins (1780)'),
  modulus: sourced(
    2.8e9,
    2.0e9,
    4.0e9,
    'moulded 2.1 GPa to drawn film 4.0 GPa (handbook range of polyvinylidene fluoride)',
  ),
  wetModulus: sourced(1, 0.97, 1, 'takes up almost no water (common practice)'),
  tensileStrength: sourced(700e6, 490e6, 1010e6, 'US patents 5,658,663 and 4,521,483 (1985)'),
  wetStrength: sourced(1, 0.97, 1, 'takes up almost no water (common practice)'),
  refractiveIndex: sourced(1.42, 1.41, 1.43, 'US patent 7,582,353'),
}

export const BUILT_IN_MATERIALS: readonly Material[] = [
  NYLON_STIFF,
  NYLON_SUPPLE,
  COPOLYMER,
  FLUOROCARBON,
]

/**
 * Density of fresh water at 10 C, against which a strand floats or sinks: London South Bank University,
 * water data.
 */
export const WATER_DENSITY_KG_M3 = 999.7

/** A strand denser than water sinks once wetted; the surface film can hold a fine greased one up. */
export function sinks(density_kg_m3: number): boolean {
  return density_kg_m3 > WATER_DENSITY_KG_M3
}

/** Bending stiffness EI (N m2) of a round strand: E pi d^4 / 64 (Machinery's Handbook, 31st ed., 2020). */
export function bendingStiffness_N_m2(modulus_Pa: number, diameter_m: number): number {
  const square = diameter_m * diameter_m
  return (modulus_Pa * Math.PI * square * square) / 64
}

/** Mass per length (kg/m) of a round strand. */
export function linearDensity_kg_m(density_kg_m3: number, diameter_m: number): number {
  return density_kg_m3 * (Math.PI / 4) * diameter_m * diameter_m
}
