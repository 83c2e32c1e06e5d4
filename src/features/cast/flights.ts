import type { ComputedRef } from 'vue'
import { computed } from 'vue'
import type { CastChoices } from '../../engine/cast'
import type { Leader } from '../../engine/leader'
import type { Shown } from '../../castViews/shown'
import { caseOf, withSpeed } from '../../engine/cast'
import { fingerprintOf, partOf, reasonOf, useCasts, valueOf } from '../../stores/casts'

/** A flight to be shown, with what else is known of its case. */
export interface ShownFlight extends Shown {
  readonly fingerprint: string
  /** Extension at each of `SPEEDS_M_S`, as they arrive. */
  readonly extensions: readonly number[]
}

/** Line speeds at which extension is drawn, m/s. */
export const SPEEDS_M_S: readonly number[] = Array.from({ length: 15 }, (_, k) => 5 + k)

/** The flight of a leader by these choices; the one before is shown until the next is in. */
export function useFlight(leader: () => Leader | undefined, choices: () => CastChoices) {
  const casts = useCasts()
  const posed = computed(() => {
    const now = leader()
    return now && { leader: now, input: caseOf(now, { mesh: 'usual', ...choices() }) }
  })
  const question = computed(() => {
    const input = posed.value?.input
    return typeof input === 'object' ? ({ kind: 'flight', input } as const) : undefined
  })
  const flown = casts.ask(() => question.value, 'cast')
  const sweep = casts.ask(() => {
    const input = valueOf(flown.value) && question.value?.input
    if (!input) return undefined
    const inputs = SPEEDS_M_S.map((v) => withSpeed({ ...input, mesh: 'coarse' }, v))
    return { kind: 'extensions', inputs } as const
  }, 'background')

  const flight: ComputedRef<ShownFlight | undefined> = computed((before) => {
    const [asked, result] = [question.value, valueOf(flown.value)]
    if (!posed.value || !asked) return undefined
    if (!result) return before
    return {
      leader: posed.value.leader,
      input: asked.input,
      flown: result,
      fingerprint: fingerprintOf(asked),
      extensions: partOf(sweep.value) ?? [],
    }
  })
  const problem = computed(() => {
    const input = posed.value?.input
    if (typeof input === 'string') return MISSING[input]
    const status = valueOf(flown.value)?.status ?? 'ok'
    const unsaid = reasonOf(flown.value) ?? reasonOf(sweep.value)
    return status === 'ok' ? unsaid : `This cast ${status}.`
  })
  return { flight, problem }
}

const MISSING = {
  'no-fly': 'This leader carries no fly. Choose one on the bench, and it can be cast.',
  'no-line': 'No fly line is chosen for this leader. Choose one on the bench, and it can be cast.',
} as const
