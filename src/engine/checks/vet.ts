import type { Bound, Figures } from './finding'
import type { Finding } from './registry'
import { rank } from './finding'
import { CHECKS } from './registry'

const RULES = new Map(CHECKS.map(({ id, oneFor, bounds }) => [id, { oneFor, bounds }]))

/**
 * Whether a remedy does what it offers: its finding goes or lessens, and nothing as severe comes in its
 * place. A total that no longer is the stated one is no objection: any change of length departs from it.
 * @param before findings of the leader as it is
 * @param after findings of the leader with the remedy applied
 */
export function isHelpful(
  finding: Finding,
  before: readonly Finding[],
  after: readonly Finding[],
): boolean {
  return lessens(finding, before, after) && !after.some((f) => isWorse(f, finding, before))
}

function lessens(finding: Finding, before: readonly Finding[], after: readonly Finding[]): boolean {
  const still = after.filter((f) => f.id === finding.id)
  if (still.length < before.filter((f) => f.id === finding.id).length) return true
  const isOne = RULES.get(finding.id)?.oneFor === 'leader'
  const same = still.find((f) => isOne || isSamePlace(f, finding))
  if (!same || rank(same) < rank(finding)) return true
  return rank(same) === rank(finding) && excess(same) < excess(finding) - 1e-9
}

function isWorse(found: Finding, finding: Finding, before: readonly Finding[]): boolean {
  if (found.id === 'stated-total' || rank(found) < rank(finding)) return false
  return !before.some((b) => b.id === found.id && rank(b) >= rank(found))
}

function isSamePlace({ place: a }: Finding, { place: b }: Finding): boolean {
  return a.kind === b.kind && a.index === b.index
}

/** How far a finding is past its limits, as a sum of shares of them. */
function excess(finding: Finding): number {
  const bounds: readonly Bound[] = RULES.get(finding.id)?.bounds ?? []
  const [measured, limit]: [Figures, Figures] = [finding.measured, finding.limit]
  return bounds.reduce(
    (sum, { measured: name, atLeast, atMost }) =>
      sum + past(limit, atLeast, measured[name], -1) + past(limit, atMost, measured[name], 1),
    0,
  )
}

function past(limit: Figures, name: string | undefined, measured: Figures[string], sign: 1 | -1) {
  const bound = name === undefined ? undefined : limit[name]
  if (typeof bound !== 'number' || typeof measured !== 'number' || bound === 0) return 0
  return Math.max(0, (sign * (measured - bound)) / bound)
}
