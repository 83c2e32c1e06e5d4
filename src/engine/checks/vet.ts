import type { CheckId, Figures, Finding } from './finding'
import { rank } from './finding'

/**
 * Whether a remedy does what it offers: its finding goes or lessens, and nothing severer comes in its
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
  const same = still.find((f) => isOneOfAKind(f.id) || isSamePlace(f, finding))
  if (!same || rank(same) < rank(finding)) return true
  // A turnover that still fails is no cure, however much nearer it is.
  if (finding.id === 'turnover') return false
  return rank(same) === rank(finding) && excess(same) < excess(finding) - 1e-9
}

function isWorse(found: Finding, finding: Finding, before: readonly Finding[]): boolean {
  if (found.id === 'stated-total' || rank(found) <= rank(finding)) return false
  return !before.some((b) => b.id === found.id && rank(b) >= rank(found))
}

function isSamePlace({ place: a }: Finding, { place: b }: Finding): boolean {
  return a.kind === b.kind && a.index === b.index
}

/** A leader has one turnover and one weakest place, wherever an edit moves it. */
function isOneOfAKind(id: CheckId): boolean {
  return id === 'turnover' || id === 'weakest-link' || id === 'tip-and-fish'
}

/** Figures of each check that a limit bounds: [measured, from below by, from above by]. */
const BOUNDED: Partial<Readonly<Record<CheckId, readonly (readonly [string, string, string])[]>>> =
  {
    'step-too-big': [
      ['ratio', 'ratio', ''],
      ['step_m', '', 'step_m'],
    ],
    'step-up': [['ratio', '', 'ratio']],
    'segment-length': [
      ['share', '', 'share'],
      ['length_m', 'length_m', ''],
    ],
    'butt-and-line': [['ratio', 'low', 'high']],
    shares: [['share', 'low', 'high']],
    'weakest-link': [['strength_N', 'strength_N', '']],
    'total-and-rod': [['rods', 'low', 'high']],
    'tippet-length': [['length_m', 'low_m', 'high_m']],
    'tip-and-fish': [['strength_N', 'strength_N', '']],
    'tippet-and-fly': [['x', 'lowX', 'highX']],
  }

/** How far a finding is past its limits, as a sum of shares of them. */
function excess({ id, measured, limit }: Finding): number {
  return (BOUNDED[id] ?? []).reduce(
    (sum, [name, low, high]) =>
      sum + past(limit, low, measured[name], -1) + past(limit, high, measured[name], 1),
    0,
  )
}

function past(limit: Figures, name: string, measured: Figures[string] | undefined, sign: 1 | -1) {
  const bound = limit[name]
  if (typeof bound !== 'number' || typeof measured !== 'number' || bound === 0) return 0
  return Math.max(0, (sign * (measured - bound)) / bound)
}
