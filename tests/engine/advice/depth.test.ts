// @vitest-environment node
import { Solver } from 'odex'
import { describe, expect, it } from 'vitest'
import type { Fly } from '../../../src/engine/tackle'
import {
  hanging,
  hangingWith,
  indicatorDepth,
  laggingCurrent,
  sinking,
} from '../../../src/engine/advice'
import { flyInWater } from '../../../src/engine/tackle'

const [RHO, ETA, G] = [999.7, 1.307e-3, 9.80665] // fresh water at 10 C: London South Bank University, water data
const NYMPH: Fly = {
  style: 'beaded-nymph',
  hook: 14,
  bead: { metal: 'tungsten', diameter_m: 2.8e-3 },
}
const strand = (diameter_m: number, density_kg_m3 = 1140, length_m = 3) => ({
  length_m,
  diameter_m,
  density_kg_m3,
})

/** W. Sucker and H. Brauer, Wärme- und Stoffübertragung 8:149, 1975 (from memory): another law than ours. */
const suckerBrauer = (re: number) =>
  1.18 + 6.8 * re ** -0.89 + 1.96 * re ** -0.5 - (4e-4 * re) / (1 + 3.64e-7 * re * re)

describe('sinking', () => {
  it('on a strand too fine to matter the fly falls at its own rate', () => {
    const { depth, byRule_m } = sinking(NYMPH, strand(1e-9), 4, 0.5)
    const rate = flyInWater(NYMPH).sinkRate!.value
    expect(depth.value / (rate * 4)).toBeCloseTo(1, 2)
    expect(byRule_m).toBeCloseTo(rate * 4, 9)
  })

  it('a stouter tippet brakes, fluorocarbon helps, and the current only carries', () => {
    const at = (d: number, density?: number) =>
      sinking(NYMPH, strand(d, density), 5, 0.5).depth.value
    expect(at(0.15e-3)).toBeGreaterThan(at(0.3e-3))
    expect(at(0.2e-3, 1780)).toBeGreaterThan(at(0.2e-3, 1140))
    const [slow, fast] = [0.2, 1].map((u) => sinking(NYMPH, strand(0.15e-3), 5, u))
    expect(fast!.depth.value).toBe(slow!.depth.value)
    expect(fast!.drift_m).toBeCloseTo(5, 9)
  })

  it('carries a band, and ends where the strand ends', () => {
    const { depth } = sinking(NYMPH, strand(0.15e-3), 3, 0.5)
    expect(depth.low).toBeLessThan(depth.value)
    expect(depth.high).toBeGreaterThan(depth.value)
    expect(sinking(NYMPH, strand(0.15e-3, 1140, 1), 60, 0.5).depth.value).toBeCloseTo(1, 9)
  })

  it('a dry fly stays up', () => {
    const dry = sinking({ style: 'parachute', hook: 14 }, strand(0.15e-3), 10, 0.5)
    expect(dry.depth.value).toBe(0)
  })
})

describe('hanging in a current', () => {
  it('on a strand without drag at the angle whose tangent is drag over weight', () => {
    const { depth_m, angle_deg } = hangingWith(3e-3, 2e-3, strand(1e-6, RHO, 2), () => 0)
    const angle = Math.atan(2 / 3)
    expect(depth_m).toBeCloseTo(2 * Math.cos(angle), 6)
    expect(angle_deg).toBeCloseTo((angle * 180) / Math.PI, 4)
  })

  it('as an independent integrator has it, with another drag law', () => {
    const [W, D, d, L, u] = [3e-3, 1e-3, 0.2e-3, 1.5, 0.25]
    const solver = new Solver(3)
    solver.relativeTolerance = 1e-9
    solver.absoluteTolerance = 1e-12
    // From the fly up: horizontal and vertical tension, and depth, against arc length.
    const slope = (_s: number, [H = 0, V = 0]: number[]) => {
      const angle = Math.atan2(H, V)
      const n = u * Math.cos(angle)
      const F = 0.5 * RHO * suckerBrauer((RHO * d * n) / ETA) * d * n * n
      const w = (1140 - RHO) * G * (Math.PI / 4) * d * d
      return [F * Math.cos(angle), w - F * Math.sin(angle), Math.cos(angle)]
    }
    const theirs = solver.solve(slope, 0, [D, W, 0], L).y[2] ?? 0
    const ours = hangingWith(W, D, strand(d, 1140, L), () => u).depth_m
    // The drag laws agree within 20 %, which is far less in depth.
    expect(Math.abs(ours / theirs - 1)).toBeLessThan(0.06)
  })

  it('lower on a finer strand and with a heavier fly, straight down in still water', () => {
    expect(hanging(NYMPH, strand(0.1e-3), () => 0.3).depth_m).toBeGreaterThan(
      hanging(NYMPH, strand(0.3e-3), () => 0.3).depth_m,
    )
    expect(hanging({ style: 'nymph', hook: 14 }, strand(0.15e-3), () => 0.3).depth_m).toBeLessThan(
      hanging(NYMPH, strand(0.15e-3), () => 0.3).depth_m,
    )
    expect(hanging(NYMPH, strand(0.15e-3), () => 0).depth_m).toBeCloseTo(3, 6)
  })

  it('an indicator by the rule of thumb: what it gives stands beside what it would take', () => {
    const { rule_m, depth, needed_m } = indicatorDepth(NYMPH, strand(0.15e-3), 1, 0.7, 1.5)
    expect(rule_m).toBe(1.5)
    expect(depth.low).toBeLessThan(depth.value)
    expect(depth.high).toBeGreaterThan(depth.value)
    expect(needed_m).toBeGreaterThan(1)
    const reached = indicatorDepth(NYMPH, strand(0.15e-3), 1, 0.7, needed_m!)
    expect(reached.depth.value).toBeCloseTo(1, 3)
  })

  it('the surface outruns the bed, and the mean lags it by an eighth', () => {
    // By hand: the mean of the seventh root over the depth is 7/8.
    const passing = laggingCurrent(1, 1)
    expect(passing(0)).toBe(0)
    const mean = Array.from({ length: 950 }, (_, k) => passing((k + 0.5) / 1000)).reduce(
      (a, b) => a + b,
    )
    expect(mean / 1000 + 0.05 * passing(1)).toBeCloseTo(1 / 8, 2)
  })

  it('a brass bead on a stout tippet in fast water does not get there at all', () => {
    const brass = { ...NYMPH, bead: { metal: 'brass', diameter_m: 2e-3 } } as const
    expect(indicatorDepth(brass, strand(0.25e-3), 1.5, 1.4, 1.5).needed_m).toBeNull()
  })
})
