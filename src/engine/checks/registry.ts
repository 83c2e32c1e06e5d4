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

/** Every check, once: ids, findings, limits and bounds are all read from here. */
export const CHECKS = [
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
] as const

type AnyCheck = (typeof CHECKS)[number]
type Outcome = ReturnType<AnyCheck['run']>
type KeysOf<T> = T extends unknown ? keyof T : never

/** What any check finds: `id`, for most checks with `variant`, tells which figures there are. */
export type Finding = Exclude<Outcome, string>[number]
export type CheckId = AnyCheck['id']
/** Why a check said nothing. */
export type NotCheckedReason = Extract<Outcome, string>
export type LimitId = KeysOf<AnyCheck['limits']>

export const CHECK_IDS: readonly CheckId[] = CHECKS.map(({ id }) => id)
