import type { DBSchema, IDBPDatabase, IDBPTransaction } from 'idb'
import { openDB } from 'idb'
import { openingError, StorageError, storageError } from './error'

/** An own formula as it lies in the browser. */
export interface StoredFormula {
  readonly id: string
  /** Given anew at every write and never twice in one database, so that an old copy is known as old. */
  readonly revision: number
  readonly savedAt: string
  /** The formula file as JSON, of the version that wrote it. */
  readonly file: unknown
}

/** A spool, a batch or a wallet of finished leaders as it lies in the browser. */
export interface StoredItem {
  readonly id: string
  readonly revision: number
  readonly savedAt: string
  readonly file: unknown
}

interface Shape extends DBSchema {
  formulas: { key: string; value: StoredFormula }
  /** Earlier texts of formulas. */
  versions: { key: [id: string, revision: number]; value: StoredFormula }
  shed: { key: string; value: StoredItem }
  /** Under `settings` the settings, under `revision` the last revision given. */
  settings: { key: string; value: unknown }
}

type Database = IDBPDatabase<Shape>
const STORES = ['formulas', 'versions', 'shed', 'settings'] as const
type Stores = ('formulas' | 'versions' | 'shed' | 'settings')[]
export type Write = IDBPTransaction<Shape, Stores, 'readwrite'>

const NAME = 'taperwright'
/** 1: formulas and settings. 2: earlier versions of formulas, and the shed. */
const VERSION = 2

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
        if (old < 1) {
          db.createObjectStore('formulas', { keyPath: 'id' })
          db.createObjectStore('settings')
        }
        if (old < 2) {
          db.createObjectStore('versions', { keyPath: ['id', 'revision'] })
          db.createObjectStore('shed', { keyPath: 'id' })
        }
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
  write<T>(work: (tx: Write) => Promise<T>): Promise<T> {
    return this.run(async (db) => {
      // Strict: "saved" on the screen means on the disk, not in a buffer that a power cut empties.
      const tx = db.transaction([...STORES], 'readwrite', { durability: 'strict' })
      const failure = tx.done.then(noError, storageError)
      const result = await orAbort(tx, work)
      const failed = await failure
      if (failed) throw failed
      return result
    })
  }

  async close(): Promise<void> {
    const db = await this.#db
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
