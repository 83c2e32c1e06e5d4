import type { ShallowRef } from 'vue'
import { onBeforeUnmount, shallowRef, watch } from 'vue'

/** A value that follows its source once the frame that shows the source's other effects is on the screen. */
export function useNextFrame<T>(source: () => T): ShallowRef<T> {
  const late = shallowRef(source()) as ShallowRef<T>
  let waiting: number | undefined
  watch(source, () => {
    waiting ??= requestAnimationFrame(() => setTimeout(follow))
  })
  function follow() {
    waiting = undefined
    late.value = source()
  }
  onBeforeUnmount(() => {
    if (waiting !== undefined) cancelAnimationFrame(waiting)
  })
  return late
}
