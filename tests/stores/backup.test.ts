// @vitest-environment node
import 'fake-indexeddb/auto'
import { IDBFactory } from 'fake-indexeddb'
import { setActivePinia, createPinia } from 'pinia'
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest'
import type { Storage } from '../../src/storage'
import { readBackup } from '../../src/documents'
import { putSpool } from '../../src/engine/tying'
import { openStorage } from '../../src/storage'
import { backupDue, makeBackup, noteBackup, restoreBackup } from '../../src/stores/backup'
import { startStores } from '../../src/stores/boot'
import { useLibrary } from '../../src/stores/library'
import { useSettings } from '../../src/stores/settings'
import { useInventory } from '../../src/stores/inventory'
import { shelf } from '../engine/tying/shelf'
import { soundLeader } from '../engine/build'

const open: Storage[] = []

/** A browser with nothing in it, or with what the one before has left. */
async function browser(isEmpty: boolean) {
  if (isEmpty) vi.stubGlobal('indexedDB', new IDBFactory())
  const pinia = createPinia()
  setActivePinia(pinia)
  const storage = await openStorage()
  open.push(storage)
  await startStores(pinia, Promise.resolve(storage))
  return { storage, library: useLibrary(), inventory: useInventory(), settings: useSettings() }
}

const restored = async (text: string) => restoreBackup(readBackup(text).backup!)
const own = (library: ReturnType<typeof useLibrary>) =>
  library.entries.filter(({ shipped }) => !shipped).map(({ name }) => name)
const [spool] = shelf()

beforeEach(() => vi.stubGlobal('indexedDB', new IDBFactory()))
afterEach(async () => {
  await Promise.all(open.splice(0).map((storage) => storage.close()))
  vi.unstubAllGlobals()
})

describe('a backup', () => {
  it('brings formulas, versions, shed and settings into an empty browser', async () => {
    const here = await browser(true)
    const id = await here.library.add(soundLeader())
    await here.library.rename(id, 'Evening')
    here.inventory.act('spool', (s) => putSpool(s, spool!))
    here.settings.change({ theme: 'dark', forceUnit: 'kg' })
    const text = await makeBackup()
    const there = await browser(true)
    expect(await restored(text)).toEqual({ formulas: 1, items: 1, known: 0, remarks: [] })
    expect(own(there.library)).toEqual(['Evening'])
    expect(there.inventory.inventory.spools.map(({ id: spoolId }) => spoolId)).toEqual(['butt'])
    expect(there.settings.theme).toBe('dark')
    expect(await there.storage.versions({ kind: 'formula', id })).toHaveLength(1)
    expect((await there.storage.list('formula')).map((f) => f.id)).toEqual([id])
  })

  it('brings nothing twice', async () => {
    const here = await browser(true)
    await here.library.add(soundLeader())
    here.inventory.act('spool', (s) => putSpool(s, spool!))
    const text = await makeBackup()
    expect(await restored(text)).toEqual({ formulas: 0, items: 0, known: 2, remarks: [] })
    expect(own(here.library)).toEqual(['test'])
  })

  it('writes over nothing: what differs comes under a name of its own', async () => {
    const here = await browser(true)
    const id = await here.library.add(soundLeader())
    here.inventory.act('spool', (s) => putSpool(s, spool!))
    here.settings.change({ theme: 'dark' })
    const text = await makeBackup()
    await here.library.rename(id, 'Changed since')
    here.inventory.act('note', (s) => putSpool(s, { ...spool!, note: 'by the window' }))
    here.settings.change({ theme: 'light' })
    expect(await restored(text)).toEqual({ formulas: 1, items: 1, known: 0, remarks: [] })
    expect(own(here.library).sort()).toEqual(['Changed since', 'test (restored)'])
    expect(here.inventory.inventory.spools.map(({ note }) => note).sort()).toEqual([
      '(from a backup)',
      'by the window',
    ])
    expect(here.settings.theme).toBe('light')
    // And it is kept, not only shown.
    const again = await browser(false)
    expect(own(again.library)).toHaveLength(2)
    expect(again.inventory.inventory.spools).toHaveLength(2)
  })

  it('is due after much work, and not again when it was taken', async () => {
    const here = await browser(true)
    expect(backupDue()).toBeNull()
    await here.library.addAll(
      Array.from({ length: 300 }, (_, i) => ({ ...soundLeader(), name: `${i}` })),
    )
    expect(backupDue()).toBeGreaterThanOrEqual(300)
    noteBackup()
    expect(backupDue()).toBeNull()
  })
})
