// @vitest-environment node
import 'fake-indexeddb/auto'
import { IDBFactory } from 'fake-indexeddb'
import { createPinia } from 'pinia'
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest'
import { openStorage } from '../../src/storage'
import { startStores } from '../../src/stores/boot'
import { closeTabs, FIRST, openTab, storesOf } from './tab'

beforeEach(() => {
  vi.stubGlobal('indexedDB', new IDBFactory())
})

afterEach(async () => {
  await closeTabs()
  vi.unstubAllGlobals()
})

async function leaveOwnFormula(): Promise<string> {
  const { bench } = await openTab()
  bench.edit('Notes', (leader) => ({ ...leader, notes: 'mine' }))
  await bench.settled()
  return bench.id
}

describe('starting', () => {
  it('shows the shipped formula before storage has said anything', () => {
    const pinia = createPinia()
    void startStores(pinia, new Promise(() => undefined))
    const { bench } = storesOf(pinia)
    expect(bench.id).toBe(FIRST)
    expect(bench.saveState).toBe('saved')
    expect(bench.evaluation.pieces.length).toBeGreaterThan(0)
  })

  it('opens what was opened last, once storage has come', async () => {
    const own = await leaveOwnFormula()
    const { bench } = await openTab()
    expect(bench.id).toBe(own)
    expect(bench.leader.notes).toBe('mine')
  })

  it('leaves what the user has begun meanwhile, and keeps it', async () => {
    const own = await leaveOwnFormula()
    const pinia = createPinia()
    const storage = openStorage()
    const started = startStores(pinia, storage)
    const { bench, library } = storesOf(pinia)
    bench.edit('Notes', (leader) => ({ ...leader, notes: 'begun early' }))
    await started
    await bench.settled()
    expect(bench.leader.notes).toBe('begun early')
    expect(bench.saveState).toBe('saved')
    expect(library.leaderOf(own)?.notes).toBe('mine')
    await (await storage).close()
  })

  it('stays with the shipped formula where the last one is gone', async () => {
    const own = await leaveOwnFormula()
    const { library } = await openTab()
    await library.remove([own])
    expect((await openTab()).bench.id).toBe(FIRST)
  })
})
