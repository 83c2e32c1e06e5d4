import { computed, shallowRef } from 'vue'
import { defineStore } from 'pinia'
import type { LimitId } from '../engine/checks'
import type { Storage } from '../storage'
import type { Settings } from './settingsFields'
import { messageOf } from '../engine/messageOf'
import { settingsFrom } from './settingsFields'

/** What a change makes of the settings: the fields it changes. */
type SettingsStep = (settings: Settings) => Partial<Settings>

/** Units, theme and limits: what the user wants everywhere, kept in this browser. */
export const useSettings = defineStore('settings', () => {
  const all = shallowRef(settingsFrom(undefined))
  const problem = shallowRef<string>()
  let storage: Promise<Storage> | undefined
  /** Changes not yet known to be kept, the first made first; they win over what storage says. */
  let unkept: readonly SettingsStep[] = []
  const isWriting = shallowRef(false)

  /** Takes over what is kept, beneath what was changed while storage was opening. */
  async function start(opening: Promise<Storage>): Promise<void> {
    storage = opening
    try {
      const opened = await opening
      opened.onChange((change) => {
        if ('settings' in change) void read(opened).catch(tell)
      })
      await read(opened)
    } catch (error) {
      tell(error)
    }
  }

  function tell(error: unknown): void {
    problem.value = messageOf(error)
  }

  async function read(opened: Storage): Promise<void> {
    const kept = await opened.readSettings()
    all.value = after(settingsFrom(kept), unkept)
  }

  const change = (patch: Partial<Settings>) => edit(() => patch)

  /** The step is done here at once, and in storage on what is kept there by then. */
  function edit(step: SettingsStep): void {
    all.value = after(all.value, [step])
    unkept = [...unkept, step]
    void keep()
  }

  /** A choice that cannot be kept still holds until the page is closed, and goes with the next one. */
  async function keep(): Promise<void> {
    if (isWriting.value || !storage) return
    isWriting.value = true
    try {
      const opened = await storage
      while (unkept.length > 0) {
        const steps = unkept
        await opened.writeSettings((kept) => patchOf(settingsFrom(kept), steps))
        unkept = unkept.slice(steps.length)
      }
      problem.value = undefined
    } catch (error) {
      tell(error)
    }
    isWriting.value = false
  }

  /** Puts the user's limit in place of ours, or ours back. */
  function setLimit(id: LimitId, value: number | undefined): void {
    edit(({ limits: { [id]: _ours, ...others } }) => ({
      limits: value === undefined ? others : { ...others, [id]: value },
    }))
  }

  return {
    diameterUnit: computed(() => all.value.diameterUnit),
    lengthUnit: computed(() => all.value.lengthUnit),
    forceUnit: computed(() => all.value.forceUnit),
    speedUnit: computed(() => all.value.speedUnit),
    theme: computed(() => all.value.theme),
    limits: computed(() => all.value.limits),
    lastOpened: computed(() => all.value.lastOpened),
    yardstick: computed(() => all.value.yardstick),
    /** The fields that only single places read. */
    all: computed(() => all.value),
    storageProblem: computed(() => problem.value),
    /** Whether what was changed is still on its way into storage. */
    isWriting: computed(() => isWriting.value),
    start,
    change,
    setLimit,
  }
})

const after = (settings: Settings, steps: readonly SettingsStep[]): Settings =>
  settingsFrom({ ...settings, ...patchOf(settings, steps) })

/** The fields that steps change, one after the other. */
function patchOf(settings: Settings, steps: readonly SettingsStep[]): Partial<Settings> {
  let patch: Partial<Settings> = {}
  for (const step of steps) patch = { ...patch, ...step({ ...settings, ...patch }) }
  return patch
}
