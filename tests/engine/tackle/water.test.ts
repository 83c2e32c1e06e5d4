// @vitest-environment node
import { describe, expect, it } from 'vitest'
import { Solver } from 'odex'
import type { Fly } from '../../../src/engine/tackle'
import {
  FLY_STYLES,
  beadMass_kg,
  chengCylinderDrag,
  dragAreaFromDrop_m2,
  dragInWater_N,
  flyFigures,
  flyInWater,
  floats,
  gape_m,
  reynoldsInWater,
  shankLength_m,
  sphereDrag,
  terminalSpeed_m_s,
} from '../../../src/engine/tackle'

const G = 9.80665
/** Fresh water at 10 C: London South Bank University, water data. */
const [RHO, ETA] = [999.7, 1.307e-3]

/** A. Haider and O. Levenspiel, Powder Technology 58:63, 1989: another fit to the drag of spheres than ours. */
const haiderLevenspiel = (re: number) =>
  (24 / re) * (1 + 0.1806 * re ** 0.6459) + 0.4251 / (1 + 6880.95 / re)

/** W. Sucker and H. Brauer, Wärme- und Stoffübertragung 8:149, 1975 (from memory). */
const suckerBrauer = (re: number) =>
  1.18 + 6.8 * re ** -0.89 + 1.96 * re ** -0.5 - (4e-4 * re) / (1 + 3.64e-7 * re * re)

/** Newton's method on the drag balance, independent of the engine's halving. */
function newton(balance: (v: number) => number, start: number): number {
  let v = start
  for (let k = 0; k < 200; k++) {
    const h = v * 1e-6
    v = Math.max(v / 3, v - balance(v) / ((balance(v + h) - balance(v - h)) / (2 * h)))
  }
  return v
}

describe('falling through water', () => {
  it.each([
    ['brass', 8500, 2e-3],
    ['brass', 8500, 4e-3],
    ['tungsten', 18000, 2e-3],
    ['tungsten', 18000, 4e-3],
    ['glass', 2500, 0.3e-3],
  ])('a %s sphere (%i kg/m3, %f m) falls as another drag law has it', (_, density, d) => {
    const weight = (density - RHO) * G * (Math.PI / 6) * d ** 3
    const ours = terminalSpeed_m_s(
      weight,
      (v) => (RHO / 2) * v * v * sphereDrag(reynoldsInWater(d, v)) * (Math.PI / 4) * d * d,
    )
    const theirs = newton((v) => {
      const cd = haiderLevenspiel((RHO * d * v) / ETA)
      return (RHO / 2) * v * v * cd * (Math.PI / 4) * d * d - weight
    }, 0.5)
    // The correlations agree within a tenth in drag, so within a twentieth in speed.
    expect(Math.abs(ours / theirs - 1)).toBeLessThan(0.06)
  })

  it.each([
    [1780, 0.15e-3],
    [1780, 0.3e-3],
    [7850, 0.5e-3],
  ])('a level cylinder of %i kg/m3, %f m thick, falls as another drag law has it', (density, d) => {
    const weight = (density - RHO) * G * (Math.PI / 4) * d * d
    const ours = terminalSpeed_m_s(
      weight,
      (v) => (RHO / 2) * v * v * chengCylinderDrag(reynoldsInWater(d, v)) * d,
    )
    const theirs = newton(
      (v) => (RHO / 2) * v * v * suckerBrauer((RHO * d * v) / ETA) * d - weight,
      0.05,
    )
    // The laws agree within 20 % in drag; a fine strand falls so slowly that drag grows less than as v^2.
    expect(Math.abs(ours / theirs - 1)).toBeLessThan(0.15)
  })

  it('a thing without weight does not fall', () => {
    expect(terminalSpeed_m_s(0, (v) => v)).toBe(0)
    expect(terminalSpeed_m_s(-1, (v) => v)).toBe(0)
  })
})

describe('a fly in water', () => {
  const bead = { metal: 'tungsten', diameter_m: 3.2e-3 } as const
  const beaded: Fly = { style: 'beaded-nymph', hook: 14, bead }

  it('falls where the other laws balance its weight: sphere before cylinder', () => {
    const { sinkRate, weight } = flyInWater(beaded)
    const body = 0.6 * gape_m(14)
    const speed = newton((v) => {
      const sphere = haiderLevenspiel((RHO * 3.2e-3 * v) / ETA) * (Math.PI / 4) * 3.2e-3 ** 2
      const cylinder = suckerBrauer((RHO * body * v) / ETA) * body * shankLength_m(14)
      return (RHO / 2) * v * v * (sphere + cylinder) - weight.value
    }, 0.3)
    expect(Math.abs((sinkRate?.value ?? 0) / speed - 1)).toBeLessThan(0.1)
  })

  it('most of the weight of a beaded nymph is its bead’s, less the water it displaces', () => {
    const alone = beadMass_kg(bead) * G * (1 - RHO / 18000)
    const { weight } = flyInWater(beaded)
    expect(weight.value).toBeGreaterThan(alone)
    expect(weight.value).toBeLessThan(1.25 * alone)
  })

  it('weighted nymphs fall at a tenth to half a metre a second', () => {
    // From memory, in range: weighted nymphs .1 to .5 m/s.
    for (const hook of [10, 12, 14, 16, 18]) {
      const rate = flyInWater({ style: 'beaded-nymph', hook }).sinkRate?.value ?? 0
      expect(rate).toBeGreaterThan(0.1)
      expect(rate).toBeLessThan(0.7)
    }
  })

  it('a bead makes it fall faster, tungsten more than brass, none least', () => {
    const rate = (fly: Fly) => flyInWater(fly).sinkRate?.value ?? 0
    const brass = rate({ ...beaded, bead: { ...bead, metal: 'brass' } })
    expect(rate(beaded)).toBeGreaterThan(brass)
    expect(brass).toBeGreaterThan(rate({ style: 'nymph', hook: 14 }))
  })

  it.each(FLY_STYLES)('every %s has its figures, each within its band', (style) => {
    const fly = flyInWater({ style, hook: 10 })
    for (const figure of [
      fly.wetMass,
      fly.frontalArea,
      fly.dragArea,
      ...(fly.sinkRate ? [fly.sinkRate] : []),
    ]) {
      expect(figure.low).toBeLessThan(figure.value)
      expect(figure.high).toBeGreaterThan(figure.value)
      expect(figure.source).not.toBe('')
    }
    expect(fly.sinkRate === null).toBe(floats(style))
    expect(fly.wetMass.value).toBeGreaterThan(flyFigures({ style, hook: 10 }).mass.value)
  })

  it('a sink rate that was timed replaces the computed one, and tells the drag', () => {
    const timed = flyInWater({ ...beaded, sinkRate_m_s: 0.25 })
    expect(timed.sinkRate).toMatchObject({ value: 0.25, source: 'as timed' })
    expect((RHO / 2) * timed.dragArea.value * 0.25 ** 2).toBeCloseTo(timed.weight.value, 9)
    expect(dragInWater_N(beaded, 0.5)).toBeGreaterThan(dragInWater_N(beaded, 0.25))
  })
})

describe('a timed drop', () => {
  it('gives the drag area with which an independent integrator falls as far', () => {
    const [mass, area, time] = [35e-6, 9e-5, 1.4]
    const solver = new Solver(2)
    solver.relativeTolerance = 1e-10
    solver.absoluteTolerance = 1e-10
    const fall = (_t: number, [, v = 0]: number[]) => [v, G - ((1.225 / 2) * area * v * v) / mass]
    const height = solver.solve(fall, 0, [0, 0], time).y[0] ?? 0
    expect(dragAreaFromDrop_m2(mass, height, time)).toBeCloseTo(area, 9)
  })

  it('cannot be read from a fall faster than a stone’s', () => {
    expect(dragAreaFromDrop_m2(35e-6, 5, 1)).toBeUndefined()
    expect(dragAreaFromDrop_m2(0, 2, 1)).toBeUndefined()
  })
})
