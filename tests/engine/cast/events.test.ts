// @vitest-environment node
import { describe, expect, it } from 'vitest'
import {
  runCast,
  STANDARD_SETTINGS,
  STANDARD_SURROUNDINGS,
  STATED_STRAND,
  standardLine,
} from '../../../src/engine/cast'

const strand = (length_m: number, d: number) => ({
  length_m,
  diameterFrom_m: d,
  diameterTo_m: d,
  density_kg_m3: 1140,
  modulus_Pa: 2.5e9,
  spreads: STATED_STRAND,
})
const CASE = {
  ...STANDARD_SURROUNDINGS,
  line: standardLine(),
  segments: [strand(1, 5e-4), strand(0.7, 3e-4), strand(0.6, 1.5e-4)],
  fly: { mass_kg: 35e-6, dragArea_m2: 70e-6 },
  cast: STANDARD_SETTINGS,
}

describe('events of a flight', () => {
  const { events, timeOfTurn_s, touchTime_s } = runCast({ ...CASE, endTime_s: 6 })

  it('come in their order: unrolled with the turn of the tip, straight, and at rest last', () => {
    expect(events.unrolled_s).not.toBeNull()
    expect(events.unrolled_s!).toBeGreaterThanOrEqual(timeOfTurn_s! - 0.01)
    expect(events.straight_s!).toBeGreaterThan(timeOfTurn_s! - 0.05)
    expect(events.atRest_s!).toBeGreaterThan(touchTime_s!)
  })

  it('the first touch is that of whatever part comes down first, the fly at the latest', () => {
    expect(events.firstTouch_s!).toBeLessThanOrEqual(touchTime_s! + 0.01)
  })

  it('that do not happen are null', () => {
    const short = runCast({ ...CASE, endTime_s: 0.2 }).events
    expect(short).toEqual({
      unrolled_s: null,
      straight_s: null,
      firstTouch_s: null,
      atRest_s: null,
    })
  })
})
