import { computed, shallowRef } from 'vue'
import { defineStore } from 'pinia'
import type { LimitId } from '../engine/checks'
import type { Storage } from '../storage'
import type { Settings } from './settingsFields'
import { messageOf } from '../engine/messageOf'
import { settingsFrom } from './settingsFields'

/** Units, theme and limits: what the user wants everywhere, kept in this browser. */
export const useSettings = defineStore('settings', () => {
  const all = shallowRef(settingsFrom(undefined))
  const problem = shallowRef<string>()
  let storage: Promise<Storage> | undefined
  /** Changed and not yet known to be kept; wins over what storage says. */
  let unkept: Partial<Settings> = {}

  /** Takes over what is kept, beneath what was changed while storage was opening. */
  async function start(opening: Promise<Storage>): Promise<void> {
    storage = opening
    try {
      const opened = await opening
      opened.onChange((change) => {
        if ('settings' in change) void read(opened)
      })
      await read(opened)
    } catch (error) {
      problem.value = messageOf(error)
    }
  }

  async function read(opened: Storage): Promise<void> {
    const kept = await opened.readSettings()
    all.value = { ...settingsFrom(kept), ...unkept }
  }

  function change(patch: Partial<Settings>): void {
    all.value = settingsFrom({ ...all.value, ...patch })
    unkept = { ...unkept, ...patch }
    void keep(unkept)
  }

  /** A choice that cannot be kept still holds until the page is closed, and goes with the next one. */
  async function keep(patch: Partial<Settings>): Promise<void> {
    try {
      await (await storage)?.writeSettings(patch)
      if (storage && unkept === patch) unkept = {}
      problem.value = undefined
    } catch (error) {
      problem.value = messageOf(error)
    }
  }

  /** Puts the user's limit in place of ours, or ours back. */
  function setLimit(id: LimitId, value: number | undefined): void {
    const { [id]: _ours, ...others } = all.value.limits
    change({ limits: value === undefined ? others : { ...others, [id]: value } })
  }

  return {
    diameterUnit: computed(() => all.value.diameterUnit),
    lengthUnit: computed(() => all.value.lengthUnit),
    forceUnit: computed(() => all.value.forceUnit),
    theme: computed(() => all.value.theme),
    limits: computed(() => all.value.limits),
    lastOpened: computed(() => all.value.lastOpened),
    yardstick: computed(() => all.value.yardstick),
    /** What a place keeps of its own, as it lies. */
    kept: (field: 'brief' | 'flyBox' | 'inUse' | 'reel' | 'lessons'): unknown => all.value[field],
    /** The fields that only single places read. */
    all: computed(() => all.value),
    storageProblem: computed(() => problem.value),
    start,
    change,
    setLimit,
  }
})
