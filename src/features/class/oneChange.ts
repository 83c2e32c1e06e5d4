import { computed, shallowRef } from 'vue'
import type { MeasureId, Posed } from '../../engine/explore'
import { measuresOf, spanOf } from '../../engine/explore'
import { partOf, useCasts, valueOf } from '../../stores/casts'
import { useClassroom } from '../../stores/classroom'
import {
  bandCurves,
  likelyCases,
  measureCurve,
  nearest,
  outwardFrom,
  pointsOver,
  sampledPoints,
} from './exploration'

/** The casts over the range of the quantity that the class changes, and the one of them that is looked at. */
export function useRange(posed: () => Posed | undefined) {
  const [room, casts] = [useClassroom(), useCasts()]
  const span = computed(() => {
    const now = posed()
    return now ? spanOf(now, room.explored) : null
  })
  const points = computed(() => {
    const now = posed()
    return now && span.value ? pointsOver(now, room.explored, span.value) : []
  })
  const questions = computed(() =>
    points.value.map(({ input }) => ({ kind: 'flight', input }) as const),
  )
  const flights = computed(() =>
    questions.value.map((question) => valueOf(casts.answerTo(question))),
  )

  /** Flown from where the leader stands outward; what was there when it was stopped is kept. */
  const present = computed(() => nearest(points.value, span.value?.present ?? 0))
  const stopped = shallowRef<{ readonly of: object; readonly kept: typeof questions.value }>()
  const isStopped = computed(() => stopped.value?.of === points.value)
  casts.askAll(
    () =>
      isStopped.value ? (stopped.value?.kept ?? []) : outwardFrom(questions.value, present.value),
    'ahead',
  )
  function stop(): void {
    stopped.value = {
      of: points.value,
      kept: questions.value.filter((_, i) => flights.value[i] !== undefined),
    }
  }

  /** Where the slider stands, as an index: on the leader as it is until it is moved. */
  const moved = shallowRef<{ readonly of: object; readonly at: number }>()
  const at = computed({
    get: () => (moved.value?.of === points.value ? moved.value.at : present.value),
    set: (to) => (moved.value = { of: points.value, at: to }),
  })

  /** Once the range is flown: how the extension of likely casts spreads about it. */
  const done = computed(() => flights.value.filter(Boolean).length)
  const sampled = computed(() => sampledPoints(points.value))
  const likely = casts.ask(() => {
    if (points.value.length === 0 || done.value < points.value.length) return undefined
    return { kind: 'extensions', inputs: likelyCases(sampled.value) } as const
  }, 'background')

  const measures = computed(() => flights.value.map((flight) => flight && measuresOf(flight)))
  const curvesOf = (id: MeasureId, axis_size: number) => [
    measureCurve(points.value, measures.value, id, axis_size),
    ...(id === 'extension' ? bandCurves(sampled.value, partOf(likely.value) ?? [], axis_size) : []),
  ]
  const point = computed(() => points.value[at.value])
  const shown = computed(() => {
    const flown = flights.value[at.value]
    return point.value && flown
      ? [{ leader: point.value.posed.leader, input: point.value.input, flown }]
      : []
  })
  return { points, at, point, shown, done, isStopped, stop, curvesOf }
}
