import type { ItemKey, StoredItem, Write } from './database'
import { recordOf } from './record'
import { nextRevision } from './revision'
import { keepVersion } from './versions'

/** One item put in place of what the writer has seen, or taken out where it has no file. */
export interface ItemChange extends ItemKey {
  readonly file: unknown
  readonly events?: readonly unknown[] | undefined
  readonly savedAt: string
  /** The revision that the writer has seen; undefined where it has seen none. */
  readonly basedOn: number | undefined
  /** Where the text comes from, for one that was not here before. */
  readonly origin?: Origin | undefined
}

export type Origin = Pick<StoredItem, 'parent' | 'common' | 'copiedFrom'>

/** An item that another tab has changed since; `theirs` is undefined where it was removed. */
export interface Stale extends ItemKey {
  readonly theirs: StoredItem | undefined
}

export type ChangeResult =
  | { readonly ok: true; readonly records: readonly StoredItem[] }
  | { readonly ok: false; readonly stale: readonly Stale[] }

/** Makes all changes, or none: none where another tab has changed one of the items. */
export async function changeAll(tx: Write, changes: readonly ItemChange[]): Promise<ChangeResult> {
  const store = tx.objectStore('items')
  const there = new Map<ItemChange, StoredItem | undefined>()
  for (const change of changes) there.set(change, await store.get([change.kind, change.id]))
  const stale = changes.flatMap((change): Stale[] => {
    const theirs = present(there.get(change))
    return theirs?.revision === change.basedOn ? [] : [{ kind: change.kind, id: change.id, theirs }]
  })
  if (stale.length > 0) return { ok: false, stale }
  const seen = Math.max(0, ...changes.map(({ basedOn = 0 }) => basedOn))
  const first = await nextRevision(tx, seen, changes.length)
  const records = changes.map((change, i) => recordOf(change, there.get(change), first + i))
  // One after the other: the failure of one would otherwise leave the others without an ear.
  for (const record of records) {
    const before = there.get(changes[record.revision - first] as ItemChange)
    if (present(before) && !record.deleted)
      await keepVersion(tx, before as StoredItem, record.savedAt)
    await store.put(record)
  }
  return { ok: true, records }
}

export const present = (record: StoredItem | undefined): StoredItem | undefined =>
  record?.deleted ? undefined : record
