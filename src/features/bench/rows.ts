import type { Evaluation } from '../../engine/evaluate'
import type { Finding, Place, Severity } from '../../engine/checks'
import type { Leader } from '../../engine/leader'
import type { Say } from '../../wording'
import { SEVERITIES } from '../../engine/checks'
import { PART_NAMES } from '../../wording'

/** The computed cells of one row of the table, in words. */
export interface RowFigures {
  readonly step: string
  readonly cut: string
  readonly strength: string
  readonly severity: Severity | undefined
}

export function rowFigures(
  { joints, cut, strength, checks }: Evaluation,
  i: number,
  say: Say,
): RowFigures {
  const joint = joints[i]
  return {
    step: joint?.diameterRatio == null ? '–' : say.percent(joint.diameterRatio),
    cut: say.length(cut[i]?.cut_m),
    strength: say.force(strength.segments[i]?.wet.value),
    severity: worstAt(checks.findings, i),
  }
}

/** The severest finding at a segment or at the joint above it. */
function worstAt(findings: readonly Finding[], i: number): Severity | undefined {
  const here = findings.filter(({ place }) => place.kind !== 'leader' && place.index === i)
  return SEVERITIES.findLast((severity) => here.some((f) => f.severity === severity))
}

/** Where a finding is, as a person would point at it. */
export function placeText(place: Place, leader: Leader): string {
  if (place.kind === 'leader') return 'The whole leader'
  const part = leader.segments[place.index]?.part
  if (place.kind === 'segment')
    return `Piece ${place.index + 1}, ${part ? PART_NAMES[part].toLowerCase() : ''}`
  if (place.index === 0) return 'Joint at the line'
  return place.index === leader.segments.length
    ? 'Knot at the fly'
    : `Joint of pieces ${place.index} and ${place.index + 1}`
}

/** Where a finding is, as a distance from the line (m), for the hairline. */
export function placeDistance(place: Place, { profile, joints }: Evaluation): number {
  if (place.kind === 'joint') return joints[place.index]?.distance_m ?? 0
  const segment = profile.segments[place.index]
  return place.kind === 'segment' && segment
    ? segment.start_m + segment.length_m / 2
    : profile.total_m / 2
}
