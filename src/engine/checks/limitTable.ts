import type { Purpose } from '../leader'
import type { LimitDefinition } from './limits'
import type { LimitId } from './registry'
import { sourceOf, valueFor } from './limits'
import { CHECKS } from './registry'

/** Every limit of every check, in the order of the checks. */
export const LIMIT_DEFINITIONS = Object.fromEntries(
  CHECKS.flatMap(({ limits }) => Object.entries<LimitDefinition>(limits)),
) as Readonly<Record<LimitId, LimitDefinition>>
export const LIMIT_IDS = Object.keys(LIMIT_DEFINITIONS) as LimitId[]

/** A value for each limit; null where the rule does not apply to the purpose. */
export type Limits = Readonly<Record<LimitId, number | null>>
export type LimitOverrides = Partial<Readonly<Record<LimitId, number>>>

const NO_OVERRIDES: LimitOverrides = {}
/** Worked out once for each set of overrides, which are replaced and never changed. */
const WORKED_OUT = new WeakMap<LimitOverrides, Map<Purpose, Limits>>()

/** The limits for a purpose, with the user's own in place of ours. */
export function limitsFor(purpose: Purpose, own: LimitOverrides = NO_OVERRIDES): Limits {
  const byPurpose = WORKED_OUT.get(own) ?? new Map<Purpose, Limits>()
  const known = byPurpose.get(purpose)
  if (known) return known
  const limits: Partial<Record<LimitId, number | null>> = {}
  for (const id of LIMIT_IDS) limits[id] = own[id] ?? limitFor(id, purpose)
  WORKED_OUT.set(own, byPurpose.set(purpose, limits as Limits))
  return limits as Limits
}

export function limitFor(id: LimitId, purpose: Purpose): number | null {
  return valueFor(LIMIT_DEFINITIONS[id], purpose)
}

export function limitSource(id: LimitId, limits: Limits, purpose: Purpose): string {
  return sourceOf(LIMIT_DEFINITIONS, id, { limits, leader: { purpose } })
}
