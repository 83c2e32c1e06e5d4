import type { CutPiece } from '../tying'
import type { SimulatedTurnover, Turnover } from '../cast'
import type { Edit, Leader } from '../leader'
import type { JointProfile, Profile } from '../profile'
import type { LeaderStrength } from '../strength'
import type { Limits } from './limits'

export const SEVERITIES = ['note', 'caution', 'fault'] as const
export type Severity = (typeof SEVERITIES)[number]

export const CHECK_IDS = [
  'step-too-big',
  'step-up',
  'same-neighbours',
  'knot-unsuited',
  'segment-length',
  'butt-and-line',
  'shares',
  'weakest-link',
  'slipping-materials',
  'total-and-rod',
  'tippet-length',
  'tip-and-fish',
  'tippet-and-fly',
  'turnover',
  'label',
  'stated-total',
  'record-rules',
] as const
export type CheckId = (typeof CHECK_IDS)[number]

/** Where: a segment or joint by index from the butt, or the whole leader. */
export interface Place {
  readonly kind: 'segment' | 'joint' | 'leader'
  readonly index: number
}

/** Figures by name in SI; a name that ends in _m, _N, _kg or _m_s says its unit, a ratio has none. */
export type Figures = Readonly<Record<string, number | string>>

export interface Remedy {
  /** Names the sentence that offers it. */
  readonly id: string
  readonly figures: Figures
  readonly edit: Edit
}

export interface Finding {
  readonly id: CheckId
  /** Which of the check's sentences this is. */
  readonly variant: string
  readonly severity: Severity
  readonly place: Place
  readonly measured: Figures
  readonly limit: Figures
  readonly source: string
  readonly remedies: readonly Remedy[]
}

/** A simulated turnover and the remedies that further simulated casts showed to cure. */
export interface Simulation {
  readonly turnover: SimulatedTurnover
  readonly cures: readonly Remedy[]
}

/** Finished results; a check reads them and computes no physics of its own. */
export interface CheckInput {
  readonly leader: Leader
  readonly profile: Profile
  readonly joints: readonly JointProfile[]
  readonly strength: LeaderStrength
  readonly cut: readonly CutPiece[]
  readonly turnover: Turnover | 'no-fly' | 'no-line'
  /** What a simulated cast said, once it has; it takes the place of the estimate. */
  readonly simulated?: Simulation | undefined
  readonly limits: Limits
}

/** Why a check said nothing: never silence. */
export type NotCheckedReason =
  | 'no-line'
  | 'no-rod'
  | 'no-fish'
  | 'no-fly'
  | 'no-tippet'
  | 'no-label'
  | 'no-stated-total'
  | 'not-for-this-purpose'
  | 'not-for-this-fly'
  | 'no-record-purpose'

export type Outcome = readonly Finding[] | NotCheckedReason

export interface Check {
  readonly id: CheckId
  readonly run: (input: CheckInput) => Outcome
}

/** How severe a finding is, as a number: the more, the severer. */
export function rank({ severity }: Finding): number {
  return SEVERITIES.indexOf(severity)
}
