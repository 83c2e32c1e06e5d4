import type { Delivery } from '../delivery'
import type { Edit, Leader } from '../leader'
import type { Pieces } from '../pieces'
import type { Whole } from '../profile'
import type { LimitDefinition } from './limits'

export const SEVERITIES = ['note', 'caution', 'fault'] as const
export type Severity = (typeof SEVERITIES)[number]

/** Where: a segment or joint by index from the butt, or the whole leader. */
export interface Place {
  readonly kind: 'segment' | 'joint' | 'leader'
  readonly index: number
}

/** Figures by name in SI; a name that ends in _m, _N, _kg or _m_s says its unit, a ratio has none. */
export type Figures = Readonly<Record<string, number | string | undefined>>

/** The kind of edit that each remedy makes; the figures of its sentence are those of the edit. */
interface EditKinds {
  readonly 'insert-between': 'insert'
  readonly 'match-above': 'diameter'
  readonly 'set-diameter': 'diameter'
  readonly 'turn-round': 'turn-round'
  readonly 'change-knot': 'knot'
  readonly 'move-length': 'move-length'
  readonly 'smaller-fly': 'hook'
  readonly join: 'join'
  readonly lengthen: 'length'
  readonly shorten: 'length'
  readonly remove: 'remove'
  readonly relabel: 'label'
  readonly restate: 'stated-total'
  readonly restep: 'restep'
  readonly 'fit-butt': 'butt'
  readonly scale: 'scale'
}
export type RemedyId = keyof EditKinds
export type EditFor<Id extends RemedyId> = Extract<Edit, { kind: EditKinds[Id] }>
export type Remedy = {
  readonly [Id in RemedyId]: { readonly id: Id; readonly edit: EditFor<Id> }
}[RemedyId]

/** What one check finds; `variant` tells which of the check's sentences it is. */
export interface FindingOf<
  Id extends string,
  Variant extends string,
  Measured extends Figures,
  Limit extends Figures = Readonly<Record<never, never>>,
> {
  readonly id: Id
  readonly variant: Variant
  readonly severity: Severity
  readonly place: Place
  readonly measured: Readonly<Measured>
  readonly limit: Readonly<Limit>
  readonly source: string
  readonly remedies: readonly Remedy[]
}
type AnyFinding = FindingOf<string, string, Figures, Figures>

/** How the leader is delivered, and the remedies that further deliveries showed to help. */
export interface Flown {
  readonly delivery: Delivery
  readonly remedies: readonly Remedy[]
}

/** Finished results; a check reads them and computes no physics of its own. */
export interface CheckInput<LimitId extends string = never> extends Omit<Pieces, 'profile'> {
  readonly leader: Leader
  readonly profile: Whole
  /** Once it has been flown. */
  readonly flown?: Flown | undefined
  /** A value for each limit that the check reads; null where the rule does not apply to the purpose. */
  readonly limits: Readonly<Record<LimitId, number | null>>
}

type KeysOf<T> = T extends unknown ? keyof T & string : never

/** A measured figure and the limits that it must keep, by name. */
export interface Bound<Measured extends string = string, Limit extends string = string> {
  readonly measured: Measured
  readonly atLeast?: Limit
  readonly atMost?: Limit
}

/**
 * One rule. `Unchecked` lists why it may say nothing: never silence.
 * Everything else that is known of checks follows from these objects by way of `registry.ts`.
 */
export interface Check<
  F extends AnyFinding,
  Unchecked extends string = never,
  Limits extends Readonly<Record<string, LimitDefinition>> = Readonly<Record<never, never>>,
> {
  readonly id: F['id']
  /** Whether a leader may have one such finding at each place, or one in all, wherever an edit moves it. */
  readonly oneFor: 'place' | 'leader'
  /** By these a remedy is seen to lessen a finding; without any, only one that ends it helps. */
  readonly bounds: readonly Bound<KeysOf<F['measured']>, KeysOf<F['limit']>>[]
  readonly limits: Limits
  readonly run: (input: CheckInput<keyof Limits & string>) => readonly F[] | Unchecked
}

/** How severe a finding is, as a number: the more, the severer. */
export function rank({ severity }: { readonly severity: Severity }): number {
  return SEVERITIES.indexOf(severity)
}
