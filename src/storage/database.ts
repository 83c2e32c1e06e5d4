import type { DBSchema, IDBPDatabase, IDBPTransaction } from 'idb'
import { openDB } from 'idb'
import { openingError, StorageError, storageError } from './error'

/** What an item is found by: ids are unique among the items of one kind. */
export interface ItemKey {
  readonly kind: string
  readonly id: string
}

/** Something that the user keeps, of whatever kind, as it lies in the browser. */
export interface StoredItem extends ItemKey {
  /** Given anew at every write and never twice in one database, so that an old copy is known as old. */
  readonly revision: number
  /** Its first revision: items are listed in the order in which they were made. */
  readonly made: number
  readonly savedAt: string
  /** The file as JSON, of the version that wrote it. */
  readonly file: unknown
  /** What has happened to it, the oldest first, where its kind is kept as events; the file is what they come to. */
  readonly events?: readonly unknown[]
  /** Names this text wherever it goes; `parent` names the text that it was made from. */
  readonly hash: string
  readonly parent?: string
  /** The last text that it had in common with a copy elsewhere. */
  readonly common?: string
  /** Id of the item that it was copied from. */
  readonly copiedFrom?: string
  /** Taken out: its place is kept, without its file. */
  readonly deleted?: true
}

/** A formula, spool, batch or wallet as versions 1 and 2 of the database kept it. */
export interface OldRecord {
  readonly id: string
  readonly revision: number
  readonly savedAt: string
  readonly file: unknown
}

interface Shape extends DBSchema {
  items: { key: [kind: string, id: string]; value: StoredItem }
  /** Earlier texts of items. */
  earlier: { key: [kind: string, id: string, revision: number]; value: StoredItem }
  /**
   * Under `settings` the settings, under `revision` the last revision given, under `carriedOver` how far
   * what an older version of the database kept has come.
   */
  settings: { key: string; value: unknown }
  formulas: { key: string; value: OldRecord }
  versions: { key: [id: string, revision: number]; value: OldRecord }
  shed: { key: string; value: OldRecord }
}

export type Database = IDBPDatabase<Shape>
type StoreName = 'items' | 'earlier' | 'settings' | 'formulas' | 'versions' | 'shed'
export type Write = IDBPTransaction<Shape, StoreName[], 'readwrite'>

const STORES: readonly StoreName[] = ['items', 'earlier', 'settings']

const NAME = 'taperwright'
/**
 * 1: formulas and settings. 2: earlier versions of formulas, and the shed. 3: items of every kind. The stores
 * that version 3 has emptied can go with version 4.
 */
const VERSION = 3

/** Opens the database; `onGone` is told when the browser or a newer tab has closed it under us. */
async function openDatabase(onGone: () => void): Promise<Database> {
  try {
    return await openOrRefuse(onGone)
  } catch (error) {
    throw openingError(error)
  }
}

function openOrRefuse(onGone: () => void): Promise<Database> {
  return new Promise((resolve, reject) => {
    let refused = false
    const opening = openDB<Shape>(NAME, VERSION, {
      upgrade(db, old) {
        if (old < 1) db.createObjectStore('settings')
        db.createObjectStore('items', { keyPath: ['kind', 'id'] })
        db.createObjectStore('earlier', { keyPath: ['kind', 'id', 'revision'] })
      },
      blocked() {
        refused = true
        reject(new StorageError('blocked'))
      },
      // A newer app in another tab waits for us; holding on would keep it from starting.
      blocking(_current, _wanted, event) {
        ;(event.target as IDBDatabase).close()
        onGone()
      },
      terminated: onGone,
    })
    opening.then((db) => (refused ? db.close() : resolve(db)), reject)
  })
}

/** A connection that opens itself again after it was closed under us. */
export class Connection {
  #db: Promise<Database> | undefined

  open(): Promise<Database> {
    this.#db ??= this.#openAnew()
    return this.#db
  }

  async #openAnew(): Promise<Database> {
    try {
      return await openDatabase(() => this.#forget())
    } catch (error) {
      this.#forget()
      throw error
    }
  }

  #forget(): void {
    this.#db = undefined
  }

  async run<T>(work: (db: Database) => Promise<T>): Promise<T> {
    try {
      return await this.#runOnLive(work)
    } catch (error) {
      throw storageError(error)
    }
  }

  /** Work that found the connection closed has done nothing yet, and is begun again on a new one. */
  async #runOnLive<T>(work: (db: Database) => Promise<T>): Promise<T> {
    try {
      return await work(await this.open())
    } catch (error) {
      if (!isClosed(error)) throw error
      this.#forget()
      return work(await this.open())
    }
  }

  /** Runs the work in one transaction: all of it is kept, or nothing. */
  write<T>(work: (tx: Write) => Promise<T>, old: readonly StoreName[] = []): Promise<T> {
    return this.run(async (db) => {
      // Strict: "saved" on the screen means on the disk, not in a buffer that a power cut empties.
      const tx = db.transaction([...STORES, ...old], 'readwrite', { durability: 'strict' })
      const failure = tx.done.then(noError, storageError)
      const result = await orAbort(tx, work)
      const failed = await failure
      if (failed) throw failed
      return result
    })
  }

  async close(): Promise<void> {
    const db = await this.#db?.catch(() => undefined)
    db?.close()
    this.#forget()
  }
}

const noError = () => undefined
const isClosed = (error: unknown) =>
  error instanceof DOMException && error.name === 'InvalidStateError'

async function orAbort<T>(tx: Write, work: (tx: Write) => Promise<T>): Promise<T> {
  try {
    return await work(tx)
  } catch (error) {
    abort(tx)
    throw error
  }
}

function abort(tx: Write): void {
  try {
    tx.abort()
  } catch {
    // A failed request has aborted it already.
  }
}
