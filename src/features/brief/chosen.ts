import type { ComputedRef } from 'vue'
import { computed } from 'vue'
import type { Advice, Choice, Made } from '../../engine/advice'
import type { Judgement } from '../../engine/delivery'
import type { Leader } from '../../engine/leader'
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

type Judge = (leader: Leader) => Judgement

/** Has the tries of an advice thrown, each only where those before it come over too seldom. */
export function useChosen(advice: () => Advice): ComputedRef<Chosen | undefined> {
  const judged = useJudged()
  const chosen = computed(() => chosenFrom(advice(), judged))
  useDeliveries(() => {
    const thrown = thrownOf(advice(), chosen.value)
    const { plain } = advice()
    return plain && chosen.value && chosen.value.choice.next === undefined
      ? [...thrown, plain.leader]
      : thrown
  }, 'brief')
  return chosen
}

function chosenFrom({ tries, plain }: Advice, judged: Judge): Chosen | undefined {
  const choice = chosenOf(
    tries,
    tries.map(({ leader }) => judged(leader)),
  )
  const made = tries[choice.taken]
  if (!made || !plain) return undefined
  return { choice, made, judgement: judged(made.leader), plain: judged(plain.leader) }
}

/** Those of the tries that are thrown by now, with the one that comes next. */
function thrownOf({ tries }: Advice, chosen: Chosen | undefined): Leader[] {
  if (!chosen) return []
  return tries.slice(0, chosen.choice.looked).map(({ leader }) => leader)
}

/** The same brief with a smaller fly: what came of throwing its leaders, as far as that is known. */
export interface Smaller {
  readonly hook: number
  readonly chosen: Chosen
}

/** Has the leaders for smaller flies thrown where there are any. */
export function useSmaller(
  advices: () => readonly { readonly hook: number; readonly advice: Advice }[],
): ComputedRef<readonly Smaller[]> {
  const judged = useJudged()
  const all = computed(() =>
    advices().flatMap(({ hook, advice }) => {
      const chosen = chosenFrom(advice, judged)
      return chosen ? [{ hook, advice, chosen }] : []
    }),
  )
  useDeliveries(() => all.value.flatMap(({ advice, chosen }) => thrownOf(advice, chosen)), 'brief')
  return all
}
