// @vitest-environment node
import 'fake-indexeddb/auto'
import { IDBFactory } from 'fake-indexeddb'
import { openDB } from 'idb'
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest'
import type { Storage } from '../../src/storage'
import { openStorage } from '../../src/storage'
import { makeVersion2, VERSION_2 } from './version2'

const open: Storage[] = []

async function tab(): Promise<Storage> {
  const storage = await openStorage()
  open.push(storage)
  return storage
}

async function closeAll(): Promise<void> {
  await Promise.all(open.splice(0).map((storage) => storage.close()))
}

beforeEach(() => vi.stubGlobal('indexedDB', new IDBFactory()))
afterEach(async () => {
  vi.restoreAllMocks()
  await closeAll()
  vi.unstubAllGlobals()
})

type Fields = Record<string, unknown>
const settings = VERSION_2.settings.settings as Fields
const { lessons, flyBox, brief, reel, inUse, ...scalars } = settings

/** Every item that must be there: kind, id and file. */
const EXPECTED = [
  ...VERSION_2.formulas.map(({ id, file }) => ['formula', id, file]),
  ...VERSION_2.shed.map(({ id, file }) => [(file as { kind: string }).kind, id, file]),
  ...Object.entries(lessons as Fields).map(([id, file]) => ['lesson', id, file]),
  ...(flyBox as unknown[]).map((file, i) => [
    'fly',
    (file as { id?: string }).id ?? `fly-${i}`,
    file,
  ]),
  ['brief', 'brief', brief],
  ['reel', 'reel', reel],
  ['inUse', 'inUse', inUse],
]

const sorted = (list: readonly unknown[]) => list.map((each) => JSON.stringify(each)).sort()

async function expectAllThere(storage: Storage): Promise<void> {
  const items = await storage.list()
  expect(sorted(items.map(({ kind, id, file }) => [kind, id, file]))).toEqual(sorted(EXPECTED))
  const versions = await storage.versions()
  expect(
    sorted(versions.map(({ id, revision, savedAt, file }) => [id, revision, savedAt, file])),
  ).toEqual(
    sorted(
      VERSION_2.versions.map(({ id, revision, savedAt, file }) => [id, revision, savedAt, file]),
    ),
  )
  expect(versions.every(({ kind }) => kind === 'formula')).toBe(true)
  expect(await storage.readSettings()).toEqual(scalars)
}

/** What the old stores still hold. */
async function leftBehind(): Promise<number> {
  const db = await openDB('taperwright')
  const names = ['formulas', 'versions', 'shed'].filter((n) => db.objectStoreNames.contains(n))
  const counts = await Promise.all(names.map((name) => db.count(name)))
  db.close()
  return counts.reduce((sum, count) => sum + count, 0)
}

const WRITES = ['put', 'add', 'delete', 'clear'] as const
type Args = [value: unknown, key?: IDBValidKey]
type Method = (this: IDBObjectStore, ...args: Args) => IDBRequest<IDBValidKey>
const store = () => IDBObjectStore.prototype as unknown as Record<(typeof WRITES)[number], Method>

/** Lets the n-th write from now on end as if the tab had been killed at it, before or after it was made. */
function killAt(n: number, how: 'before' | 'after'): void {
  let count = 0
  for (const name of WRITES) {
    const real = store()[name]
    vi.spyOn(store(), name).mockImplementation(function (this: IDBObjectStore, ...args: Args) {
      count++
      if (count < n) return real.apply(this, args)
      if (how === 'before') throw new DOMException('killed', 'UnknownError')
      const request = real.apply(this, args)
      this.transaction.abort()
      return request
    })
  }
}

describe('a database of version 2', () => {
  it('is carried over whole, what does not read as it lies, and the old stores are emptied', async () => {
    await makeVersion2()
    expect(await leftBehind()).toBeGreaterThan(40)
    const storage = await tab()
    await expectAllThere(storage)
    const formula = VERSION_2.formulas[0]!
    expect(await storage.get({ kind: 'formula', id: formula.id })).toMatchObject(formula)
    expect(await leftBehind()).toBe(0)
  })

  it('gives no revision again that was given before', async () => {
    await makeVersion2()
    const storage = await tab()
    const revisions = (await storage.list()).map(({ revision }) => revision)
    expect(new Set(revisions).size).toBe(revisions.length)
    const change = { kind: 'reel', id: 'other', file: {}, savedAt: '', basedOn: undefined }
    const made = await storage.change([change])
    expect(made.ok && made.records[0]!.revision).toBeGreaterThan(Math.max(...revisions))
  })

  it('is carried over once, though two tabs start at the same time', async () => {
    await makeVersion2()
    const [one] = await Promise.all([tab(), tab()])
    await expectAllThere(one)
  })

  it('brings back nothing that is removed later', async () => {
    await makeVersion2()
    const storage = await tab()
    const [first] = await storage.list('formula')
    const { kind, id, revision } = first!
    await storage.change([{ kind, id, file: undefined, savedAt: '', basedOn: revision }])
    await closeAll()
    const ids = (await (await tab()).list('formula')).map((item) => item.id)
    expect(ids).not.toContain(id)
    expect(ids).toHaveLength(VERSION_2.formulas.length - 1)
  })

  it.each(['before', 'after'] as const)(
    'is whole after the app was killed %s any write, and started again',
    async (how) => {
      let [n, isDone] = [0, false]
      while (!isDone) {
        n++
        vi.stubGlobal('indexedDB', new IDBFactory())
        await makeVersion2()
        killAt(n, how)
        isDone = await tab().then(
          () => true,
          () => false,
        )
        vi.restoreAllMocks()
        await closeAll()
        await expectAllThere(await tab())
        expect(await leftBehind()).toBe(0)
        await closeAll()
      }
      // Every item and version, the counter, the marks, the settings and the old stores.
      expect(n).toBeGreaterThan(EXPECTED.length + VERSION_2.versions.length + 6)
    },
  )

  it('keeps the old stores where what was copied does not read back the same', async () => {
    await makeVersion2()
    const real = store().put
    const put = vi.spyOn(store(), 'put').mockImplementation(function (
      this: IDBObjectStore,
      ...[value, key]: Args
    ) {
      const isLesson = this.name === 'items' && (value as { kind: string }).kind === 'lesson'
      return real.call(this, isLesson ? { ...(value as object), file: 'garbled' } : value, key)
    })
    await expect(openStorage()).rejects.toMatchObject({ reason: 'failed' })
    put.mockRestore()
    expect(await leftBehind()).toBeGreaterThan(40)
    await expectAllThere(await tab())
  })
})
