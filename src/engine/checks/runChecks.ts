import type { CheckInput } from './finding'
import type { CheckId, Finding, LimitId, NotCheckedReason } from './registry'
import { rank } from './finding'
import { CHECKS } from './registry'

export interface CheckReport {
  /** Severest first, then from butt to fly. */
  readonly findings: readonly Finding[]
  readonly passed: readonly CheckId[]
  readonly notChecked: readonly { readonly id: CheckId; readonly because: NotCheckedReason }[]
}

/** Runs every check over finished results. */
export function runChecks(input: CheckInput<LimitId>): CheckReport {
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
