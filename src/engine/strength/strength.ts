import type { Leader, Segment } from '../leader'
import type { Material, Sourced } from '../materials'
import { diameter_m, jointAt, materialOf } from '../leader'
import { knot, sourced } from '../materials'

/** A breaking strength in N with its band: dry, and wet as it is fished. */
export interface Strength {
  readonly dry: Sourced
  readonly wet: Sourced
}

export interface StrengthPlace {
  readonly kind: 'segment' | 'joint'
  readonly index: number
  /** The piece that is weak there: of the two strands in a knot, the weaker one. */
  readonly piece: number
  readonly strength: Strength
}

export interface LeaderStrength {
  readonly segments: readonly Strength[]
  /** From the line to the fly, one more than segments: the weaker strand times what the knot keeps. */
  readonly joints: readonly Strength[]
  readonly weakest: StrengthPlace
}

/** Strength of every segment and knot, and the weakest of them all. */
export function strengthOf(leader: Leader): LeaderStrength {
  const segments = leader.segments.map((s) => segmentStrength(leader, s))
  const joints = Array.from({ length: segments.length + 1 }, (_, i) =>
    jointStrength(leader, segments, i),
  )
  return { segments, joints, weakest: weakestOf(segments, joints) }
}

/** The user's pull test wins over the label, the label over an estimate from the material. */
function segmentStrength(leader: Leader, segment: Segment): Strength {
  const material = materialOf(leader, segment.material)
  const dry = dryStrength(segment, material.tensileStrength)
  const { value, low, high } = material.wetStrength
  return { dry, wet: sourced(dry.value * value, dry.low * low, dry.high * high, dry.source) }
}

function dryStrength(segment: Segment, tensile: Sourced): Sourced {
  if (segment.pullTest) return exactly(segment.pullTest.si, 'own pull test')
  // A label may stand 15 % either side of what the strand takes (sport-fishing line tests, common practice).
  if (segment.strength) return spread(segment.strength.si, 0.85, 1.15, 'as labelled')
  const area = (Math.PI / 4) * diameter_m(segment) ** 2
  return sourced(
    tensile.value * area,
    tensile.low * area,
    tensile.high * area,
    `estimate: ${tensile.source}`,
  )
}

/** Diameter (m) at which a strand of a material, of no known strength, is estimated to hold this much wet. */
export function diameterHolding_m(
  { tensileStrength, wetStrength }: Pick<Material, 'tensileStrength' | 'wetStrength'>,
  wet_N: number,
): number {
  return Math.sqrt((wet_N * 4) / (Math.PI * tensileStrength.value * wetStrength.value))
}

function exactly(value: number, source: string): Sourced {
  return sourced(value, value, value, source)
}

function spread(value: number, low: number, high: number, source: string): Sourced {
  return sourced(value, value * low, value * high, source)
}

function jointStrength(leader: Leader, segments: readonly Strength[], i: number): Strength {
  const { efficiency } = knot(jointAt(leader, i).knot)
  const [a, b] = [segments[i - 1] ?? segments[i], segments[i] ?? segments[i - 1]]
  if (!a || !b)
    throw new RangeError(`There is no joint ${i} in a leader of ${segments.length} segments.`)
  return {
    dry: knotted(weaker(a.dry, b.dry), efficiency),
    wet: knotted(weaker(a.wet, b.wet), efficiency),
  }
}

function weaker(a: Sourced, b: Sourced): Sourced {
  return a.value <= b.value ? a : b
}

function knotted(strand: Sourced, keeps: Sourced): Sourced {
  return sourced(
    strand.value * keeps.value,
    strand.low * keeps.low,
    strand.high * keeps.high,
    keeps.source,
  )
}

/** A leader breaks at its lowest wet strength; of equals, the one nearest the fly. */
function weakestOf(segments: readonly Strength[], joints: readonly Strength[]): StrengthPlace {
  const segment = weakestIn(segments)
  const joint = weakestIn(joints)
  const isJoint = joint.strength.wet.value <= segment.strength.wet.value
  return isJoint
    ? { kind: 'joint', ...joint, piece: weakerStrand(segments, joint.index) }
    : { kind: 'segment', ...segment, piece: segment.index }
}

function weakestIn(strengths: readonly Strength[]) {
  let index = 0
  let strength = strengths[0]
  if (!strength) throw new RangeError('A leader without segments has no strength.')
  for (const [i, other] of strengths.entries()) {
    if (other.wet.value > strength.wet.value) continue
    strength = other
    index = i
  }
  return { index, strength }
}

function weakerStrand(segments: readonly Strength[], joint: number): number {
  const below = Math.min(joint, segments.length - 1)
  const [a, b] = [segments[joint - 1], segments[below]]
  return a && b && a.wet.value < b.wet.value ? joint - 1 : below
}
