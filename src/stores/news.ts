import { computed, shallowRef } from 'vue'
import { defineStore } from 'pinia'
import type { Storage } from '../storage'
import type { Settings } from './settingsFields'
import { useSettings } from './settings'
import { settingsFrom } from './settingsFields'

/**
 * Verdicts were once of one cast that was the same for all, judged in the air. Who knew them so is told, once,
 * why they differ; whoever comes new never learns of it.
 */
export const useNews = defineStore('news', () => {
  const settings = useSettings()
  const isOldHand = shallowRef(false)

  /** Looks at what was kept before this opening, ahead of all that is done in it. */
  async function start(opening: Promise<Storage>): Promise<void> {
    try {
      const storage = await opening
      const before = settingsFrom(await storage.readSettings())
      if (before.knowsDelivery) return
      isOldHand.value = isChosen(before) || (await storage.list()).length > 0
      if (!isOldHand.value) close()
    } catch {
      // Without storage nothing of anybody's is here.
    }
  }

  const close = () => settings.change({ knowsDelivery: true })

  return {
    isOpen: computed(() => isOldHand.value && !settings.all.knowsDelivery),
    start,
    close,
  }
})

const isChosen = (settings: Settings): boolean =>
  JSON.stringify(settings) !== JSON.stringify(settingsFrom(undefined))
