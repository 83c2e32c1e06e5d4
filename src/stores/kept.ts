/** Items as what they are: records read by their kind, and steps on them that can be taken back. */
import { computed, shallowRef } from 'vue'
import type { Kind, KindResult, KeptEvent } from '../documents/kind'
import type { StoredItem } from '../storage'
import type { Draft, Items } from './items'
import { problemText } from '../documents/problem'
import { newId, now } from './items'

/** An item with its value, of whatever kind. */
export interface Item {
  readonly kind: Kind<unknown>
  readonly id: string
  readonly value: unknown
}

/** What was read of a record: once, as long as neither file nor events are other ones. */
const READ = new WeakMap<object, KindResult<unknown>>()

function resultOf<T>(kind: Kind<T>, record: StoredItem): KindResult<T> {
  const text = record.events ?? record.file
  if (typeof text !== 'object' || text === null) return kind.read(text)
  const known = READ.get(text)
  if (known) return known as KindResult<T>
  const read = readRecord(kind, record)
  READ.set(text, read)
  return read
}

/** What the events come to; where they come to nothing, the file as it was written last. */
function readRecord<T>(kind: Kind<T>, { file, events }: StoredItem): KindResult<T> {
  const folded = events && kind.events?.fold(events as readonly KeptEvent[])
  return folded?.ok ? folded : kind.read(file)
}

const VALUES = new WeakMap<ReadonlyMap<string, StoredItem>, ReadonlyMap<string, unknown>>()

/** All items of a kind that read, by their ids. */
export function valuesOf<T>(items: Items, kind: Kind<T>): ReadonlyMap<string, T> {
  const records = items.records(kind.id)
  const known = VALUES.get(records)
  if (known) return known as ReadonlyMap<string, T>
  const values = new Map<string, T>()
  for (const [id, record] of records) {
    const read = resultOf(kind, record)
    if (read.ok) values.set(id, read.value)
  }
  VALUES.set(records, values)
  return values
}

/** Those that this version cannot read; they are left as they lie. */
export function unreadableOf(items: Items, kinds: readonly Kind<unknown>[]): StoredItem[] {
  return kinds.flatMap((kind) =>
    [...items.records(kind.id).values()].filter((record) => !resultOf(kind, record).ok),
  )
}

/** The one item of a kind of which there is only one; undefined where there is none that reads. */
export function theOne<T>(items: Items, kind: Kind<T>): { id: string; value: T } | undefined {
  const [first] = valuesOf(items, kind)
  return first && { id: first[0], value: first[1] }
}

/** Puts another value in the place of the only one; one that does not read stays beside it. */
export function putTheOne<T>(
  items: Items,
  kind: Kind<T>,
  next: (before: T | undefined) => T,
): void {
  keepOrSay(items, () => {
    const there = theOne(items, kind)
    const free = items.records(kind.id).has(kind.id) ? newId() : kind.id
    return [draftOf(items, { kind, id: there?.id ?? free, value: next(there?.value) })]
  })
}

/** Does a step; what it refuses is said, and nothing is changed. */
export function keepOrSay(items: Items, step: () => readonly Draft[]): void {
  try {
    void items.act(step)
  } catch (error) {
    if (!(error instanceof Unkeepable)) throw error
    items.problem.value = error.message
  }
}

/** The text of a value, with what has happened to it where its kind is kept as events. */
export function draftOf(items: Items, { kind, id, value }: Item): Draft {
  const file = kind.write(value)
  mustReadBack(kind, file)
  if (!kind.events) {
    READ.set(file, { ok: true, value })
    return { kind: kind.id, id, file }
  }
  const record = items.records(kind.id).get(id)
  const before = valuesOf(items, kind).get(id)
  const past = pastOf(kind, id, record, before)
  const events = [...past, ...kind.events.between(before, value, stamp)]
  READ.set(events, { ok: true, value })
  return { kind: kind.id, id, file, events }
}

/** Refused before it is kept: what is wrong, where, and what would be accepted. */
class Unkeepable extends Error {}

function mustReadBack(kind: Kind<unknown>, file: unknown): void {
  const read = kind.read(file)
  if (!read.ok) throw new Unkeepable(`Not kept. ${read.problems.map(problemText).join(' ')}`)
}

const stamp = () => ({ id: newId(), at: now() })

function pastOf(
  { events: rules }: Kind<unknown>,
  id: string,
  record: StoredItem | undefined,
  before: unknown,
): readonly unknown[] {
  if (record?.events) return record.events
  return before === undefined ? [] : (rules?.begin(before, id) ?? [])
}

/** Some kinds taken together as one state, on which steps are done. */
export interface Selection<S> {
  readonly state: () => S
  readonly itemsOf: (state: S) => readonly Item[]
  /** What a refused step says of itself; undefined for an error of the program. */
  readonly refusal: (error: unknown) => string | undefined
}

/** What a step changed: every touched item as it was and as it became; undefined where there was none. */
interface Done {
  readonly label: string
  before: Values
  after: Values
}
type Values = ReadonlyMap<string, { readonly item: Item; readonly value: unknown }>

const CHANGED_ELSEWHERE =
  'Another tab has changed this since, so it was not taken back. What is shown is what is kept.'

class Changed extends Error {}

/** Steps on a selection: kept, undone and done again. */
export function stepsOn<S>(items: Items, { state, itemsOf, refusal }: Selection<S>) {
  const notice = shallowRef<string>()
  const past = shallowRef<readonly Done[]>([])
  const future = shallowRef<readonly Done[]>([])

  const byKey = (of: readonly Item[]) =>
    new Map(of.map((item) => [`${item.kind.id} ${item.id}`, item]))

  /** Does a step and keeps it; false, with a notice, where the step refuses. */
  function act(label: string, step: (state: S) => S): boolean {
    const done: Done = { label, before: new Map(), after: new Map() }
    if (!attempt(() => differenceTo(step(state()), done), done)) return false
    if (done.after.size === 0) return true
    past.value = [...past.value, done]
    future.value = []
    return true
  }

  /** What leads to the next state; the step remembers what it has changed, also when it is done anew. */
  function differenceTo(next: S, done: Done): Draft[] {
    const [before, after] = [byKey(itemsOf(state())), byKey(itemsOf(next))]
    const keys = [...new Set([...before.keys(), ...after.keys()])]
    const changed = keys.filter((key) => before.get(key)?.value !== after.get(key)?.value)
    const valued = (side: ReadonlyMap<string, Item>): Values =>
      new Map(
        changed.map((key) => {
          const item = (side.get(key) ?? before.get(key) ?? after.get(key)) as Item
          return [key, { item, value: side.get(key)?.value }]
        }),
      )
    done.before = valued(before)
    done.after = valued(after)
    return draftsOf(done.after)
  }

  const draftsOf = (values: Values): Draft[] =>
    [...values.values()].map(({ item: { kind, id }, value }) =>
      value === undefined
        ? { kind: kind.id, id, file: undefined }
        : draftOf(items, { kind, id, value }),
    )

  /** Tries a step now, and tells where it refuses, be it now or when it is done anew. */
  function attempt(step: () => Draft[], done: Done): boolean {
    notice.value = undefined
    try {
      void items.act(step).then((outcome) => {
        if (outcome.state !== 'refused') return
        tellRefusal(outcome.error)
        past.value = past.value.filter((each) => each !== done)
        future.value = future.value.filter((each) => each !== done)
      })
      return true
    } catch (error) {
      tellRefusal(error)
      return false
    }
  }

  function tellRefusal(error: unknown): void {
    const said =
      error instanceof Changed
        ? CHANGED_ELSEWHERE
        : error instanceof Unkeepable
          ? error.message
          : refusal(error)
    if (said === undefined) throw error
    notice.value = said
  }

  function undo(): void {
    const done = past.value.at(-1)
    if (!done) return
    if (replace(done, 'after', 'before')) future.value = [...future.value, done]
    past.value = past.value.filter((each) => each !== done)
  }

  function redo(): void {
    const done = future.value.at(-1)
    if (!done || !replace(done, 'before', 'after')) return
    future.value = future.value.slice(0, -1)
    past.value = [...past.value, done]
  }

  /** Puts items in place of others, if those are still there as they were. */
  function replace(done: Done, from: 'before' | 'after', to: 'before' | 'after'): boolean {
    return attempt(() => {
      const there = byKey(itemsOf(state()))
      const isThere = [...done[from]].every(([key, { item, value }]) =>
        isSame(item.kind, there.get(key)?.value, value),
      )
      if (!isThere) throw new Changed()
      return draftsOf(done[to])
    }, done)
  }

  return {
    notice,
    undoLabel: computed(() => past.value.at(-1)?.label),
    redoLabel: computed(() => future.value.at(-1)?.label),
    act,
    undo,
    redo,
  }
}

/** Alike as they would be written: after a reload the same item is another object. */
function isSame(kind: Kind<unknown>, a: unknown, b: unknown): boolean {
  if (a === b) return true
  if (a === undefined || b === undefined) return false
  return JSON.stringify(kind.write(a)) === JSON.stringify(kind.write(b))
}
