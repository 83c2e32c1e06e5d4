// @vitest-environment node
import { describe, expect, it } from 'vitest'
import { flyCase } from '../../../src/cli/cast.js'
import type { CastJob } from '../../../src/documents'
import { readCastCases } from '../../../src/documents'
import { reachesTarget, runCast } from '../../../src/engine/cast'
import reference from '../../reference/casts.json'
import { relative } from './rig'

/** Lighter than this the speed at the turn does not converge with the mesh, kg. */
const LIGHTEST_KG = 10e-6

function jobOf(given: object, patch: object = {}): CastJob {
  const read = readCastCases({ ...given, mesh: 'fine', ...patch })
  if (!read.ok) throw new Error(JSON.stringify(read.problems))
  return read.jobs[0]!
}

// Whole casts by tests/reference/castSimulator.mjs, which shares no code with the engine: other unknowns (angles of
// links), other cuts, another integrator (odex, after Hairer, Norsett and Wanner, Solving Ordinary Differential
// Equations I, 1993).
describe('whole casts against an independent simulator', () => {
  it.each(reference.casts)(
    'on the fine mesh: $name',
    ({ case: given, flight }) => {
      // What is compared is known when the fly is down; the other half of the flight lies on the water.
      const flown = runCast(jobOf(given).input, { stopAtTouch: true })
      expect(flown.status).toBe('ok')
      expect(Math.abs(flown.extension - flight.extension)).toBeLessThan(0.01)
      expect(relative(flown.timeOfExtension_s!, flight.timeOfExtension_s)).toBeLessThan(0.01)
      expect(Math.abs(flown.unrolledFraction - flight.unrolledFraction)).toBeLessThan(0.02)
      expect(given.fly.mass_kg).toBeGreaterThan(LIGHTEST_KG)
      expect(relative(flown.flySpeedAtTurn_m_s!, flight.flySpeedAtTurn_m_s)).toBeLessThan(0.03)
      expect(flown.touchTime_s === null).toBe(flight.touchTime_s === null)
      if (flight.touchTime_s !== null)
        expect(relative(flown.touchTime_s!, flight.touchTime_s)).toBeLessThan(0.01)
    },
    240_000,
  )

  // Half a metre a second either way decides; a whole search on this mesh would only take longer.
  const measured = reference.casts.filter((cast) => cast.leastLineSpeed_m_s !== null)
  it.each(measured)(
    'least line speed within 0.5 m/s: $name',
    ({ case: given, leastLineSpeed_m_s }) => {
      const at = (lineSpeed_m_s: number) =>
        jobOf(given, { endTime_s: 2.5, cast: { ...given.cast, lineSpeed_m_s } }).input
      expect(reachesTarget(at(leastLineSpeed_m_s + 0.5))).toBe(true)
      expect(reachesTarget(at(leastLineSpeed_m_s - 0.5))).toBe(false)
    },
    240_000,
  )

  it('least line speed as the command line prints it, on the usual mesh', () => {
    const [{ case: given, leastLineSpeed_m_s }] = measured as [(typeof measured)[number]]
    const job = jobOf(given, { mesh: 'usual', endTime_s: 2.5, want: ['leastSpeed'] })
    const printed = flyCase(job).leastLineSpeed_m_s!
    expect(Math.abs(printed - leastLineSpeed_m_s)).toBeLessThan(0.5)
  }, 240_000)
})
