import { computed } from 'vue'
import { defineStore } from 'pinia'
import type { Piece, UseEvent } from '../engine/advice'
import type { Leader } from '../engine/leader'
import type { LeaderInUse } from '../documents'
import { USUAL_BREAK_M, USUAL_CLIP_M, useStatus, withoutLast } from '../engine/advice'
import { quantityOf } from '../engine/units'
import { inUse as IN_USE } from '../documents/kinds/inUse'
import { useItems } from './items'
import { putTheOne, theOne } from './kept'

/** The leader that is on the water now, kept in this browser. */
export const useInUse = defineStore('inUse', () => {
  const items = useItems()
  const inUse = computed(() => theOne(items, IN_USE)?.value)
  const status = computed(() => {
    const now = inUse.value
    return now && useStatus(now.start, now.events, now.clip.si)
  })

  function start(leader: Leader): void {
    const unit = leader.segments.at(-1)?.length.unit ?? 'in'
    putTheOne(items, IN_USE, (before) => ({
      start: leader,
      events: [],
      clip: before?.clip ?? quantityOf(USUAL_CLIP_M, 'length', unit),
      lost: before?.lost ?? quantityOf(USUAL_BREAK_M, 'length', unit),
    }))
  }

  /** What is told happens to the leader as it is by then, whoever told of it last. */
  function change(step: (now: LeaderInUse) => LeaderInUse): void {
    const shown = inUse.value
    if (shown) putTheOne(items, IN_USE, (now = shown) => step(now))
  }

  const happen = (...events: readonly UseEvent[]) =>
    change((now) => ({ ...now, events: [...now.events, ...events] }))

  function changeFly(): void {
    if (inUse.value) happen({ kind: 'fly-change', clipped_m: inUse.value.clip.si })
  }

  function breakOff(): void {
    if (inUse.value) happen({ kind: 'break', lost_m: inUse.value.lost.si })
  }

  /** Ties pieces on, the first in place of the stub where it is cut off. */
  function add(pieces: readonly Piece[], replaces: boolean): void {
    happen(
      ...pieces.map((piece, i): UseEvent => {
        if (i === 0) return { kind: replaces ? 'replaced' : 'added', piece }
        return { kind: 'added', piece, with: true }
      }),
    )
  }

  /** Takes back what was told last. */
  function undo(): void {
    change((now) => ({ ...now, events: withoutLast(now.events) }))
  }

  function set(patch: Partial<Pick<LeaderInUse, 'clip' | 'lost'>>): void {
    change((now) => ({ ...now, ...patch }))
  }

  return {
    inUse,
    status,
    problem: computed(() => items.problem.value),
    start,
    changeFly,
    breakOff,
    add,
    undo,
    set,
  }
})
