import type { Problem } from './problem'

/** What people make and keep. */
export const KIND_IDS = [
  ...(['formula', 'spool', 'batch', 'stock', 'lesson'] as const),
  ...(['fly', 'reel', 'brief', 'inUse'] as const),
]
export type KindId = (typeof KIND_IDS)[number]

export type KindResult<T> =
  | { readonly ok: true; readonly value: T }
  | { readonly ok: false; readonly problems: readonly Problem[] }

/** All that is known of one kind of kept thing. */
export interface Kind<T> {
  readonly id: KindId
  readonly version: number
  /** Reads a stored, exported or backed-up file of this or any older version; every problem at once. Never throws. */
  read(json: unknown): KindResult<T>
  /** The file of the value: plain JSON, unknown fields with it. */
  write(value: T): Readonly<Record<string, unknown>>
  /** The name people know it by, for lists and messages; missing where it has none. */
  nameOf?(value: T): string
  /** The same under another id and, where people see a name, under another name. */
  copied(value: T, id: string, named: (name: string) => string): T
  /** Kept as events rather than as a value; missing for kinds kept as values. */
  readonly events?: EventRules<T>
}

/** One thing that happened to something kept, for ever the same once it is written. */
export interface KeptEvent {
  readonly id: string
  /** What happened: bought, cut, put, taken, corrected, undone, … */
  readonly kind: string
  /** ISO 8601 time; empty for what happened before events were kept. */
  readonly at: string
  readonly [field: string]: unknown
}

/** Makes the id and the time of a new event; the pure folders have neither. */
export type Stamp = () => { readonly id: string; readonly at: string }

export interface EventRules<T> {
  /** The history of a value that was kept without one; its ids follow from the item's, so that two reads agree. */
  begin(value: T, itemId: string): readonly KeptEvent[]
  /** The events that lead from one value to the next; before is undefined where it is new. */
  between(before: T | undefined, after: T, stamp: Stamp): readonly KeptEvent[]
  /**
   * The value that the events come to, in whatever order they are handed in: an event counts once by its id, and
   * one that an event `undone` names (in its field `event`) counts for nothing. Never throws.
   */
  fold(events: readonly KeptEvent[]): KindResult<T>
}
