import type { Spread } from '../materials'
import type { Body } from '../tackle'
import type { CastCase, Strand } from './castCase'
import type { Search } from './leastSpeed'
import type { CaseFigure, SpreadKind } from './spreads'
import { EVEN } from '../materials'
import { scaledSpeed } from './guess'
import { leastSpeedSteps, sought, withSpeed } from './leastSpeed'
import { CASE_FIGURES } from './spreads'

/** A seeded source of numbers from 0 to 1: mulberry32, a small public-domain generator. */
function seededNumbers(seed: number): () => number {
  let state = seed >>> 0
  return () => {
    state = (state + 0x6d2b79f5) >>> 0
    let t = state
    t = Math.imul(t ^ (t >>> 15), t | 1)
    t ^= t + Math.imul(t ^ (t >>> 7), t | 61)
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296
  }
}

/** Which kinds of spread are drawn; what is not stands at its centre. */
export type Drawn = Readonly<Record<SpreadKind, boolean>>

/**
 * The case with its figures drawn anew, each evenly over the stretch that has its sd; the same seed draws the same
 * case, and the same figures of a kind whether the other is drawn or not.
 */
export function drawCase(
  input: CastCase,
  seed: number,
  kinds: Drawn = { perCast: true, unknown: true },
): CastCase {
  const next = seededNumbers(seed)
  const number = (kind: SpreadKind) => {
    const deviation = (2 * next() - 1) / EVEN
    return kinds[kind] ? deviation : 0
  }
  const off = ({ sd, shift = 0 }: Spread, deviation: number) => shift + sd * deviation
  const figure = (name: CaseFigure) => off(input.spreads[name], number(CASE_FIGURES[name]))
  const factor = (name: CaseFigure) => Math.exp(figure(name))
  const { cast, fly, hung = [] } = input
  const [friction, line, stiffness] = [
    factor('axialFriction'),
    factor('lineMass'),
    factor('lineStiffness'),
  ]
  const stiff = number('unknown')
  const segments = input.segments.map((strand) => {
    const { spreads } = strand
    const change = {
      diameter: Math.exp(off(spreads.diameter, number('unknown'))),
      density: Math.exp(off(spreads.density, number('unknown'))),
      modulus: Math.exp(off(spreads.modulus, stiff)),
      longer_m: off(spreads.length_m, number('unknown')),
    }
    return { ...strand, ...changed(strand, change) }
  })
  const knot = factor('knotMass')
  const [mass, area] = [factor('flyMass'), factor('flyDrag')]
  const scaled = <B extends Body>(body: B): B => ({
    ...body,
    mass_kg: body.mass_kg * mass,
    dragArea_m2: body.dragArea_m2 * area,
  })
  const drawn = {
    lineSpeed_m_s: cast.lineSpeed_m_s * factor('usualSpeed') * factor('lineSpeed'),
    loopHeight_m: cast.loopHeight_m * factor('loopHeight'),
    loopStart_m: Math.max(0.2, cast.loopStart_m + figure('loopStart_m')),
    launchAngle_deg: cast.launchAngle_deg + figure('launchAngle_deg'),
    tipHeight_m: Math.max(0.3, cast.tipHeight_m + figure('tipHeight_m')),
  }
  const exponent = figure('flyDragExponent')
  const withExponent = <B extends Body>(body: B): B =>
    body.dragExponent ? { ...body, dragExponent: body.dragExponent + exponent } : body
  return {
    ...input,
    segments,
    line: input.line.map((s) => changed(s, { ...SAME, density: line, modulus: stiffness })),
    // A share not known of one body is taken as not known of all of them alike.
    fly: withExponent(scaled(fly)),
    hung: hung.map(scaled).map(withExponent),
    knots: input.knots.map(({ joint, mass_kg }) => ({ joint, mass_kg: mass_kg * knot })),
    axialFriction: scaledFriction(input.axialFriction, friction),
    cast: drawn,
  }
}

/** Drawn anew, but thrown at the speed of the case: what is asked is which speed it needs, or what one does. */
export function perturbed(input: CastCase, seed: number, kinds?: Drawn): CastCase {
  return withSpeed(drawCase(input, seed, kinds), input.cast.lineSpeed_m_s)
}

/** Factors of a strand, and how much longer it is. */
interface Change {
  readonly diameter: number
  readonly density: number
  readonly modulus: number
  readonly longer_m: number
}
const SAME: Change = { diameter: 1, density: 1, modulus: 1, longer_m: 0 }

function changed(strand: Strand, { diameter, density, modulus, longer_m }: Change): Strand {
  return {
    ...strand,
    length_m: Math.max(strand.length_m / 2, strand.length_m + longer_m),
    diameterFrom_m: strand.diameterFrom_m * diameter,
    diameterTo_m: strand.diameterTo_m * diameter,
    density_kg_m3: strand.density_kg_m3 * density,
    modulus_Pa: strand.modulus_Pa * modulus,
  }
}

function scaledFriction(law: CastCase['axialFriction'], factor: number): CastCase['axialFriction'] {
  if (typeof law === 'number') return law * factor
  if (typeof law === 'string') return { law, factor }
  return { law: law.law, factor: law.factor * factor }
}

/** See `sampleSteps`. */
export function sampleLeastSpeed(
  input: CastCase,
  seed: number,
  target: number,
  known_m_s: number,
): number | null {
  return sought(sampleSteps(input, seed, target, known_m_s))
}

/**
 * Least line speed of one drawn case; null where none up to 40 m/s turns it over. The search begins where the
 * energy model moves the known least speed of the case itself: three or four flights in place of eight.
 */
export function sampleSteps(
  input: CastCase,
  seed: number,
  target: number,
  known_m_s: number,
): Search<number | null> {
  const drawn = perturbed(input, seed)
  const from_m_s = scaledSpeed(known_m_s, input, drawn)
  return leastSpeedSteps(drawn, { target, from_m_s, tolerance_m_s: TOLERANCE_M_S })
}

/** Of one sample's least speed. */
const TOLERANCE_M_S = 0.25

export interface Band {
  readonly samples: number
  /** Quantiles of least line speed, m/s; null where that share of samples never turned over. */
  readonly p10_m_s: number | null
  readonly p50_m_s: number | null
  readonly p90_m_s: number | null
  /** Share of samples in which this line speed turns the fly over. */
  readonly probability: number
}

/** The value of a rising list that so great a share of it lies below; undefined of an empty one. */
export const quantileOf = (rising: readonly number[], share: number): number | undefined =>
  rising[Math.min(rising.length - 1, Math.floor(share * rising.length))]

/** Quantiles and probability from samples; a sample of null is faster than any arm. */
export function bandOf(samples: readonly (number | null)[], lineSpeed_m_s: number): Band {
  const sorted = samples.map((v) => v ?? Infinity).sort((a, b) => a - b)
  const quantile = (p: number) => {
    const value = quantileOf(sorted, p)
    return value === undefined || value === Infinity ? null : value
  }
  const turned = sorted.filter((v) => v <= lineSpeed_m_s).length
  return {
    samples: samples.length,
    p10_m_s: quantile(0.1),
    p50_m_s: quantile(0.5),
    p90_m_s: quantile(0.9),
    probability: samples.length > 0 ? turned / samples.length : 0,
  }
}
