import type { ComputedRef } from 'vue'
import { computed } from 'vue'
import type { Advice, Choice, Made } from '../../engine/advice'
import type { Judgement } from '../../engine/delivery'
import { chosenOf } from '../../engine/advice'
import { useDeliveries, useJudged } from '../../stores/deliveries'

/** The leader of an advice that was thrown and taken, and what is said of its delivery. */
export interface Chosen {
  readonly choice: Choice
  readonly made: Made
  readonly judgement: Judgement
  /** Of the plain leader that it is compared with. */
  readonly plain: Judgement
}

/** Has the tries of an advice thrown, each only where those before it come over too seldom. */
export function useChosen(advice: () => Advice): ComputedRef<Chosen | undefined> {
  const judged = useJudged()
  const chosen = computed<Chosen | undefined>(() => {
    const { tries, plain } = advice()
    const choice = chosenOf(
      tries,
      tries.map(({ leader }) => judged(leader)),
    )
    const made = tries[choice.taken]
    if (!made || !plain) return undefined
    return { choice, made, judgement: judged(made.leader), plain: judged(plain.leader) }
  })
  useDeliveries(() => {
    const { tries, plain } = advice()
    if (!chosen.value || !plain) return []
    const { next, taken } = chosen.value.choice
    const thrown = tries.slice(0, (next ?? taken) + 1).map(({ leader }) => leader)
    return next === undefined ? [...thrown, plain.leader] : thrown
  }, 'brief')
  return chosen
}
