import type { Shown } from './shown'
import { attribute } from '../engine/cast'
import { chordOf, leaderLength_m } from './scene'

export interface Curve {
  readonly name: string
  readonly points: readonly { readonly x: number; readonly y: number }[]
  /** Which of the leaders shown together it is about: its colour; the first if left out. */
  readonly of?: number
}

/** Where the energy of a cast stands along time, mJ. */
export function energyCurves({ flown }: Shown): Curve[] {
  const { frames } = flown
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
export function extensionCurves(flights: readonly Shown[]): Curve[] {
  return flights.map((flight, i) => ({
    name: flight.leader.name,
    of: i,
    points: flight.flown.frames.map((f) => ({
      x: f.time_s,
      y: chordOf(f, flight.flown.buttNode, leaderLength_m(flight)),
    })),
  }))
}

export interface PieceLoss {
  readonly name: string
  readonly cross_mJ: number
  readonly axial_mJ: number
  readonly bending_mJ: number
}

/** What the line, each piece of the leader and the fly lost. */
export function lossRows({ flown, leader }: Shown): PieceLoss[] {
  const attribution = attribute(flown)
  const pieces = attribution?.pieces ?? []
  const rows = pieces.map((p) => ({
    name: p.segment < 0 ? 'line' : `${p.segment + 1} ${leader.segments[p.segment]?.part ?? ''}`,
    cross_mJ: p.cross_J * 1e3,
    axial_mJ: p.axial_J * 1e3,
    bending_mJ: p.bending_J * 1e3,
  }))
  const fly_mJ = (attribution?.fly_J ?? 0) * 1e3
  return [...rows, { name: 'fly', cross_mJ: fly_mJ, axial_mJ: 0, bending_mJ: 0 }]
}
