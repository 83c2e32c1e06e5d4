import { computed } from 'vue'
import { defineStore } from 'pinia'
import type { Piece, UseEvent } from '../engine/advice'
import type { Leader } from '../engine/leader'
import type { LeaderInUse } from '../documents'
import { USUAL_BREAK_M, USUAL_CLIP_M, useStatus, withoutLast } from '../engine/advice'
import { quantityOf } from '../engine/units'
import { readLeaderInUse, writeLeaderInUse } from '../documents'
import { useSettings } from './settings'

/** The leader that is on the water now, kept in this browser. */
export const useInUse = defineStore('inUse', () => {
  const settings = useSettings()
  const inUse = computed(() => readLeaderInUse(settings.kept('inUse')))
  const status = computed(() => {
    const now = inUse.value
    return now && useStatus(now.start, now.events, now.clip.si)
  })

  function keep(next: LeaderInUse): void {
    settings.change({ inUse: writeLeaderInUse(next) })
  }

  function start(leader: Leader): void {
    const unit = leader.segments.at(-1)?.length.unit ?? 'in'
    keep({
      start: leader,
      events: [],
      clip: inUse.value?.clip ?? quantityOf(USUAL_CLIP_M, 'length', unit),
      lost: inUse.value?.lost ?? quantityOf(USUAL_BREAK_M, 'length', unit),
    })
  }

  function happen(...events: readonly UseEvent[]): void {
    if (inUse.value) keep({ ...inUse.value, events: [...inUse.value.events, ...events] })
  }

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
    if (inUse.value) keep({ ...inUse.value, events: withoutLast(inUse.value.events) })
  }

  function set(patch: Partial<Pick<LeaderInUse, 'clip' | 'lost'>>): void {
    if (inUse.value) keep({ ...inUse.value, ...patch })
  }

  return {
    inUse,
    status,
    problem: computed(() => settings.storageProblem),
    start,
    changeFly,
    breakOff,
    add,
    undo,
    set,
  }
})
