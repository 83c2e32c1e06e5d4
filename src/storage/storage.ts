import type { StoredFormula, Write } from './database'
import type { Change } from './news'
import type { ShedStorage } from './shed'
import { Connection } from './database'
import { News } from './news'
import { nextRevision } from './revision'
import { shedStorage } from './shed'
import { keepVersion, rangeOf } from './versions'

/** A formula not yet given its revision. */
export type NewFormula = Omit<StoredFormula, 'revision'>

interface Guarded {
  /** The revision the writer has seen; undefined where it has seen none. */
  readonly basedOn: number | undefined
}

/** Refused because another tab has written since; `theirs` is undefined where it was removed. */
interface Refused {
  readonly ok: false
  readonly theirs: StoredFormula | undefined
}

export type PutResult = { readonly ok: true; readonly revision: number } | Refused
export type PutAllResult =
  | { readonly ok: true; readonly records: readonly StoredFormula[] }
  | { readonly ok: false; readonly taken: readonly string[] }
export type RemoveResult = { readonly ok: true } | Refused

/** The browser's storage. Every promise may be rejected with a StorageError. */
export interface Storage extends ShedStorage {
  list(): Promise<StoredFormula[]>
  get(id: string): Promise<StoredFormula | undefined>
  /** Writes over exactly the revision the writer has seen, or not at all. */
  put(formula: NewFormula & Guarded): Promise<PutResult>
  /** Adds all, or none: nothing that is there is written over. */
  putAll(formulas: readonly NewFormula[]): Promise<PutAllResult>
  remove(id: string, basedOn: number): Promise<RemoveResult>
  /** Earlier texts of one formula, the oldest first; without an id those of all. */
  versions(id?: string): Promise<StoredFormula[]>
  /** Adds versions that are not there yet. */
  addVersions(versions: readonly StoredFormula[]): Promise<void>
  readSettings(): Promise<unknown>
  /** Writes the fields given and leaves the others as they are. */
  writeSettings(fields: Readonly<Record<string, unknown>>): Promise<void>
  /** Calls back for what other tabs change; returns the way to stop. */
  onChange(listener: (change: Change) => void): () => void
  close(): Promise<void>
}

/** Opens the browser's storage, or rejects with a StorageError that says what to do without. */
export async function openStorage(): Promise<Storage> {
  const connection = new Connection()
  await connection.open()
  const news = new News()
  return {
    ...formulas(connection, news),
    ...settings(connection, news),
    ...shedStorage(connection, news),
    ...versions(connection),
    onChange: (listener) => news.listen(listener),
    close() {
      news.close()
      return connection.close()
    },
  }
}

function formulas(connection: Connection, news: News) {
  return {
    list: () => connection.run((db) => db.getAll('formulas')),
    get: (id: string) => connection.run((db) => db.get('formulas', id)),
    async put(formula: NewFormula & Guarded) {
      const result = await connection.write((tx) => putGuarded(tx, formula))
      if (result.ok) news.tell({ id: formula.id })
      return result
    },
    async putAll(added: readonly NewFormula[]) {
      const result = await connection.write((tx) => addAll(tx, added))
      if (result.ok) for (const { id } of result.records) news.tell({ id })
      return result
    },
    async remove(id: string, basedOn: number) {
      const result = await connection.write((tx) => removeGuarded(tx, id, basedOn))
      if (result.ok) news.tell({ id })
      return result
    },
  }
}

function versions(connection: Connection) {
  return {
    versions: (id?: string) =>
      connection.run((db) => db.getAll('versions', id === undefined ? null : rangeOf(id))),
    addVersions: (added: readonly StoredFormula[]) =>
      connection.write(async (tx) => {
        const store = tx.objectStore('versions')
        for (const version of added) {
          const key: [string, number] = [version.id, version.revision]
          if ((await store.getKey(key)) === undefined) await store.put(version)
        }
      }),
  }
}

function settings(connection: Connection, news: News) {
  return {
    readSettings: () => connection.run((db) => db.get('settings', 'settings')),
    async writeSettings(fields: Readonly<Record<string, unknown>>) {
      await connection.write((tx) => mergeSettings(tx, fields))
      news.tell({ settings: true })
    },
  }
}

async function putGuarded(tx: Write, formula: NewFormula & Guarded): Promise<PutResult> {
  const { basedOn, ...record } = formula
  const theirs = await tx.objectStore('formulas').get(record.id)
  if (theirs?.revision !== basedOn) return { ok: false, theirs }
  if (theirs) await keepVersion(tx, theirs, record.savedAt)
  const revision = await nextRevision(tx, basedOn)
  await tx.objectStore('formulas').put({ ...record, revision })
  return { ok: true, revision }
}

async function addAll(tx: Write, added: readonly NewFormula[]): Promise<PutAllResult> {
  const there = new Set(await tx.objectStore('formulas').getAllKeys())
  const taken = added.map(({ id }) => id).filter((id) => there.has(id))
  if (taken.length > 0) return { ok: false, taken }
  const first = await nextRevision(tx, undefined, added.length)
  const records = added.map((record, i) => ({ ...record, revision: first + i }))
  // One after the other: the failure of one would otherwise leave the others without an ear.
  for (const record of records) await tx.objectStore('formulas').add(record)
  return { ok: true, records }
}

async function removeGuarded(tx: Write, id: string, basedOn: number): Promise<RemoveResult> {
  const theirs = await tx.objectStore('formulas').get(id)
  if (theirs?.revision !== basedOn) return { ok: false, theirs }
  await tx.objectStore('formulas').delete(id)
  return { ok: true }
}

async function mergeSettings(tx: Write, fields: Readonly<Record<string, unknown>>): Promise<void> {
  const store = tx.objectStore('settings')
  const kept = await store.get('settings')
  const old = typeof kept === 'object' && kept !== null ? kept : {}
  await store.put({ ...old, ...fields }, 'settings')
}
