import type { FlightResult } from '../engine/cast'
import type { Shown } from './shown'
import type { Curve } from './curves'
import { frameAt, speedsAt } from './scene'

/** What runs along the leader at a moment, from butt to fly: x in m from the butt. */
export const ALONG = [
  { id: 'speed', title: 'Speed along the leader', unit: 'm/s' },
  { id: 'energy', title: 'Energy left along the leader', unit: 'mJ at each link' },
  { id: 'tension', title: 'Tension along the leader', unit: 'N' },
] as const
export type AlongId = (typeof ALONG)[number]['id']

/** One quantity at every node of each leader at a time (s). */
export function alongCurves(flights: readonly Shown[], id: AlongId, time_s: number): Curve[] {
  return flights.map(({ leader, flown }, of) => {
    const { frames } = flown
    const values = valuesAt(flown, id, frameAt(frames, time_s))
    const places = placesOf(flown)
    return {
      name: leader.name,
      of,
      points: places.map((x, i) => ({ x, y: values[flown.buttNode + i] ?? 0 })),
    }
  })
}

/** Distance (m) of each node of the leader from the butt, along the strand. */
function placesOf({ frames, buttNode }: FlightResult): number[] {
  const [first] = frames
  if (!first) return []
  const places = [0]
  for (let k = buttNode + 1; k < first.x.length; k++) {
    const dx = (first.x[k] ?? 0) - (first.x[k - 1] ?? 0)
    const dy = (first.y[k] ?? 0) - (first.y[k - 1] ?? 0)
    places.push((places.at(-1) ?? 0) + Math.hypot(dx, dy))
  }
  return places
}

function valuesAt(
  { frames, nodeMass_kg }: FlightResult,
  id: AlongId,
  i: number,
): readonly number[] {
  const frame = frames[i]
  if (!frame) return []
  if (id === 'tension') return [...frame.tension_N]
  const speeds = speedsAt(frames, i)
  if (id === 'speed') return speeds
  return speeds.map((v, k) => ((nodeMass_kg[k] ?? 0) * v * v * 1e3) / 2)
}

/** Share of all values that an axis must hold: the snap at the end, which no mesh agrees on, may leave it. */
const HELD = 0.97
const EVERY = 6

/** The highest value that an axis shows while the casts are in the air, so that it stands still while they play. */
export function topOf(flights: readonly Shown[], id: AlongId): number {
  const values = flights.flatMap(({ flown }) => {
    const { frames, touchTime_s } = flown
    const isInAir = (time_s: number) => touchTime_s === null || time_s < touchTime_s
    return frames.flatMap(({ time_s }, i) =>
      i % EVERY === 0 && isInAir(time_s) ? valuesAt(flown, id, i).slice(flown.buttNode) : [],
    )
  })
  const sorted = values.toSorted((a, b) => a - b)
  return sorted[Math.floor(HELD * (sorted.length - 1))] ?? 1
}
