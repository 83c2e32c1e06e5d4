import { computed } from 'vue'
import type { Posed } from '../../engine/explore'
import type { Shown } from '../../castViews/shown'
import { caseOf } from '../../engine/cast'
import { LETTERS } from '../../castViews/shown'
import { reasonOf, useCasts, valueOf } from '../../stores/casts'

/** Leaders to be shown together, each under the letter of its place; one whose formula has not come is left out. */
export function useCastsShown(posed: () => readonly (Posed | undefined)[]) {
  const casts = useCasts()
  const seated = computed(() =>
    posed().flatMap((each, i) =>
      each ? [{ ...each, letter: LETTERS[i] ?? '', input: caseOf(each.leader, each.choices) }] : [],
    ),
  )
  const cases = computed(() =>
    seated.value.flatMap(({ leader, letter, input }) => {
      if (typeof input === 'string') return []
      const named = { ...leader, name: `${letter}: ${leader.name}` }
      return [{ leader: named, question: { kind: 'flight', input } as const }]
    }),
  )
  casts.askAll(() => cases.value.map(({ question }) => question), 'class')

  const shown = computed(() =>
    cases.value.flatMap(({ leader, question }): Shown[] => {
      const flown = valueOf(casts.answerTo(question))
      return flown ? [{ leader, input: question.input, flown }] : []
    }),
  )
  return {
    seated,
    cases,
    shown,
    /** Every cast that can be flown has been. */
    isComplete: computed(() => shown.value.length === cases.value.length),
    problem: computed(() => {
      const answers = cases.value.map(({ question }) => casts.answerTo(question))
      const reason = answers.map(reasonOf).find(Boolean)
      return reason && `A cast could not be simulated (${reason}).`
    }),
  }
}
