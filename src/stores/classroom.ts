import { computed, shallowRef } from 'vue'
import { defineStore } from 'pinia'
import type { CastChoices } from '../engine/cast'
import type { Explored, Posed } from '../engine/explore'
import type { Leader } from '../engine/leader'
import { changed } from '../engine/explore'
import { useBench } from './bench'
import { useLibrary } from './library'
import { shippedId } from './entry'

/** One of the leaders of a class: from the bench or the formulas, with one thing changed or as it is. */
export interface Seat {
  /** `bench`, the id of a formula, or `given` where the leader itself is. */
  readonly source: string
  /** A leader that stands in no list, such as one of a lesson. */
  readonly leader?: Leader
  readonly change?: { readonly what: Explored; readonly value: number }
}

export const MOST_SEATS = 4
const SECOND = shippedId('saturday-class-level-line')

/** What a class looks at: two to four leaders under one cast, and the one of them that is changed. */
export const useClassroom = defineStore('classroom', () => {
  const [bench, library] = [useBench(), useLibrary()]
  const seats = shallowRef<readonly Seat[]>([{ source: 'bench' }, { source: SECOND }])
  const choices = shallowRef<CastChoices>({})
  const subject = shallowRef<Seat>({ source: 'bench' })
  const explored = shallowRef<Explored>({ id: 'tippet-length', piece: 1 })

  function leaderOf(source: string): Leader | undefined {
    return source === 'bench' ? bench.leader : library.leaderOf(source)
  }

  /** The leader of a seat without its change; undefined while its formula has not come, or is gone. */
  function plainOf(seat: Seat): Posed | undefined {
    const leader = seat.leader ?? leaderOf(seat.source)
    return leader && { leader, choices: choices.value }
  }

  /** The same as it is cast. */
  function posedOf(seat: Seat): Posed | undefined {
    const plain = plainOf(seat)
    return plain && seat.change ? changed(plain, seat.change.what, seat.change.value) : plain
  }

  function setSeat(at: number, seat: Seat): void {
    seats.value = seats.value.map((each, i) => (i === at ? seat : each))
  }

  function addSeat(): void {
    const last = seats.value.at(-1)
    if (last && seats.value.length < MOST_SEATS) seats.value = [...seats.value, last]
  }

  function removeSeat(at: number): void {
    if (seats.value.length > 1) seats.value = seats.value.filter((_, i) => i !== at)
  }

  return {
    seats,
    choices,
    subject,
    explored,
    posed: computed(() => seats.value.map(posedOf)),
    plainOf,
    setSeat,
    addSeat,
    removeSeat,
  }
})
