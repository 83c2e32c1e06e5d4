import type { Pinia } from 'pinia'
import { createPinia } from 'pinia'
import { useBench } from '../../src/stores/bench'
import { startStores } from '../../src/stores/boot'
import { useLibrary } from '../../src/stores/library'
import { useSettings } from '../../src/stores/settings'
import type { Storage } from '../../src/storage'
import { openStorage, StorageError } from '../../src/storage'

export const FIRST = 'shipped:middle-sallow-9ft-5x'

export function storesOf(pinia: Pinia) {
  return { bench: useBench(pinia), library: useLibrary(pinia), settings: useSettings(pinia) }
}

const open: Storage[] = []

/** One tab of the app: its own stores over the storage that all tabs share. */
export async function openTab() {
  const storage = await openStorage()
  open.push(storage)
  const pinia = createPinia()
  await startStores(pinia, Promise.resolve(storage))
  return { ...storesOf(pinia), storage }
}

export async function openTabWithoutStorage() {
  const pinia = createPinia()
  await startStores(pinia, Promise.reject(new StorageError('denied')))
  return storesOf(pinia)
}

export async function closeTabs(): Promise<void> {
  await Promise.all(open.splice(0).map((storage) => storage.close()))
}
