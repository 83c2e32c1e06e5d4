import type { Check, CheckId, CheckInput, Finding, NotCheckedReason } from './finding'
import { rank } from './finding'
import { buttAndLine } from './buttAndLine'
import { knotUnsuited } from './knotUnsuited'
import { label } from './label'
import { recordRules } from './recordRules'
import { sameNeighbours } from './sameNeighbours'
import { segmentLength } from './segmentLength'
import { shares } from './shares'
import { slippingMaterials } from './slippingMaterials'
import { statedTotal } from './statedTotal'
import { stepTooBig } from './stepTooBig'
import { stepUp } from './stepUp'
import { tipAndFish } from './tipAndFish'
import { tippetAndFly } from './tippetAndFly'
import { tippetLength } from './tippetLength'
import { totalAndRod } from './totalAndRod'
import { turnover } from './turnover'
import { weakestLink } from './weakestLink'

const CHECKS: readonly Check[] = [
  stepTooBig,
  stepUp,
  sameNeighbours,
  knotUnsuited,
  segmentLength,
  buttAndLine,
  shares,
  weakestLink,
  slippingMaterials,
  totalAndRod,
  tippetLength,
  tipAndFish,
  tippetAndFly,
  turnover,
  label,
  statedTotal,
  recordRules,
]

export interface CheckReport {
  /** Severest first, then from butt to fly. */
  readonly findings: readonly Finding[]
  readonly passed: readonly CheckId[]
  readonly notChecked: readonly { readonly id: CheckId; readonly because: NotCheckedReason }[]
}

/** Runs every check over finished results. */
export function runChecks(input: CheckInput): CheckReport {
  const findings: Finding[] = []
  const passed: CheckId[] = []
  const notChecked: { id: CheckId; because: NotCheckedReason }[] = []
  for (const check of CHECKS) {
    const outcome = check.run(input)
    if (typeof outcome === 'string') notChecked.push({ id: check.id, because: outcome })
    else if (outcome.length === 0) passed.push(check.id)
    else findings.push(...outcome)
  }
  findings.sort((a, b) => rank(b) - rank(a) || a.place.index - b.place.index)
  return { findings, passed, notChecked }
}
