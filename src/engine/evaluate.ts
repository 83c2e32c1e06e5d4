/** The engine's door: one leader in, everything that is computed about it out. Pure. */
import type { Turnover } from './cast'
import type { CheckReport, Finding, Flown, LimitOverrides, Remedy } from './checks'
import type { Leader } from './leader'
import type { Pieces } from './pieces'
import type { Whole } from './profile'
import type { LineFigures } from './tackle'
import { estimateTurnover } from './cast'
import { isHelpful, limitsFor, runChecks } from './checks'
import { applyEdit, rulingPurpose } from './leader'
import { piecesOf } from './pieces'
import { lineFigures } from './tackle'

export interface Evaluation extends Omit<Pieces, 'profile'> {
  readonly profile: Whole
  readonly turnover: Turnover | 'no-fly' | 'no-line'
  readonly line: LineFigures | null
  readonly checks: CheckReport
}

/**
 * Remedies that would not help, or that would bring something as severe, are left out; how a leader then goes over is
 * known only once it is flown.
 * @param own the user's limits in place of ours.
 * @param flown how this very leader is delivered, once that is known.
 */
export function evaluate(leader: Leader, own?: LimitOverrides, flown?: Flown): Evaluation {
  const results = resultsOf(leader, own, flown)
  const { findings } = results.checks
  const helps = (finding: Finding, { edit }: Remedy) =>
    isHelpful(finding, findings, resultsOf(applyEdit(leader, edit), own).checks.findings)
  // What mends a delivery was found by flying it.
  const vetted = findings.map((finding) =>
    finding.id === 'turnover' ? finding : vettedWhenAsked(finding, helps),
  )
  return { ...results, checks: { ...results.checks, findings: vetted } }
}

/** Each remedy takes an evaluation of its own, so it is tried only when the remedies are looked at. */
function vettedWhenAsked(
  finding: Finding,
  helps: (finding: Finding, remedy: Remedy) => boolean,
): Finding {
  let kept: readonly Remedy[] | undefined
  return {
    ...finding,
    get remedies() {
      return (kept ??= firstOfEach(finding.remedies, (remedy) => helps(finding, remedy)))
    },
  }
}

/** Of remedies of one kind, offered from mild to drastic, the first that helps. */
function firstOfEach(
  remedies: readonly Remedy[],
  helps: (remedy: Remedy) => boolean,
): readonly Remedy[] {
  const found = new Set<string>()
  return remedies.filter((remedy) => {
    if (found.has(remedy.id) || !helps(remedy)) return false
    found.add(remedy.id)
    return true
  })
}

function resultsOf(leader: Leader, own: LimitOverrides | undefined, flown?: Flown): Evaluation {
  const pieces = piecesOf(leader)
  const results = { ...pieces, turnover: estimateTurnover(leader, pieces.profile) }
  const purpose = rulingPurpose(leader)
  const checks = runChecks({
    leader: purpose === leader.purpose ? leader : { ...leader, purpose },
    ...results,
    flown,
    limits: limitsFor(purpose, own),
  })
  return { ...results, line: leader.outfit.line ? lineFigures(leader.outfit.line) : null, checks }
}
