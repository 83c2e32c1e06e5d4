import { onBeforeUnmount, ref } from 'vue'
import { useWindowKeys } from '../ui/windowKeys'

/** A page that was held up for a moment goes on from where it stood, ms. */
const LONGEST_TICK_MS = 100

/** Plays a stretch of time: moment, rate, play, pause and steps; arrow keys and space work while it is mounted. */
export function usePlayer(end_s: () => number, step: (by: number) => number) {
  const time_s = ref(0)
  const rate = ref(0.25)
  const isPlaying = ref(false)
  let lastTick = 0
  let request = 0

  function tick(now: number) {
    time_s.value += (Math.min(now - lastTick, LONGEST_TICK_MS) / 1000) * rate.value
    lastTick = now
    if (time_s.value >= end_s()) {
      time_s.value = end_s()
      isPlaying.value = false
    }
    if (isPlaying.value) request = requestAnimationFrame(tick)
  }

  /** Stops at once: not a frame more is drawn. */
  function pause() {
    isPlaying.value = false
    cancelAnimationFrame(request)
  }

  /** Plays on, or from the start where it stands at the end; pauses if it plays. */
  function play() {
    if (isPlaying.value) return pause()
    isPlaying.value = true
    if (time_s.value >= end_s()) time_s.value = 0
    lastTick = performance.now()
    request = requestAnimationFrame(tick)
  }

  /** To another frame: `step` says when that is. */
  function stepBy(by: number) {
    pause()
    time_s.value = step(by)
  }

  function onKey(event: KeyboardEvent) {
    const target = event.target as HTMLElement
    if (event.ctrlKey || event.metaKey || event.altKey) return
    if (target.matches('input, select, textarea, button, summary, a')) return
    const act = { ArrowRight: () => stepBy(1), ArrowLeft: () => stepBy(-1), ' ': play }[event.key]
    if (!act) return
    event.preventDefault()
    act()
  }

  useWindowKeys(onKey)
  onBeforeUnmount(() => cancelAnimationFrame(request))

  return { time_s, rate, isPlaying, play, pause, stepBy }
}
