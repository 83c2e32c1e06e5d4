import type { Shown } from './shown'
import { csvRow } from '../documents/spreadsheet'
import { chordOf, leaderLength_m } from './scene'

const HEAD = [
  'leader',
  'time_s',
  'fly_x_m',
  'fly_y_m',
  'fly_speed_m_s',
  'chord_over_length',
  'kinetic_J',
  'lost_to_fly_J',
  'lost_across_J',
  'lost_along_J',
  'lost_to_bending_J',
]

/** Every frame of the casts as rows of a table, SI, with a heading. */
export function runCsv(flights: readonly Shown[]): string {
  const rows = flights.flatMap((flight) => {
    const { frames } = flight.flown
    return frames.map((frame) => {
      const last = frame.x.length - 1
      const { lost_J } = frame
      const figures = [
        frame.time_s,
        frame.x[last] ?? 0,
        frame.y[last] ?? 0,
        frame.flySpeed_m_s,
        chordOf(frame, flight.flown.buttNode, leaderLength_m(flight)),
        frame.kinetic_J,
        lost_J.fly,
        lost_J.cross,
        lost_J.axial,
        lost_J.bending,
      ]
      return csvRow([flight.leader.name, ...figures.map((one) => Number(one.toPrecision(6)))])
    })
  })
  return `${[csvRow(HEAD), ...rows].join('\r\n')}\r\n`
}
