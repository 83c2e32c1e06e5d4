import type { Leader, Part } from '../leader'
import type { Material } from '../materials'
import { diameter_m, materialOf, shareOf } from '../leader'
import { bendingStiffness_N_m2, linearDensity_kg_m, sinks } from '../materials'

/** One segment in SI, with its place along the leader (m from the line's end). */
export interface SegmentProfile {
  readonly key: number
  readonly part: Part
  readonly material: Material
  readonly start_m: number
  readonly length_m: number
  readonly diameter_m: number
  readonly linearDensity_kg_m: number
  readonly mass_kg: number
  /** Bending stiffness EI, N m2. */
  readonly stiffness_N_m2: number
  readonly wetStiffness_N_m2: number
  readonly sinks: boolean
}

/** Shares of the total length, each 0 to 1; together 1. */
export interface Shares {
  readonly butt: number
  readonly mid: number
  readonly tippet: number
}

/** A leader as a whole. */
export interface Whole {
  readonly total_m: number
  readonly mass_kg: number
  /** Mean density of the whole strand, kg/m3. */
  readonly meanDensity_kg_m3: number
  readonly shares: Shares
}

export interface Profile extends Whole {
  readonly segments: readonly SegmentProfile[]
}

/** Length, mass, linear density and stiffness of a leader, segment by segment. */
export function profileOf(leader: Leader): Profile {
  const segments: SegmentProfile[] = []
  let total_m = 0
  let mass_kg = 0
  let volume_m3 = 0
  const shares = { butt: 0, mid: 0, tippet: 0 }
  for (const segment of leader.segments) {
    const d = diameter_m(segment)
    const material = materialOf(leader, segment.material)
    const density = material.density.value
    const perMetre = linearDensity_kg_m(density, d)
    const stiffness = bendingStiffness_N_m2(material.modulus.value, d)
    const length = segment.length.si
    segments.push({
      key: segment.key,
      part: segment.part,
      material,
      start_m: total_m,
      length_m: length,
      diameter_m: d,
      linearDensity_kg_m: perMetre,
      mass_kg: perMetre * length,
      stiffness_N_m2: stiffness,
      wetStiffness_N_m2: stiffness * material.wetModulus.value,
      sinks: sinks(density),
    })
    total_m += length
    mass_kg += perMetre * length
    volume_m3 += (perMetre * length) / density
    shares[shareOf(segment.part)] += length
  }
  for (const part of ['butt', 'mid', 'tippet'] as const) shares[part] /= total_m
  return { segments, total_m, mass_kg, meanDensity_kg_m3: mass_kg / volume_m3, shares }
}

/** The segment at a distance from the line's end (m); the ends hold for anything beyond them. */
export function segmentAt({ segments }: Pick<Profile, 'segments'>, distance_m: number): number {
  const index = segments.findIndex((s) => distance_m < s.start_m + s.length_m)
  return index < 0 ? segments.length - 1 : index
}

/** Columns sampled at `count` >= 2 equidistant places from the line's end to the fly. */
export interface ProfileSamples {
  readonly distance_m: Float64Array
  readonly diameter_m: Float64Array
  readonly linearDensity_kg_m: Float64Array
  readonly stiffness_N_m2: Float64Array
}

/** The profile at any resolution; at a joint the sample belongs to the segment on its fly side. */
export function sampleProfile(profile: Profile, count: number): ProfileSamples {
  if (!(count >= 2))
    throw new RangeError(`A profile needs at least 2 samples; ${count} were asked for.`)
  const column = () => new Float64Array(count)
  const samples = {
    distance_m: column(),
    diameter_m: column(),
    linearDensity_kg_m: column(),
    stiffness_N_m2: column(),
  }
  for (let k = 0; k < count; k++) {
    const x = (profile.total_m * k) / (count - 1)
    const segment = profile.segments[segmentAt(profile, x)]
    if (!segment) continue
    samples.distance_m[k] = x
    samples.diameter_m[k] = segment.diameter_m
    samples.linearDensity_kg_m[k] = segment.linearDensity_kg_m
    samples.stiffness_N_m2[k] = segment.stiffness_N_m2
  }
  return samples
}
