import type { ItemKey, StoredItem, Write } from './database'
import type { ChangeResult, ItemChange } from './items'
import type { Change } from './news'
import { carryOver } from './carryOver'
import { Connection } from './database'
import { StorageError } from './error'
import { changeAll, present } from './items'
import { News } from './news'
import { rangeOf } from './versions'

type SettingsStep = (kept: unknown) => object

/** The browser's storage. Every promise may be rejected with a StorageError. */
export interface Storage {
  /** All items, of this or of every kind, in the order in which they were made. */
  list(kind?: string): Promise<StoredItem[]>
  get(key: ItemKey): Promise<StoredItem | undefined>
  /** Makes all changes, or none: none where another tab has changed one of the items. */
  change(changes: readonly ItemChange[]): Promise<ChangeResult>
  /** Earlier texts of one item, the oldest first; without a key those of all. */
  versions(of?: ItemKey): Promise<StoredItem[]>
  /** Adds versions that are not there yet. */
  addVersions(versions: readonly StoredItem[]): Promise<void>
  readSettings(): Promise<unknown>
  /** Writes the fields that the step makes of what is kept, and leaves the others as they are. */
  writeSettings(step: SettingsStep): Promise<void>
  /** Calls back for what other tabs change; returns the way to stop. */
  onChange(listener: (change: Change) => void): () => void
  close(): Promise<void>
}

/** Opens the browser's storage, or rejects with a StorageError that says what to do without. */
export async function openStorage(): Promise<Storage> {
  const connection = new Connection()
  await carryOverOrClose(connection)
  const news = new News()
  return {
    ...items(connection, news),
    ...versions(connection),
    ...settings(connection, news),
    onChange: (listener) => news.listen(listener),
    close() {
      news.close()
      return connection.close()
    },
  }
}

async function carryOverOrClose(connection: Connection): Promise<void> {
  try {
    await carryOver(connection)
  } catch (error) {
    await connection.close()
    throw error
  }
}

function items(connection: Connection, news: News) {
  const get = async ({ kind, id }: ItemKey) =>
    present(await connection.run((db) => db.get('items', [kind, id])))
  return {
    async list(kind?: string) {
      const range = kind === undefined ? null : IDBKeyRange.bound([kind], [kind, []] as unknown)
      const records = await connection.run((db) => db.getAll('items', range))
      return records.filter(present).sort((a, b) => a.made - b.made)
    },
    get,
    async change(changes: readonly ItemChange[]) {
      const result = await connection.write((tx) => changeAll(tx, changes))
      if (result.ok) await readBack(result.records, get)
      if (result.ok) news.tell({ items: changes.map(({ kind, id }) => ({ kind, id })) })
      return result
    },
  }
}

/**
 * Looks at what was written once the transaction is through: "saved" is said of what can be read again. What another
 * tab has written over or removed since was there.
 */
async function readBack(
  written: readonly StoredItem[],
  get: (key: ItemKey) => Promise<StoredItem | undefined>,
): Promise<void> {
  for (const record of written) {
    const back = await get(record)
    if (back?.revision === record.revision && textOf(back) !== textOf(record))
      throw new StorageError('failed', `${record.kind} ${record.id} did not read back as written`)
  }
}

const textOf = ({ file, events }: StoredItem): string => JSON.stringify([file, events])

function versions(connection: Connection) {
  return {
    versions: (of?: ItemKey) =>
      connection.run((db) => db.getAll('earlier', of ? rangeOf(of) : null)),
    addVersions: (added: readonly StoredItem[]) =>
      connection.write(async (tx) => {
        const store = tx.objectStore('earlier')
        for (const version of added) {
          const key: [string, string, number] = [version.kind, version.id, version.revision]
          if ((await store.getKey(key)) === undefined) await store.put(version)
        }
      }),
  }
}

function settings(connection: Connection, news: News) {
  return {
    readSettings: () => connection.run((db) => db.get('settings', 'settings')),
    async writeSettings(step: SettingsStep) {
      await connection.write((tx) => mergeSettings(tx, step))
      news.tell({ settings: true })
    },
  }
}

async function mergeSettings(tx: Write, step: SettingsStep): Promise<void> {
  const store = tx.objectStore('settings')
  const kept = await store.get('settings')
  const old = typeof kept === 'object' && kept !== null ? kept : {}
  await store.put({ ...old, ...step(kept) }, 'settings')
}
