import type { CastCase, Strand } from './castCase'
import type { Search } from './leastSpeed'
import { scaledSpeed } from './guess'
import { leastSpeedSteps, sought } from './leastSpeed'

/**
 * What is poorly known, each with the spread it is drawn from. Every spread is an estimate of ours.
 * Held fixed: the caster's own speed and loop, the air, gravity, wind, the lengths and mass of the line.
 */
export const POORLY_KNOWN = {
  /** Later work finds up to twice the friction (from memory), so the band leans upward: estimate. */
  axialFriction: { low: 0.7, high: 2 },
  /** A factor of two either way, as in tackle/fly.ts: estimate. */
  flyDrag: { low: 0.5, high: 2 },
  /** About the bands of materials/material.ts, 1.5 to 4 GPa: estimate. */
  modulus: { low: 0.5, high: 1.5 },
  /** Spools of one size differ by about 3 %: estimate. */
  diameter: { low: 0.97, high: 1.03 },
  /** Tying tolerance of each piece, m either way: estimate. */
  length_m: 0.015,
  /** What one caster's casts differ by, either way: estimates. */
  loopStart_m: 0.7,
  launchAngle_deg: 4,
  tipHeight_m: 0.3,
} as const

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

/** The case with everything poorly known drawn anew; the same seed draws the same case. */
export function perturbed(input: CastCase, seed: number): CastCase {
  const next = seededNumbers(seed)
  const between = (low: number, high: number) => low + (high - low) * next()
  const factor = ({ low, high }: { low: number; high: number }) =>
    Math.exp(between(Math.log(low), Math.log(high)))
  const P = POORLY_KNOWN
  const friction = factor(P.axialFriction)
  const modulus = factor(P.modulus)
  const drag = factor(P.flyDrag)
  const { cast, fly } = input
  const segments = input.segments.map((s) =>
    tied(s, between(P.diameter.low, P.diameter.high), between(-P.length_m, P.length_m), modulus),
  )
  return {
    ...input,
    segments,
    line: input.line.map((s) => ({ ...s, modulus_Pa: s.modulus_Pa * modulus })),
    fly: { ...fly, dragArea_m2: fly.dragArea_m2 * drag },
    axialFriction: scaledFriction(input.axialFriction, friction),
    cast: {
      ...cast,
      loopStart_m: Math.max(0.2, cast.loopStart_m + between(-P.loopStart_m, P.loopStart_m)),
      launchAngle_deg: cast.launchAngle_deg + between(-P.launchAngle_deg, P.launchAngle_deg),
      tipHeight_m: Math.max(0.3, cast.tipHeight_m + between(-P.tipHeight_m, P.tipHeight_m)),
    },
  }
}

function tied(strand: Strand, diameter: number, longer_m: number, modulus: number): Strand {
  return {
    ...strand,
    length_m: Math.max(strand.length_m / 2, strand.length_m + longer_m),
    diameterFrom_m: strand.diameterFrom_m * diameter,
    diameterTo_m: strand.diameterTo_m * diameter,
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

/** Quantiles and probability from samples; a sample of null is faster than any arm. */
export function bandOf(samples: readonly (number | null)[], lineSpeed_m_s: number): Band {
  const sorted = samples.map((v) => v ?? Infinity).sort((a, b) => a - b)
  const quantile = (p: number) => {
    const value = sorted[Math.min(sorted.length - 1, Math.floor(p * sorted.length))]
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
