import type { Material, Spread } from '../materials'
import type { Caster } from '../tackle'
import type { Joint, Leader, Outfit, Part, Purpose, Segment } from './types'
import { BUILT_IN_MATERIALS, DIAMETER_SPREAD } from '../materials'
import {
  CASTERS,
  GREATEST_OVER_USUAL,
  GREATEST_SPEED_M_S,
  SPREAD_OF_CASTS,
  USUAL_SPEED,
} from '../tackle'
import { isMetricUnit } from '../units'

/** The diameter (m) that counts: as measured where a micrometer was put on it, else as labelled. */
export function diameter_m(segment: Segment): number {
  return (segment.measured ?? segment.diameter).si
}

/** How well that diameter is known: a micrometer reads true, labels read thin. */
export function diameterSpread({ measured }: Segment): Spread {
  return DIAMETER_SPREAD[measured ? 'measured' : 'label']
}

export function totalLength_m(leader: Leader): number {
  let total = 0
  for (const segment of leader.segments) total += segment.length.si
  return total
}

/** Whether more of its pieces than not have their length in metric units. */
export function isMetric({ segments }: Leader): boolean {
  const metric = segments.filter(({ length }) => isMetricUnit(length.unit))
  return metric.length > segments.length / 2
}

/** The joint at the butt end of segment i; i = number of segments is the knot at the fly. */
export function jointAt(leader: Leader, i: number): Joint {
  return leader.segments[i]?.joint ?? leader.tip.joint
}

/** A material of the leader by id; its own materials win over the built-in ones. */
export function materialOf(leader: Leader, id: string): Material {
  const hasId = (m: Material) => m.id === id
  const found = leader.materials.find(hasId) ?? BUILT_IN_MATERIALS.find(hasId)
  if (!found)
    throw new RangeError(`Material "${id}" is neither built in nor defined in this leader.`)
  return found
}

export function materialsOf(leader: Pick<Leader, 'materials'>): Material[] {
  const own = new Set(leader.materials.map((m) => m.id))
  return [...leader.materials, ...BUILT_IN_MATERIALS.filter((m) => !own.has(m.id))]
}

/** Line speed and loop height of the outfit: as measured, else of its caster, else of an ordinary one. */
export function casterOf({ ownCast, caster }: Outfit): Caster {
  return ownCast ?? CASTERS[caster ?? 'ordinary']
}

/** The greatest line speed (m/s) of that caster; one whose own cast was measured goes by it. */
export function greatestSpeed_m_s({ ownCast, caster }: Outfit): number {
  return ownCast
    ? ownCast.lineSpeed_m_s * GREATEST_OVER_USUAL
    : GREATEST_SPEED_M_S[caster ?? 'ordinary']
}

/** How that caster's casts differ from one another, and how well the usual speed is known. */
export function casterSpreads({ ownCast, caster }: Outfit) {
  return {
    ...SPREAD_OF_CASTS[caster ?? 'ordinary'],
    usualSpeed: USUAL_SPEED[ownCast ? 'filmed' : 'preset'],
  }
}

/** Which of the three shares a part counts towards: a sighter is middle, a bite or shock piece is tippet. */
export function shareOf(part: Part): 'butt' | 'mid' | 'tippet' {
  if (part === 'butt') return 'butt'
  return part === 'mid-section' || part === 'sighter' ? 'mid' : 'tippet'
}

/** Index of the tippet nearest the fly, above any bite or shock piece; -1 where no piece is tippet. */
export function tippetIndex(leader: Leader): number {
  return leader.segments.map((s) => s.part).lastIndexOf('tippet')
}

/** Purposes that a bite or shock piece does not change: their rules allow for it, or are for something else. */
const OWN_RULES: readonly Purpose[] = [
  'salt-water',
  'sinking-line',
  'tight-line-nymph',
  'bite-tippet',
  'teaching',
]

/** Whether a piece stands between teeth, or gill plates, and the tippet. */
export function isShock({ part }: Pick<Segment, 'part'>): boolean {
  return part === 'shock' || part === 'bite'
}

/** By whose limits a leader is judged: its parts set the rules where its purpose knows nothing of them. */
export function rulingPurpose({ purpose, segments }: Leader): Purpose {
  return segments.some(isShock) && !OWN_RULES.includes(purpose) ? 'bite-tippet' : purpose
}
