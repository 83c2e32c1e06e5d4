import type { Band } from '../../engine/cast'
import type { StoredFlight } from '../../stores/flights'
import { STRAIGHT_EXTENSION } from '../../engine/cast'
import { SPEEDS_M_S } from '../../stores/flights'
import { chordOf, leaderLength_m } from './scene'

export interface Curve {
  readonly name: string
  readonly points: readonly { readonly x: number; readonly y: number }[]
  /** Drawn in the colour of the second leader. */
  readonly isWater?: boolean
}

/** Where the energy of a cast stands along time, mJ. */
export function energyCurves({ flown }: StoredFlight): Curve[] {
  const { frames } = flown.flight
  const curve = (name: string, value: (i: number) => number): Curve => ({
    name,
    points: frames.map((f, i) => ({ x: f.time_s, y: value(i) * 1e3 })),
  })
  return [
    curve('left in motion', (i) => frames[i]?.kinetic_J ?? 0),
    curve('taken by the fly', (i) => frames[i]?.lost_J.fly ?? 0),
    curve('across line and leader (the loop’s front)', (i) => frames[i]?.lost_J.cross ?? 0),
    curve('along them', (i) => frames[i]?.lost_J.axial ?? 0),
    curve('bending', (i) => frames[i]?.lost_J.bending ?? 0),
  ]
}

/** Chord over leader length along time; negative while the fly is behind the butt. */
export function extensionCurves(flights: readonly StoredFlight[]): Curve[] {
  return flights.map((flight, i) => ({
    name: flight.leader.name,
    isWater: i > 0,
    points: flight.flown.flight.frames.map((f) => ({
      x: f.time_s,
      y: chordOf(f, flight.flown.buttNode, leaderLength_m(flight)),
    })),
  }))
}

/** Greatest extension against line speed, and where the least speeds of likely casts lie. */
export function speedCurves(flights: readonly StoredFlight[], band: Band | null = null): Curve[] {
  const curves = flights.map(({ leader, extensions }, i) => ({
    name: leader.name,
    isWater: i > 0,
    points: extensions.map((y, k) => ({ x: SPEEDS_M_S[k] ?? 0, y })),
  }))
  const fastest = SPEEDS_M_S.at(-1) ?? 0
  if (!band || band.p10_m_s === null) return curves
  const ends = [band.p10_m_s, band.p90_m_s ?? fastest]
  const points = ends.map((x) => ({ x: Math.min(x, fastest), y: STRAIGHT_EXTENSION }))
  return [...curves, { name: 'least speed in eight of ten likely casts', points }]
}

export interface PieceLoss {
  readonly name: string
  readonly cross_mJ: number
  readonly axial_mJ: number
  readonly bending_mJ: number
}

/** What each piece of the leader lost, and the line, and the fly. */
export function lossRows({ flown, leader }: StoredFlight): PieceLoss[] {
  const pieces = flown.attribution?.pieces ?? []
  const rows = pieces.map((p) => ({
    name:
      p.segment < 0
        ? 'fly line'
        : `piece ${p.segment + 1}, ${leader.segments[p.segment]?.part ?? ''}`,
    cross_mJ: p.cross_J * 1e3,
    axial_mJ: p.axial_J * 1e3,
    bending_mJ: p.bending_J * 1e3,
  }))
  const fly = {
    name: 'fly',
    cross_mJ: (flown.attribution?.fly_J ?? 0) * 1e3,
    axial_mJ: 0,
    bending_mJ: 0,
  }
  return [...rows, fly]
}
