import { computed, shallowRef } from 'vue'
import { defineStore } from 'pinia'
import type { Edit, Leader } from '../engine/leader'
import type { Flown } from '../engine/checks'
import type { Judgement } from '../engine/delivery'
import type { Yardstick } from './benchDelivery'
import { evaluate } from '../engine/evaluate'
import { applyEdit } from '../engine/leader'
import { isShippedId } from './entry'
import { endMerge, redo, undo } from './history'
import { newId, useItems } from './items'
import { useLibrary } from './library'
import { useSettings } from './settings'
import { OpenLeader } from './openLeader'
import { FIRST_SHIPPED } from './shipped'
import { startingLeader } from './startingLeader'

const FIRST = FIRST_SHIPPED.id
const NEW_NAME = 'New leader'

/** Where it is read how the leader on the bench is delivered. */
interface DeliverySource {
  readonly judgement: Judgement
  readonly flown: Flown | undefined
  readonly yardstick: Yardstick | undefined
}

/** The leader that is open, its undo history, what is computed about it, and whether it is kept. */
export const useBench = defineStore('bench', () => {
  const [library, settings, items] = [useLibrary(), useSettings(), useItems()]
  const notice = shallowRef<string>()
  /** Every leader opened since the page was loaded, so that each keeps its undo history. */
  const openLeaders = new Set<OpenLeader>()
  const openLeader = shallowRef(firstLeader())
  const history = computed(() => openLeader.value.history.value)
  const leader = computed(() => history.value.present)
  const id = computed(() => openLeader.value.id.value)

  items.listen(({ kind, id: changed }, formula, from) => {
    if (kind !== 'formula') return
    for (const each of openLeaders) if (each.id.value === changed) each.heed(formula, from)
  })

  function opened(of: string, start: Leader, basedOn?: number): OpenLeader {
    const made = new OpenLeader({
      items,
      id: of,
      leader: start,
      basedOn,
      ownName: (name) => library.markedName(name, 'mine'),
      // A leader that is not on the bench has nobody to talk to.
      say: (text) => {
        if (openLeader.value === made) notice.value = text
      },
      removeCopy: (copy) => library.removeAsSeen([copy]),
    })
    openLeaders.add(made)
    return made
  }

  function firstLeader(): OpenLeader {
    const shipped = library.leaderOf(FIRST)
    return shipped ? opened(FIRST, shipped) : opened(newId(), startingLeader(NEW_NAME))
  }

  /** Puts a formula on the bench; false, with a notice, where it is gone or does not read. */
  function open(wanted: string): boolean {
    const found = openLeaderOf(wanted)
    if (found) {
      show(found)
      remember()
    } else notice.value = CANNOT_OPEN
    return found !== undefined
  }

  function openLeaderOf(wanted: string): OpenLeader | undefined {
    const stored = library.leaderOf(wanted)
    if (!stored) return undefined
    const open = [...openLeaders].find((each) => each.id.value === wanted)
    return open ?? opened(wanted, stored, library.formulaOf(wanted)?.revision || undefined)
  }

  function openNew(): void {
    show(opened(newId(), startingLeader(NEW_NAME)))
  }

  function show(next: OpenLeader): void {
    openLeader.value.move(endMerge)
    openLeader.value = next
    notice.value = undefined
  }

  const isResumed = shallowRef(false)

  /** Goes on where the user stopped last time, unless they have begun something since. */
  function resume(): void {
    isResumed.value = true
    const last = settings.lastOpened
    const untouched = id.value === FIRST && openLeaders.size === 1 && !isTyping()
    if (!untouched || last === undefined) return
    if (library.leaderOf(last)) open(last)
    // Another leader in its place without a word would look as if the work were gone.
    else if (library.formulaOf(last)) notice.value = CANNOT_OPEN
  }

  function edit(label: string, next: Leader | ((leader: Leader) => Leader), key?: string): void {
    openLeader.value.edit(label, next, key)
    remember()
  }

  function remember(): void {
    if (settings.lastOpened !== id.value) settings.change({ lastOpened: id.value })
  }

  function keepMine(): void {
    openLeader.value.keepMine()
    remember()
  }

  async function takeTheirs(): Promise<void> {
    await openLeader.value.takeTheirs()
    remember()
  }

  /** There only once the first screen stands, which does without. */
  const source = shallowRef<DeliverySource>()

  const conflict = computed(() => {
    const theirs = openLeader.value.conflict.value
    return theirs === undefined ? undefined : { theirs: library.leaderOf(theirs) }
  })

  return {
    leader,
    id,
    isShipped: computed(() => isShippedId(id.value)),
    evaluation: computed(() => evaluate(leader.value, settings.limits, source.value?.flown)),
    judgement: computed<Judgement>(() => source.value?.judgement ?? { kind: 'checking' }),
    yardstick: computed(() => source.value?.yardstick),
    readDeliveries: (from: DeliverySource) => (source.value = from),
    saveState: computed(() => (conflict.value ? 'conflict' : openLeader.value.state.value)),
    storageProblem: computed(() => library.storageProblem),
    conflict,
    notice,
    canUndo: computed(() => history.value.past.length > 0),
    canRedo: computed(() => history.value.future.length > 0),
    undoLabel: computed(() => history.value.past.at(-1)?.label),
    redoLabel: computed(() => history.value.future.at(-1)?.label),
    open,
    openNew,
    resume,
    /** Whether the formula that was opened last, if there is one, has had its chance. */
    isResumed: computed(() => isResumed.value),
    edit,
    apply: (label: string, change: Edit) => edit(label, (before) => applyEdit(before, change)),
    endMerge: () => openLeader.value.move(endMerge),
    undo: () => openLeader.value.move(undo),
    redo: () => openLeader.value.move(redo),
    keepMine,
    takeTheirs,
    /** Is kept when nothing waits to be saved, in whatever leader. */
    settled: async () => {
      await Promise.all([...openLeaders].map((each) => each.settled()))
    },
  }
})

/** Another leader on the bench would take away a figure that is typed and not yet entered. */
const isTyping = () => Boolean(globalThis.document?.querySelector('[data-draft="true"]'))

const CANNOT_OPEN =
  'This formula cannot be opened: it was removed, or this version cannot read it. The library says why and exports it.'
