// @vitest-environment node
import { describe, expect, it } from 'vitest'
import { readCastCases } from '../../../src/documents'
import { runCast } from '../../../src/engine/cast'
import reference from '../../reference/casts.json'
import { relative } from './rig'

type Landed = (typeof reference.lays)[number]

/** Where 2 % of line speed moves the lay by more, a flight stands on an edge: there only the bounds are compared. */
const EDGE = 0.1
const layMoves = ({ around: { slower, same, faster } }: Landed): number =>
  Math.max(Math.abs(slower - same), Math.abs(faster - same))

const LAY_WITHIN = 0.04
/** Recoil sets in at just this speed: 1 % more and the engine's lay falls by 0.04. */
const LAY_WITHIN_OF: Readonly<Record<string, number>> = {
  'a small dry on 12 ft 6X at 9 m/s, level': 0.06,
}

/**
 * Over so many times its fall speed a fly touches the water in the midst of turning over, and its speed there does
 * not converge with the mesh.
 */
const IN_ITS_TURN = 2

/** A flight on the fine mesh takes three seconds: one of each leader, and with LAYS=all the whole list. */
const BY_DEFAULT = [
  'a dry on 9 ft 5X at 8 m/s, level',
  'a hopper on 8 ft 2X at 16 m/s, 4 degrees down',
  'a streamer on 7 ft 1X at 12 m/s, level',
  'a small dry on 12 ft 6X at 12 m/s, 8 degrees up',
  'a tuft on a 9 ft class leader at 14 m/s, 4 degrees down',
]
const chosen = reference.lays.filter(
  ({ name }) => process.env['LAYS'] === 'all' || BY_DEFAULT.includes(name),
)

function flown(given: object) {
  const read = readCastCases({ ...given, mesh: 'fine' })
  if (!read.ok) throw new Error(JSON.stringify(read.problems))
  return runCast(read.jobs[0]!.input, { stopAtTouch: true })
}

// Whole casts until the fly is on the water by tests/reference/castSimulator.mjs, our own simulation that shares no
// code with the engine: other unknowns (angles of links), other cuts, a general-purpose library for ordinary
// differential equations (odex, after Hairer, Norsett and Wanner, Solving Ordinary Differential Equations I, 1993).
describe('how casts lie, against an independent simulator', () => {
  it('of its casts at least eight stand on no edge', () => {
    expect(reference.lays.filter((one) => layMoves(one) < EDGE).length).toBeGreaterThanOrEqual(8)
  })

  it.each(chosen.filter((one) => layMoves(one) < EDGE))(
    'on the fine mesh: $name',
    ({ name, case: given, landing }) => {
      const flight = flown(given)
      expect(flight.status).toBe('ok')
      expect(Math.abs(flight.lay! - landing.lay)).toBeLessThan(LAY_WITHIN_OF[name] ?? LAY_WITHIN)
      expect(Math.abs(flight.reachShare! - landing.reachShare)).toBeLessThan(0.02)
      expect(relative(flight.touchTime_s!, landing.touchTime_s)).toBeLessThan(0.02)
      if (landing.touchSpeedRatio > IN_ITS_TURN) return
      expect(relative(flight.touchSpeedDown_m_s!, landing.touchSpeedDown_m_s)).toBeLessThan(0.05)
      expect(relative(flight.touchSpeedRatio!, landing.touchSpeedRatio)).toBeLessThan(0.05)
    },
    240_000,
  )

  it.each(chosen.filter((one) => layMoves(one) >= EDGE))(
    'on an edge, as with a little more or less speed: $name',
    ({ case: given, around: { slower, same, faster } }) => {
      const { lay } = flown(given)
      expect(lay).toBeGreaterThan(Math.min(slower, same, faster))
      expect(lay).toBeLessThan(Math.max(slower, same, faster))
    },
    240_000,
  )
})
