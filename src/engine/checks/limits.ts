import type { Leader, Purpose } from '../leader'
import { SHORTEST_PIECE_M } from '../leader'

/** What a limit measures, for its field and its unit. */
export type LimitKind = 'ratio' | 'diameter' | 'length' | 'share' | 'rods' | 'factor'

/**
 * A limit differs by purpose because practice does: a leader that is meant to land slack or to be fished on
 * a tight line is right for what it is.
 */
export interface LimitDefinition {
  readonly kind: LimitKind
  /** Of the usual value; a purpose's own number is an estimate. */
  readonly source: string
  /** Where no purpose of its own is named. null: the rule does not apply. */
  readonly usual: number | null
  readonly byPurpose: Partial<Readonly<Record<Purpose, number | null>>>
}

/** Said of a limit that is a purpose's own: practice tells the direction, the number is ours. */
const ADAPTED = '; adapted to this purpose: estimate'

export function define(
  kind: LimitKind,
  usual: number | null,
  source: string,
  byPurpose: LimitDefinition['byPurpose'] = {},
): LimitDefinition {
  return { kind, usual, source, byPurpose }
}

/** Read by more than one check. */
export const SHORTEST_PIECE = define(
  'length',
  SHORTEST_PIECE_M,
  'each transition at least 6 in (common practice)',
)

export function valueFor({ usual, byPurpose }: LimitDefinition, purpose: Purpose): number | null {
  const own = byPurpose[purpose]
  return own === undefined ? usual : own
}

/** Where a limit comes from: the user's own word wins and says so; so does a number adapted to a purpose. */
export function sourceOf<Id extends string>(
  definitions: Readonly<Record<Id, LimitDefinition>>,
  id: Id,
  input: { readonly leader: Pick<Leader, 'purpose'>; readonly limits: Record<Id, number | null> },
): string {
  const { purpose } = input.leader
  if (input.limits[id] !== valueFor(definitions[id], purpose)) return 'your own limit'
  const { source, byPurpose } = definitions[id]
  return byPurpose[purpose] === undefined ? source : source + ADAPTED
}
