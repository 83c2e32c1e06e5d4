import type { Evaluation } from '../../engine/evaluate'
import type { Finding, Place, Severity } from '../../engine/checks'
import type { Leader, Segment } from '../../engine/leader'
import type { Say } from '../../wording'
import { SEVERITIES } from '../../engine/checks'
import { PART_NAMES } from '../../wording'

/** One row of the table, its computed cells in words. */
export interface Row {
  readonly segment: Segment
  readonly row: number
  readonly measured: string
  readonly step: string
  readonly cut: string
  readonly holds: string
  readonly severity: Severity | undefined
}

/** Of a row that reads as before the same object comes back, so that it need not be drawn anew. */
export function rowsOf(
  { pieces, checks }: Evaluation,
  say: Say,
  before: readonly Row[] = [],
): readonly Row[] {
  return pieces.map(({ segment, cut, strength, above }, i) => {
    const row: Row = {
      segment,
      row: i,
      measured: segment.measured ? say.diameter(segment.measured.si) : '',
      step: above.diameterRatio === null ? '–' : say.percent(above.diameterRatio),
      cut: say.length(cut.cut_m),
      holds: say.force(strength.wet.value),
      severity: worstAt(checks.findings, i),
    }
    const old = before[i]
    return old && isSame(old, row) ? old : row
  })
}

const isSame = (a: Row, b: Row): boolean =>
  (Object.keys(b) as (keyof Row)[]).every((key) => a[key] === b[key])

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
export function placeDistance(place: Place, { profile, pieces }: Evaluation): number {
  const segment = pieces[place.index]?.profile
  if (place.kind === 'joint') return segment?.start_m ?? profile.total_m
  return place.kind === 'segment' && segment
    ? segment.start_m + segment.length_m / 2
    : profile.total_m / 2
}
