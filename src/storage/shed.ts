import type { Connection, StoredItem, Write } from './database'
import type { News } from './news'
import { nextRevision } from './revision'

/** One item put in place of what the writer has seen, or taken out where it has no file. */
export interface ItemChange {
  readonly id: string
  readonly file: unknown
  readonly basedOn: number | undefined
}

export type ShedResult =
  | { readonly ok: true; readonly records: readonly StoredItem[] }
  | { readonly ok: false; readonly stale: readonly string[] }

export interface ShedStorage {
  listShed(): Promise<StoredItem[]>
  /** Makes all changes, or none: none where another tab has changed one of the items. */
  changeShed(changes: readonly ItemChange[], savedAt: string): Promise<ShedResult>
}

export function shedStorage(connection: Connection, news: News): ShedStorage {
  return {
    listShed: () => connection.run((db) => db.getAll('shed')),
    async changeShed(changes, savedAt) {
      const result = await connection.write((tx) => changeAll(tx, changes, savedAt))
      if (result.ok) news.tell({ shed: true })
      return result
    },
  }
}

async function changeAll(
  tx: Write,
  changes: readonly ItemChange[],
  savedAt: string,
): Promise<ShedResult> {
  const store = tx.objectStore('shed')
  const stale: string[] = []
  for (const { id, basedOn } of changes)
    if ((await store.get(id))?.revision !== basedOn) stale.push(id)
  if (stale.length > 0) return { ok: false, stale }
  const first = await nextRevision(tx, 0, changes.length)
  const records: StoredItem[] = []
  for (const [i, { id, file }] of changes.entries()) {
    if (file === undefined) await store.delete(id)
    else {
      const record = { id, file, savedAt, revision: first + i }
      await store.put(record)
      records.push(record)
    }
  }
  return { ok: true, records }
}
