import type { Leader } from '../leader'
import type { Joint } from '../leader'
import type { LineFigures } from '../tackle'
import type { Profile, SegmentProfile } from './profile'
import { jointAt } from '../leader'
import { lineFigures } from '../tackle'

/**
 * A joint as a step. Ratios are next over previous, butt to tip. At the line the previous strand is the
 * line's tip (null while no line is chosen); at the fly there is no next strand, so all are null.
 */
export interface JointProfile {
  readonly index: number
  readonly place: 'line' | 'between' | 'fly'
  readonly joint: Joint
  readonly distance_m: number
  /** Previous less next diameter: positive where the leader gets thinner, m. */
  readonly step_m: number | null
  readonly diameterRatio: number | null
  readonly massRatio: number | null
  readonly stiffnessRatio: number | null
  /** Step over the distance between the middles of the two segments, m/m. */
  readonly taperRate: number | null
}

interface Strand {
  readonly diameter_m: number
  readonly linearDensity_kg_m: number
  readonly stiffness_N_m2: number
  readonly length_m: number
}

/** All joints from the line to the fly: one more than there are segments. */
export function jointsOf(leader: Leader, profile: Profile): JointProfile[] {
  const line = leader.outfit.line ? lineStrand(lineFigures(leader.outfit.line)) : undefined
  const last = profile.segments.length
  return Array.from({ length: last + 1 }, (_, index) => {
    const previous = index === 0 ? line : profile.segments[index - 1]
    const next = profile.segments[index]
    const place = index === 0 ? 'line' : index === last ? 'fly' : 'between'
    const distance_m = next?.start_m ?? profile.total_m
    return {
      index,
      place,
      joint: jointAt(leader, index),
      distance_m,
      ...stepBetween(previous, next),
    }
  })
}

const NO_STEP = {
  step_m: null,
  diameterRatio: null,
  massRatio: null,
  stiffnessRatio: null,
  taperRate: null,
}

function stepBetween(previous: Strand | undefined, next: SegmentProfile | undefined) {
  if (!previous || !next) return NO_STEP
  const step_m = previous.diameter_m - next.diameter_m
  const between_m = (previous.length_m + next.length_m) / 2
  return {
    step_m,
    diameterRatio: next.diameter_m / previous.diameter_m,
    massRatio: next.linearDensity_kg_m / previous.linearDensity_kg_m,
    stiffnessRatio: next.stiffness_N_m2 / previous.stiffness_N_m2,
    taperRate: previous.length_m > 0 ? step_m / between_m : null,
  }
}

function lineStrand(line: LineFigures): Strand {
  return {
    diameter_m: line.tipDiameter_m,
    linearDensity_kg_m: line.tipLinearDensity_kg_m,
    stiffness_N_m2: line.tipStiffness.value,
    length_m: 0,
  }
}
