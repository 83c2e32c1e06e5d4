import { computed, onBeforeUnmount, watch } from 'vue'
import type { CastCase } from '../../engine/cast'
import type { Posed } from '../../engine/explore'
import type { Shown } from '../../castViews/shown'
import { caseOf } from '../../engine/cast'
import { LETTERS } from '../../castViews/shown'
import { useFlown } from '../../stores/flown'

/** Has these cases flown, the first first, for as long as the asking part of the page stands. */
export function useWanted(owner: string, inputs: () => readonly CastCase[]): void {
  const flown = useFlown()
  watch(inputs, (now) => flown.want(owner, now), { immediate: true })
  onBeforeUnmount(() => flown.want(owner, []))
}

/** Leaders to be shown together, each under the letter of its place; one whose formula has not come is left out. */
export function useCastsShown(owner: string, posed: () => readonly (Posed | undefined)[]) {
  const flown = useFlown()
  const seated = computed(() =>
    posed().flatMap((each, i) =>
      each ? [{ ...each, letter: LETTERS[i] ?? '', input: caseOf(each.leader, each.choices) }] : [],
    ),
  )
  const cases = computed(() =>
    seated.value.flatMap((each) =>
      typeof each.input === 'string' ? [] : [{ ...each, input: each.input }],
    ),
  )
  useWanted(owner, () => cases.value.map(({ input }) => input))

  const shown = computed(() =>
    cases.value.flatMap(({ leader, letter, input }): Shown[] => {
      const flight = flown.of(input)
      const named = { ...leader, name: `${letter}: ${leader.name}` }
      return flight ? [{ leader: named, input, flown: flight }] : []
    }),
  )
  return {
    seated,
    cases,
    shown,
    /** Every cast that can be flown has been. */
    isComplete: computed(() => shown.value.length === cases.value.length),
  }
}
