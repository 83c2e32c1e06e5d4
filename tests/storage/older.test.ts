// @vitest-environment node
import 'fake-indexeddb/auto'
import { IDBFactory } from 'fake-indexeddb'
import { openDB } from 'idb'
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest'
import type { Storage } from '../../src/storage'
import { openStorage } from '../../src/storage'
import { list, put, remove } from '../support/formulaStorage'

const open: Storage[] = []

async function tab(): Promise<Storage> {
  const storage = await openStorage()
  open.push(storage)
  return storage
}

beforeEach(() => vi.stubGlobal('indexedDB', new IDBFactory()))
afterEach(async () => {
  await Promise.all(open.splice(0).map((storage) => storage.close()))
  vi.unstubAllGlobals()
})

describe('a database of another version', () => {
  it('of version 1 is brought to this one with all that is in it', async () => {
    const old = await openDB('taperwright', 1, {
      upgrade(db) {
        db.createObjectStore('formulas', { keyPath: 'id' })
        db.createObjectStore('settings')
      },
    })
    const kept = {
      id: 'a',
      revision: 7,
      savedAt: '2025-05-01T08:00:00.000Z',
      file: { name: 'old' },
    }
    await old.put('formulas', kept)
    await old.put('settings', { theme: 'dark' }, 'settings')
    await old.put('settings', 7, 'revision')
    old.close()
    const storage = await tab()
    expect(await list(storage)).toEqual([kept])
    expect(await storage.readSettings()).toEqual({ theme: 'dark' })
    expect(await storage.list()).toHaveLength(1)
    const result = await put(storage, { ...kept, file: { name: 'new' }, basedOn: 7 })
    expect(result).toEqual({ ok: true, revision: 8 })
  })

  it('of a newer version is left alone, and the reason named', async () => {
    const newer = await openDB('taperwright', 4, {
      upgrade: (db) => void db.createObjectStore('x'),
    })
    newer.close()
    await expect(openStorage()).rejects.toMatchObject({ reason: 'newer' })
  })
})

const at = (minute: number) => new Date(Date.UTC(2026, 10, 25, 18, minute)).toISOString()

async function saved(storage: Storage, minutes: readonly number[]): Promise<void> {
  let basedOn: number | undefined
  for (const minute of minutes) {
    const result = await put(storage, { id: 'a', file: { minute }, savedAt: at(minute), basedOn })
    if (!result.ok) throw new Error('nobody else writes here')
    basedOn = result.revision
  }
}

const versionsIn = async (storage: Storage) =>
  (await storage.versions({ kind: 'formula', id: 'a' })).map(
    ({ file }) => (file as { minute: number }).minute,
  )

describe('earlier versions', () => {
  it('are kept where work pauses, and not at every keystroke', async () => {
    const storage = await tab()
    await saved(storage, [0, 1, 2, 3, 40, 41, 42])
    // What it began with, what stood before the pause and what came right after it; the newest is the formula.
    expect(await versionsIn(storage)).toEqual([0, 3, 40])
  })

  it('are kept every ten minutes of long work', async () => {
    const storage = await tab()
    await saved(
      storage,
      Array.from({ length: 36 }, (_, minute) => minute),
    )
    expect(await versionsIn(storage)).toEqual([0, 10, 20, 30])
  })

  it('of one formula are not those of another, and stay when it is removed', async () => {
    const storage = await tab()
    await put(storage, { id: 'a0', file: {}, savedAt: at(0), basedOn: undefined })
    await saved(storage, [0, 30])
    await remove(storage, 'a', 3)
    expect(await versionsIn(storage)).toEqual([0])
    expect(await storage.versions({ kind: 'formula', id: 'a0' })).toEqual([])
    expect(await storage.versions()).toHaveLength(1)
  })

  it('of a backup are added where they are not there', async () => {
    const storage = await tab()
    await saved(storage, [0, 30])
    const [there] = await storage.versions({ kind: 'formula', id: 'a' })
    await storage.addVersions([
      { ...there!, file: { minute: 99 } },
      { ...there!, revision: 500 },
    ])
    expect(await versionsIn(storage)).toEqual([0, 0])
  })
})
