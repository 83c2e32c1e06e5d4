import type { ItemKey, StoredItem, Write } from './database'

/** A pause after which what stood before it is worth keeping, and the longest stretch of work that is one version. */
const MINUTES = 10
const MOST_VERSIONS = 100

/** Keeps the text that is about to be written over, where work has paused or gone on for long. */
export async function keepVersion(tx: Write, old: StoredItem, newAt: string): Promise<void> {
  const store = tx.objectStore('earlier')
  const keys = await store.getAllKeys(rangeOf(old))
  const lastKey = keys.at(-1)
  const last = lastKey && (await store.get(lastKey))
  const isAfterPause = minutesBetween(old.savedAt, newAt) >= MINUTES
  const isLongWork = !last || minutesBetween(last.savedAt, old.savedAt) >= MINUTES
  if (!isAfterPause && !isLongWork) return
  await store.put(old)
  for (const key of keys.slice(0, Math.max(0, keys.length + 1 - MOST_VERSIONS)))
    await store.delete(key)
}

/** All versions of one item; an array sorts after every number. */
export const rangeOf = ({ kind, id }: ItemKey): IDBKeyRange =>
  IDBKeyRange.bound([kind, id], [kind, id, []] as unknown)

function minutesBetween(from: string, to: string): number {
  const minutes = (Date.parse(to) - Date.parse(from)) / 60_000
  return Number.isFinite(minutes) ? minutes : Infinity
}
