// @vitest-environment node
import 'fake-indexeddb/auto'
import { forceCloseDatabase, IDBFactory } from 'fake-indexeddb'
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest'
import type { Storage } from '../../src/storage'
import type { Formula } from '../support/formulaStorage'
import { openStorage } from '../../src/storage'
import { get, list, put, putAll, remove } from '../support/formulaStorage'

type Put = (this: IDBObjectStore, value: unknown, key?: IDBValidKey) => IDBRequest<IDBValidKey>

const open: Storage[] = []

async function tab(): Promise<Storage> {
  const storage = await openStorage()
  open.push(storage)
  return storage
}

const formula = (id: string, name: string): Formula => ({
  id,
  savedAt: '2025-05-01T08:00:00.000Z',
  file: { name },
})

async function stored(storage: Storage, id: string, name: string): Promise<number> {
  const result = await put(storage, { ...formula(id, name), basedOn: undefined })
  if (!result.ok) throw new Error(`${id} is there already`)
  return result.revision
}

const names = async (storage: Storage) =>
  (await list(storage)).map(({ file }) => (file as { name: string }).name)

beforeEach(() => {
  vi.stubGlobal('indexedDB', new IDBFactory())
})

afterEach(async () => {
  vi.restoreAllMocks()
  await Promise.all(open.splice(0).map((storage) => storage.close()))
  vi.unstubAllGlobals()
})

describe('formulas in storage', () => {
  it('come back as they were put, with a revision that grows', async () => {
    const storage = await tab()
    const first = await stored(storage, 'a', 'one')
    const second = await put(storage, { ...formula('a', 'two'), basedOn: first })
    expect(second).toEqual({ ok: true, revision: first + 1 })
    expect(await get(storage, 'a')).toEqual({ ...formula('a', 'two'), revision: first + 1 })
  })

  it('are not written over by a tab that has not seen the newest', async () => {
    const [one, two] = [await tab(), await tab()]
    const seen = await stored(one, 'a', 'old')
    await put(two, { ...formula('a', 'theirs'), basedOn: seen })
    const result = await put(one, { ...formula('a', 'mine'), basedOn: seen })
    expect(result).toMatchObject({ ok: false, theirs: { file: { name: 'theirs' } } })
    expect(await names(one)).toEqual(['theirs'])
  })

  it('let exactly one of two writes at the same moment through', async () => {
    const [one, two] = [await tab(), await tab()]
    const basedOn = await stored(one, 'a', 'old')
    const results = await Promise.all([
      put(one, { ...formula('a', 'one'), basedOn }),
      put(two, { ...formula('a', 'two'), basedOn }),
    ])
    expect(results.filter(({ ok }) => ok)).toHaveLength(1)
  })

  it('tell a writer whose formula was removed, and one whose id is taken', async () => {
    const storage = await tab()
    const revision = await stored(storage, 'a', 'old')
    const taken = await put(storage, { ...formula('a', 'new'), basedOn: undefined })
    expect(taken).toMatchObject({ ok: false, theirs: { file: { name: 'old' } } })
    await remove(storage, 'a', revision)
    const gone = await put(storage, { ...formula('a', 'new'), basedOn: revision })
    expect(gone).toEqual({ ok: false, theirs: undefined })
  })

  it('never get a revision again that a removed one had', async () => {
    const storage = await tab()
    const first = await stored(storage, 'a', 'old')
    await remove(storage, 'a', first)
    expect(await stored(storage, 'a', 'made again')).toBeGreaterThan(first)
  })

  it('are removed only as they were seen', async () => {
    const storage = await tab()
    const seen = await stored(storage, 'a', 'old')
    await put(storage, { ...formula('a', 'newer'), basedOn: seen })
    expect(await remove(storage, 'a', seen)).toMatchObject({ ok: false })
    expect(await remove(storage, 'a', seen + 1)).toEqual({ ok: true })
    expect(await list(storage)).toEqual([])
  })
})

describe('adding many', () => {
  it('adds all with revisions of their own', async () => {
    const storage = await tab()
    const result = await putAll(storage, [formula('a', 'one'), formula('b', 'two')])
    expect(result).toMatchObject({ ok: true, records: [{ id: 'a' }, { id: 'b' }] })
    const revisions = (await list(storage)).map(({ revision }) => revision)
    expect(new Set(revisions).size).toBe(2)
  })

  it('adds none where one id is taken, and names it', async () => {
    const storage = await tab()
    await stored(storage, 'b', 'there before')
    const result = await putAll(storage, [formula('a', 'one'), formula('b', 'two')])
    expect(result).toEqual({ ok: false, taken: ['b'] })
    expect(await names(storage)).toEqual(['there before'])
  })

  it('adds none where one cannot be written', async () => {
    const storage = await tab()
    const unwritable = { ...formula('b', 'two'), file: { name: () => 'a function' } }
    const adding = putAll(storage, [formula('a', 'one'), unwritable])
    await expect(adding).rejects.toMatchObject({ reason: 'failed' })
    expect(await list(storage)).toEqual([])
  })
})

describe('a crash in the middle of a write', () => {
  it('leaves the old formula whole', async () => {
    const storage = await tab()
    const basedOn = await stored(storage, 'a', 'old')
    const real = Reflect.get(IDBObjectStore.prototype, 'put') as Put
    vi.spyOn(IDBObjectStore.prototype, 'put').mockImplementation(function (
      this: IDBObjectStore,
      value: unknown,
      key?: IDBValidKey,
    ) {
      const request = real.call(this, value, key)
      if (this.name === 'items') this.transaction.abort()
      return request
    })
    const writing = put(storage, { ...formula('a', 'half written'), basedOn })
    await expect(writing).rejects.toMatchObject({ name: 'StorageError', reason: 'failed' })
    vi.restoreAllMocks()
    expect(await get(storage, 'a')).toEqual({ ...formula('a', 'old'), revision: basedOn })
    expect(await put(storage, { ...formula('a', 'new'), basedOn })).toMatchObject({ ok: true })
  })

  it('that comes from a full disk is named as such and says what to do', async () => {
    const storage = await tab()
    vi.spyOn(IDBObjectStore.prototype, 'put').mockImplementation(() => {
      throw new DOMException('no room', 'QuotaExceededError')
    })
    const writing = put(storage, { ...formula('a', 'new'), basedOn: undefined })
    await expect(writing).rejects.toMatchObject({
      reason: 'full',
      message: expect.stringContaining('export your formulas') as string,
    })
  })
})

describe('settings in storage', () => {
  it('are written field by field, so that two tabs keep each other’s', async () => {
    const [one, two] = [await tab(), await tab()]
    expect(await one.readSettings()).toBeUndefined()
    await Promise.all([
      one.writeSettings(() => ({ wet: true })),
      two.writeSettings(() => ({ theme: 'dark' })),
    ])
    expect(await one.readSettings()).toEqual({ wet: true, theme: 'dark' })
  })

  it('replace a damaged record', async () => {
    const storage = await tab()
    await storage.writeSettings(() => ({ wet: true }))
    const raw = await rawOpen(3)
    await asPromise(
      raw.transaction('settings', 'readwrite').objectStore('settings').put(7, 'settings'),
    )
    raw.close()
    await storage.writeSettings(() => ({ wet: false }))
    expect(await storage.readSettings()).toEqual({ wet: false })
  })
})

describe('word between tabs', () => {
  it('comes for every formula and for settings, and not to the tab that wrote', async () => {
    const [one, two] = [await tab(), await tab()]
    const [own, other] = [vi.fn(), vi.fn()]
    one.onChange(own)
    two.onChange(other)
    await putAll(one, [formula('a', 'one'), formula('b', 'two')])
    await one.writeSettings(() => ({ wet: true }))
    await vi.waitFor(() => expect(other).toHaveBeenCalledTimes(2))
    expect(other.mock.calls.flat()).toEqual([
      {
        items: [
          { kind: 'formula', id: 'a' },
          { kind: 'formula', id: 'b' },
        ],
      },
      { settings: true },
    ])
    expect(own).not.toHaveBeenCalled()
  })

  it('stops when it is not wanted any more, and ignores what it does not understand', async () => {
    const [one, two] = [await tab(), await tab()]
    const [stopped, listening] = [vi.fn(), vi.fn()]
    two.onChange(stopped)()
    two.onChange(listening)
    const channel = new BroadcastChannel('taperwright')
    channel.postMessage('from a version that talks otherwise')
    await stored(one, 'a', 'one')
    await vi.waitFor(() =>
      expect(listening.mock.calls).toEqual([[{ items: [{ kind: 'formula', id: 'a' }] }]]),
    )
    expect(stopped).not.toHaveBeenCalled()
    channel.close()
  })
})

describe('storage that cannot be had', () => {
  it.each([
    ['SecurityError', 'denied', 'switched off'],
    ['InvalidStateError', 'denied', 'private'],
    ['UnknownError', 'failed', 'Export them'],
  ])('%s is "%s" and says what to do', async (name, reason, words) => {
    vi.spyOn(indexedDB, 'open').mockImplementation(() => {
      throw new DOMException('no', name)
    })
    await expect(openStorage()).rejects.toMatchObject({
      reason,
      message: expect.stringContaining(words) as string,
    })
  })

  it('is "denied" in a browser that has none', async () => {
    vi.stubGlobal('indexedDB', undefined)
    await expect(openStorage()).rejects.toMatchObject({ reason: 'denied' })
  })

  it('is "newer" where a newer app has been here', async () => {
    ;(await rawOpen(9)).close()
    await expect(openStorage()).rejects.toMatchObject({
      reason: 'newer',
      message: expect.stringContaining('Reload this page') as string,
    })
  })

  it('is "blocked" where an older app does not let go', async () => {
    const older = await rawOpen(1)
    const factory = indexedDB
    vi.stubGlobal('indexedDB', { open: (name: string) => factory.open(name, 3) })
    await expect(openStorage()).rejects.toMatchObject({ reason: 'blocked' })
    older.close()
  })
})

describe('storage closed under us', () => {
  it('lets a newer app in another tab start, and says so at the next write', async () => {
    const storage = await tab()
    ;(await rawOpen(4)).close()
    const writing = put(storage, { ...formula('a', 'one'), basedOn: undefined })
    await expect(writing).rejects.toMatchObject({ reason: 'newer' })
  })

  it.each(['with word of it', 'without'])('is opened again %s', async (how) => {
    const opened = vi.spyOn(indexedDB, 'open')
    const storage = await tab()
    const request = opened.mock.results[0]?.value as IDBOpenDBRequest
    await stored(storage, 'a', 'one')
    if (how === 'without') request.result.close()
    else forceCloseDatabase(request.result as never)
    expect(await names(storage)).toEqual(['one'])
  })
})

function rawOpen(version: number): Promise<IDBDatabase> {
  return asPromise(indexedDB.open('taperwright', version))
}

function asPromise<T>(request: IDBRequest<T>): Promise<T> {
  return new Promise((resolve, reject) => {
    request.onsuccess = () => resolve(request.result)
    request.onerror = () => reject(request.error ?? new Error('failed'))
  })
}
