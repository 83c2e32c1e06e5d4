/**
 * Brings what versions 1 and 2 of the database kept into the items: formulas, their earlier versions, the
 * shed, and what lay among the settings. All of it is copied in one transaction; it is read back and compared,
 * and the old stores are emptied, in another. Killed at any point, it goes on at the next start.
 */
import type { Connection, Database, OldRecord, StoredItem, Write } from './database'
import { itemsAmong, scalarsAmong, shedKindOf } from '../documents/oldSettings'
import { StorageError } from './error'
import { recordOf } from './record'
import { nextRevision } from './revision'

const OLD_STORES = ['formulas', 'versions', 'shed'] as const
type OldStore = (typeof OLD_STORES)[number]

export async function carryOver(connection: Connection): Promise<void> {
  const old = await connection.run((db) => Promise.resolve(oldStoresIn(db)))
  if (old.length === 0) return
  await connection.write((tx) => copy(tx, old), old)
  const isSame = await connection.write((tx) => finish(tx, old), old)
  if (!isSame) throw new StorageError('failed', 'what was copied does not read back the same')
}

const oldStoresIn = (db: Database): OldStore[] =>
  OLD_STORES.filter((name) => db.objectStoreNames.contains(name))

/** What the old stores hold, as it lies. */
interface Old {
  readonly formulas: readonly OldRecord[]
  readonly versions: readonly OldRecord[]
  readonly shed: readonly OldRecord[]
  readonly settings: unknown
}

async function oldContent(tx: Write, names: readonly OldStore[]): Promise<Old> {
  const all = async (name: OldStore) =>
    names.includes(name) ? await tx.objectStore(name).getAll() : []
  return {
    formulas: await all('formulas'),
    versions: await all('versions'),
    shed: await all('shed'),
    settings: await tx.objectStore('settings').get('settings'),
  }
}

async function copy(tx: Write, names: readonly OldStore[]): Promise<void> {
  const marks = tx.objectStore('settings')
  if ((await marks.get('carriedOver')) !== undefined) return
  const old = await oldContent(tx, names)
  const among = itemsAmong(old.settings)
  const first = await nextRevision(tx, 0, among.length)
  const items = [
    ...old.formulas.map((record) => carried('formula', record)),
    ...old.shed.map((record) => carried(shedKindOf(record.file), record)),
    ...among.map((item, i) => recordOf({ ...item, savedAt: '' }, undefined, first + i)),
  ]
  for (const item of items) await tx.objectStore('items').put(item)
  for (const version of old.versions)
    await tx.objectStore('earlier').put(carried('formula', version))
  await marks.put('copied', 'carriedOver')
}

/** True where every item is there as it was; only then do the old ones go. */
async function finish(tx: Write, names: readonly OldStore[]): Promise<boolean> {
  const marks = tx.objectStore('settings')
  if ((await marks.get('carriedOver')) !== 'copied') return true
  const old = await oldContent(tx, names)
  if (!(await isAllThere(tx, old))) {
    // Copied anew at the next start; until then the old stores hold everything.
    await tx.objectStore('items').clear()
    await tx.objectStore('earlier').clear()
    await marks.delete('carriedOver')
    return false
  }
  for (const name of names) await tx.objectStore(name).clear()
  await marks.put(scalarsAmong(old.settings), 'settings')
  await marks.put('done', 'carriedOver')
  return true
}

async function isAllThere(tx: Write, old: Old): Promise<boolean> {
  const items = new Map(
    (await tx.objectStore('items').getAll()).map((item) => [keyOf(item.kind, item.id), item]),
  )
  const earlier = new Set((await tx.objectStore('earlier').getAll()).map(textOf))
  const isThere = (kind: string, record: OldRecord) => {
    const item = items.get(keyOf(kind, record.id))
    return item !== undefined && textOf(item) === textOf(record)
  }
  return (
    old.formulas.every((record) => isThere('formula', record)) &&
    old.shed.every((record) => isThere(shedKindOf(record.file), record)) &&
    old.versions.every((record) => earlier.has(textOf(record))) &&
    itemsAmong(old.settings).every(
      ({ kind, id, file }) =>
        JSON.stringify(items.get(keyOf(kind, id))?.file) === JSON.stringify(file),
    )
  )
}

const keyOf = (kind: string, id: string) => JSON.stringify([kind, id])
const textOf = ({ id, revision, savedAt, file }: OldRecord) =>
  JSON.stringify([id, revision, savedAt, file])

const carried = (kind: string, { id, revision, savedAt, file }: OldRecord): StoredItem =>
  recordOf({ kind, id, savedAt, file: file ?? null }, undefined, revision)
