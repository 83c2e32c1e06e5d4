// @vitest-environment node
import { Solver } from 'odex'
import { describe, expect, it } from 'vitest'
import type { CastCase } from '../../../src/engine/cast'
import { caseOf, runCast, STANDARD_AIR } from '../../../src/engine/cast'
import { flyFrom } from '../../../src/engine/cast/runCast'
import { dragAreaAt, fallSpeed_m_s } from '../../../src/engine/tackle'
import { SHIPPED, leaderOf } from '../../support/formulas'
import { bareCase, evenChain, G, setDrag, strand, stateOf } from './rig'

function shipped(patch: Partial<CastCase> = {}): CastCase {
  const text = SHIPPED.find(({ file }) => file === 'middle-sallow-9ft-5x.json')!.text
  const input = caseOf(leaderOf(text), { mesh: 'coarse' })
  if (typeof input === 'string') throw new Error(input)
  return { ...input, endTime_s: 6, ...patch }
}

/** A fly at a height, at rest, with a metre of next to nothing folded above it, which no air holds back. */
function dropped(height_m: number, fly: CastCase['fly'], patch = {}) {
  const given = { gravity_m_s2: G, fly, mesh: 'usual' as const, endTime_s: 5, ...patch }
  const { input, chain } = evenChain(20, 1, 1e-5, given)
  setDrag(chain, 0, 0)
  const state = stateOf(chain, (k) => (k <= 12 ? 0.2 : Math.PI + 0.2))
  const sunk = state.y[20]! - height_m
  for (let k = 0; k <= 20; k++) state.y[k] = state.y[k]! - sunk
  return flyFrom(chain, state, input, { stopAtTouch: true })
}

describe('how a cast lands', () => {
  // A stone: t = sqrt(2 h/g), v = sqrt(2 g h) (Galilei's law, any textbook).
  it('a fly that only falls comes down as a stone does', () => {
    const flight = dropped(0.5, { mass_kg: 1e-3, dragArea_m2: 0 })
    expect(flight.touchTime_s).toBeCloseTo(Math.sqrt(1 / G), 3)
    expect(flight.touchSpeedDown_m_s).toBeCloseTo(Math.sqrt(G), 2)
    // It began 12 links out and 8 back, of 5 cm each and 0.2 rad up.
    expect(flight.lay).toBeCloseTo(0.2 * Math.cos(0.2), 2)
    expect(flight.reachShare).toBe(flight.lay)
    expect(flight.touchSpeedRatio).toBeNull()
    expect(flight.touchOrder).toEqual(['fly'])
  })

  // The same fall by a general-purpose solver: y'' = -g + (rho/2m) A(v) v^2.
  it.each([0, 0.35])('a bulky one falls as an integration of its drag says: exponent %d', (p) => {
    const fly = { mass_kg: 3e-4, dragArea_m2: 5e-4, dragExponent: p }
    const flight = dropped(0.5, fly, { air: STANDARD_AIR })
    const perMass = STANDARD_AIR.density_kg_m3 / 2 / fly.mass_kg
    const solver = new Solver(2)
    const pull = (_: number, [, v]: number[]) => [v!, G - perMass * dragAreaAt(fly, v!) * v! * v!]
    let [time, fallen, speed] = [0, 0, 0]
    while (fallen < 0.5) {
      time += 1e-3
      ;[fallen, speed] = solver.solve(pull, 0, [0, 0], time).y as [number, number]
    }
    expect(flight.touchTime_s).toBeCloseTo(time, 2)
    expect(flight.touchSpeedDown_m_s! / speed).toBeCloseTo(1, 2)
    const fall = fallSpeed_m_s(fly, STANDARD_AIR.density_kg_m3, G)!
    expect(flight.touchSpeedRatio).toBeCloseTo(flight.touchSpeedDown_m_s! / fall, 12)
  })

  it('without gravity nothing lands, and nothing is said of a landing', () => {
    const flight = runCast(bareCase({ segments: [strand(3, 4e-4)], mesh: 'coarse' }))
    expect(flight.status).toBe('ok')
    const { lay, reachShare, touchSpeedDown_m_s, touchSpeedRatio, touchOrder, pieceLays } = flight
    const all = [lay, reachShare, touchSpeedDown_m_s, touchSpeedRatio, touchOrder, pieceLays]
    expect(all).toEqual([null, null, null, null, null, null])
  })

  it('a flight that stops at the touch says what a whole one says', () => {
    const [whole, stopped] = [runCast(shipped()), runCast(shipped(), { stopAtTouch: true })]
    expect(stopped.lay).toBe(whole.lay)
    expect(stopped.touchSpeedRatio).toBe(whole.touchSpeedRatio)
    expect(stopped.steps).toBeLessThan(whole.steps)
  })

  it('the lay of the pieces makes up the lay of the leader', () => {
    const input = shipped()
    const { pieceLays, lay } = runCast(input, { stopAtTouch: true })
    const total = input.segments.reduce((sum, s) => sum + s.length_m, 0)
    const sum = input.segments.reduce((x, s, i) => x + pieceLays![i]! * s.length_m, 0)
    expect(sum / total).toBeCloseTo(lay!, 2)
  })
})

describe('what hangs on the leader', () => {
  const laid = (input: CastCase) => {
    const { lay, extension, touchSpeedDown_m_s } = runCast(input, { stopAtTouch: true })
    return { lay, extension, touchSpeedDown_m_s }
  }

  it('a weight at a joint flies as a knot of that mass', () => {
    const input = shipped({ knots: [] })
    const [first, second] = input.segments
    const weight = { mass_kg: 2e-4, dragArea_m2: 0, at_m: first!.length_m + second!.length_m }
    const knot = { joint: 2, mass_kg: 2e-4 }
    expect(laid({ ...input, hung: [weight] })).toEqual(laid({ ...input, knots: [knot] }))
    expect(laid({ ...input, hung: [weight] })).not.toEqual(laid(input))
  })

  it('drag at the very tip is drag of the fly', () => {
    const input = shipped()
    const tip = input.segments.reduce((sum, s) => sum + s.length_m, 0)
    const { mass_kg, dragArea_m2 } = input.fly
    const half = { mass_kg: mass_kg / 2, dragArea_m2: dragArea_m2 / 2 }
    const whole = laid({ ...input, fly: { mass_kg, dragArea_m2 } })
    const shared = laid({ ...input, fly: half, hung: [{ ...half, at_m: tip }] })
    expect(shared.lay).toBeCloseTo(whole.lay!, 6)
    expect(shared.extension).toBeCloseTo(whole.extension, 6)
  })

  it('the account of energy closes with it', () => {
    const dropper = { mass_kg: 5e-5, dragArea_m2: 8e-5, dragExponent: 0.35, at_m: 1.8 }
    const flight = runCast(shipped({ hung: [dropper], mesh: 'usual' }), { audit: true })
    expect(flight.status).toBe('ok')
    expect(flight.energyError).toBeLessThan(5e-3)
  })
})
