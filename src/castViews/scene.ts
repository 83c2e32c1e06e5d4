import type { Frame } from '../engine/cast'
import type { Shown } from './shown'

/** What the scene must hold, m: one scale for both axes, the same for both leaders. */
export interface Extent {
  readonly left: number
  readonly right: number
  readonly bottom: number
  readonly top: number
}

const MARGIN_M = 0.4
const UNDER_WATER_M = 0.35

/** The box that holds every frame of every flight, rod tip and water included. */
export function extentOf(flights: readonly Shown[]): Extent {
  let [left, right, top] = [-0.6, 1, 2.5]
  for (const { flown } of flights) {
    for (const { x, y } of flown.frames) {
      for (let k = 0; k < x.length; k++) {
        left = Math.min(left, x[k] ?? 0)
        right = Math.max(right, x[k] ?? 0)
        top = Math.max(top, y[k] ?? 0)
      }
    }
  }
  return {
    left: left - MARGIN_M,
    right: right + MARGIN_M,
    bottom: -UNDER_WATER_M,
    top: top + MARGIN_M,
  }
}

/** The last frame up to a time (s), which need not be in range. */
export function frameAt(frames: readonly Frame[], time_s: number): number {
  let [low, high] = [0, frames.length - 1]
  while (low < high) {
    const middle = (low + high + 1) >> 1
    if ((frames[middle]?.time_s ?? 0) <= time_s + 1e-4) low = middle
    else high = middle - 1
  }
  return Math.max(0, low)
}

/** Points of the line (rod tip to butt) and of the leader (butt to fly) as SVG polylines, m with y up. */
export function polylines(
  frame: Frame,
  butt: number,
): { readonly line: string; readonly leader: string } {
  const point = (k: number) => `${(frame.x[k] ?? 0).toFixed(3)},${(-(frame.y[k] ?? 0)).toFixed(3)}`
  const range = (from: number, to: number) =>
    Array.from({ length: to - from + 1 }, (_, i) => point(from + i)).join(' ')
  return { line: range(0, butt), leader: range(butt, frame.x.length - 1) }
}

/** Chord from butt to fly over leader length, and whether the fly is ahead. */
export function chordOf(frame: Frame, butt: number, leaderLength_m: number): number {
  const last = frame.x.length - 1
  const [dx, dy] = [
    (frame.x[last] ?? 0) - (frame.x[butt] ?? 0),
    (frame.y[last] ?? 0) - (frame.y[butt] ?? 0),
  ]
  return (Math.sign(dx) * Math.hypot(dx, dy)) / leaderLength_m
}

export function leaderLength_m({ input }: Shown): number {
  return input.segments.reduce((sum, s) => sum + s.length_m, 0)
}

/** Speed (m/s) of every node between a frame and the next, for colouring the strand by what moves. */
export function speedsAt(frames: readonly Frame[], i: number): number[] {
  const [a, b] = [frames[i], frames[Math.min(i + 1, frames.length - 1)]]
  if (!a || !b || a === b) return []
  const dt = b.time_s - a.time_s
  return [...a.x].map((x, k) => Math.hypot((b.x[k] ?? 0) - x, (b.y[k] ?? 0) - (a.y[k] ?? 0)) / dt)
}

/** Moments worth a still: start, half unrolled, turn, greatest extension, touch; in order, none twice. */
export function keyMoments({ flown }: Shown): { readonly name: string; readonly time_s: number }[] {
  const { timeOfTurn_s, timeOfExtension_s, touchTime_s } = flown
  const half = timeOfTurn_s === null ? null : timeOfTurn_s * 0.6
  const moments = [
    { name: 'the loop as formed', time_s: 0 },
    { name: 'the loop runs out the line', time_s: half },
    { name: 'the last piece stands upright', time_s: timeOfTurn_s },
    { name: 'greatest extension', time_s: timeOfExtension_s },
    { name: 'the fly on the water', time_s: touchTime_s },
  ]
  return moments
    .flatMap((m) => (m.time_s === null ? [] : [{ name: m.name, time_s: m.time_s }]))
    .sort((a, b) => a.time_s - b.time_s)
    .filter(({ time_s }, i, all) => time_s !== all[i - 1]?.time_s)
}
