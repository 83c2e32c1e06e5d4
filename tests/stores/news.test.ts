// @vitest-environment node
import 'fake-indexeddb/auto'
import { IDBFactory } from 'fake-indexeddb'
import { createPinia } from 'pinia'
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest'
import type { Leader } from '../../src/engine/leader'
import type { Storage } from '../../src/storage'
import { openStorage } from '../../src/storage'
import { startStores } from '../../src/stores/boot'
import { useNews } from '../../src/stores/news'
import { useSettings } from '../../src/stores/settings'
import { startingLeader } from '../../src/stores/startingLeader'
import { writeFormula } from '../../src/documents'
import { put } from '../support/formulaStorage'
import { closeTabs, storesOf } from './tab'

const tabs: Storage[] = []

beforeEach(() => {
  vi.stubGlobal('indexedDB', new IDBFactory())
})

afterEach(async () => {
  await Promise.all(tabs.splice(0).map((storage) => storage.close()))
  await closeTabs()
  vi.unstubAllGlobals()
})

/** What an older version left behind. */
async function leave(what: (storage: Storage) => Promise<unknown>): Promise<void> {
  const storage = await openStorage()
  await what(storage)
  await storage.close()
}

async function openTab(meanwhile: (stores: ReturnType<typeof storesOf>) => void = () => {}) {
  const [pinia, opening] = [createPinia(), openStorage()]
  const started = startStores(pinia, opening)
  meanwhile(storesOf(pinia))
  await started
  tabs.push(await opening)
  const [news, settings] = [useNews(pinia), useSettings(pinia)]
  const written = () => vi.waitFor(() => expect(settings.isWriting).toBe(false))
  return { ...storesOf(pinia), news, written }
}

const noted = (leader: Leader) => ({ ...leader, notes: 'mine' })

describe('the news that verdicts differ', () => {
  it.each([
    ['a formula opened', (storage: Storage) => storage.writeSettings(() => ({ lastOpened: 'x' }))],
    ['a setting changed', (storage: Storage) => storage.writeSettings(() => ({ theme: 'dark' }))],
    [
      'a formula of their own',
      (storage: Storage) =>
        put(storage, {
          id: 'own',
          savedAt: '2025-05-01T08:00:00.000Z',
          file: writeFormula(startingLeader('Evening')),
          basedOn: undefined,
        }),
    ],
  ])('is told once to those who left %s', async (_, what) => {
    await leave(what)
    const { news, written } = await openTab()
    expect(news.isOpen).toBe(true)
    // It stays until it is closed.
    expect((await openTab()).news.isOpen).toBe(true)
    news.close()
    expect(news.isOpen).toBe(false)
    await written()
    expect((await openTab()).news.isOpen).toBe(false)
  })

  it('is never told to those who come new, whatever they do', async () => {
    const first = await openTab(({ bench }) => bench.edit('Notes', noted))
    expect(first.news.isOpen).toBe(false)
    await first.bench.settled()
    await first.written()
    const later = await openTab()
    expect(later.settings.lastOpened).toBe(first.bench.id)
    expect(later.news.isOpen).toBe(false)
  })

  it('is closed in all tabs at once', async () => {
    await leave((storage) => storage.writeSettings(() => ({ theme: 'dark' })))
    const [one, two] = [await openTab(), await openTab()]
    one.news.close()
    await vi.waitFor(() => expect(two.news.isOpen).toBe(false))
  })

  it('is not told where nothing can be kept', async () => {
    const pinia = createPinia()
    await startStores(pinia, Promise.reject(new Error('denied')))
    expect(useNews(pinia).isOpen).toBe(false)
  })
})
