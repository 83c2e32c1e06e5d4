/** What every rule's test asks: what it says of a leader, and whether what it offers helps. */
import type { CheckId, Figures, Finding, LimitOverrides, Remedy } from '../../../src/engine/checks'
import type { Leader } from '../../../src/engine/leader'
import { SEVERITIES } from '../../../src/engine/checks'
import { evaluate } from '../../../src/engine/evaluate'
import { applyEdit } from '../../../src/engine/leader'

/** A finding whose figures are looked up by name. */
type Found = Finding & { readonly measured: Figures; readonly limit: Figures }

export function reportOf(leader: Leader, own: LimitOverrides = {}) {
  return evaluate(leader, own).checks
}

export function findingsOf(leader: Leader, id: CheckId, own: LimitOverrides = {}): Found[] {
  return reportOf(leader, own).findings.filter((f) => f.id === id)
}

export function onlyFinding(leader: Leader, id: CheckId, own: LimitOverrides = {}): Found {
  const found = findingsOf(leader, id, own)
  const [first] = found
  if (!first || found.length > 1) throw new Error(`${found.length} findings of ${id}`)
  return first
}

export function whyNotChecked(leader: Leader, id: CheckId): string | undefined {
  return reportOf(leader).notChecked.find((n) => n.id === id)?.because
}

export const rank = (f: Finding) => SEVERITIES.indexOf(f.severity)

/** How far a finding is beyond its limit: a number that a remedy must lessen. */
function excess({ id, variant, measured, limit }: Found): number {
  const m = (name: string) => Number(measured[name])
  const l = (name: string) => Number(limit[name])
  switch (id) {
    case 'step-too-big':
      return variant === 'ratio' ? l('ratio') - m('ratio') : m('step_m') - l('step_m')
    case 'step-up':
      return m('ratio') - l('ratio')
    case 'segment-length':
      return variant === 'long' ? m('share') - l('share') : 1 - m('length_m') / l('length_m')
    case 'butt-and-line':
      return variant === 'thin' ? l('low') - m('ratio') : m('ratio') - l('high')
    case 'shares':
      return variant.endsWith('small') ? l('low') - m('share') : m('share') - l('high')
    case 'total-and-rod':
      return variant === 'short' ? l('low') - m('rods') : m('rods') - l('high')
    case 'tippet-length':
      return variant === 'short' ? l('low_m') - m('length_m') : m('length_m') - l('high_m')
    case 'tippet-and-fly':
      return variant === 'stout' ? l('lowX') - m('x') : m('x') - l('highX')
    case 'tip-and-fish':
      return 1 - m('strength_N') / l('strength_N')
    case 'weakest-link':
      return 1 - m('strength_N') / l('strength_N')
    case 'turnover':
      return l('roomRecoilForgiven') - m('roomRecoilForgiven')
    case 'record-rules':
      return Math.abs(m('length_m') - l('length_m'))
    default:
      return 1
  }
}

const isSame = (a: Finding) => (b: Finding) =>
  b.id === a.id && b.place.kind === a.place.kind && b.place.index === a.place.index

/** Findings of a rule that are one: a whole leader has one turnover, one weakest link, one tippet. */
const ONE_OF_A_KIND: readonly CheckId[] = ['weakest-link', 'turnover', 'tip-and-fish']

/**
 * What is wrong with an offer, or undefined: it must help its finding and bring none as severe. That a
 * total is then no longer the one stated is no objection: any change of length departs from it.
 */
function objectionTo(
  leader: Leader,
  finding: Finding,
  remedy: Remedy,
  own: LimitOverrides = {},
): string | undefined {
  const before = reportOf(leader, own).findings
  const after = reportOf(applyEdit(leader, remedy.edit), own).findings
  if (!isHelped(before, after, finding)) return 'does not help'
  const brought = after.find(
    (f) => f.id !== 'stated-total' && rank(f) >= rank(finding) && isNew(before, f),
  )
  return brought && `brings ${brought.severity} ${brought.id} ${brought.variant}`
}

function isHelped(
  before: readonly Finding[],
  after: readonly Finding[],
  finding: Finding,
): boolean {
  const ofKind = (list: readonly Finding[]) => list.filter((f) => f.id === finding.id)
  if (ofKind(after).length < ofKind(before).length) return true
  const same = ONE_OF_A_KIND.includes(finding.id) ? ofKind(after)[0] : after.find(isSame(finding))
  if (!same || rank(same) < rank(finding)) return true
  if (same.variant !== finding.variant) return rank(same) === rank(finding)
  return excess(same) < excess(finding) - 1e-9
}

/** Not there before at that severity; counted by rule, since an edit may move what was there. */
function isNew(before: readonly Finding[], f: Finding): boolean {
  return !before.some((b) => b.id === f.id && rank(b) >= rank(f))
}

/** Every offer of every finding of a leader that does not do what it says. */
export function badOffers(leader: Leader, own: LimitOverrides = {}): string[] {
  return reportOf(leader, own).findings.flatMap((finding) =>
    finding.remedies.flatMap((remedy) => {
      const objection = objectionTo(leader, finding, remedy, own)
      return objection
        ? [`${finding.severity} ${finding.id} ${finding.variant}, ${remedy.id}: ${objection}`]
        : []
    }),
  )
}

/** What a rule still finds after each of its offers: nothing, where an offer settles the matter. */
export function leftAfterOffers(leader: Leader, id: CheckId, own: LimitOverrides = {}): Finding[] {
  return findingsOf(leader, id, own)
    .flatMap((finding) => finding.remedies)
    .flatMap(({ edit }) => findingsOf(applyEdit(leader, edit), id, own))
}
