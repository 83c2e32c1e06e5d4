import { describe, expect, it } from 'vitest'
import {
  dragAreaAt,
  dragAreaFromDrop_m2,
  dragShare,
  fallSpeed_m_s,
  flyFigures,
  FLY_STYLES,
} from '../../../src/engine/tackle'

const [RHO, G] = [1.225, 9.80665]

describe('drag that falls with speed', () => {
  it('is the stated one at 6 m/s, and stays below half a metre a second', () => {
    expect(dragShare(6, 0.35)).toBe(1)
    expect(dragShare(0.1, 0.35)).toBe(dragShare(0.5, 0.35))
    expect(dragShare(12, 0)).toBe(1)
  })

  // N.-S. Cheng, J. Hydraul. Eng. 139, 2013: a barb of .07 mm across the flow, 2.49 at 2.8 m/s and 1.55 at 10.
  it('goes as a barb of .07 mm does between 2.8 and 10 m/s', () => {
    expect(dragShare(2.8, 0.37) / dragShare(10, 0.37)).toBeCloseTo(2.49 / 1.55, 1)
  })

  it.each([
    [60e-6, 100e-6, 0.35],
    [60e-6, 100e-6, 0],
    [1e-6, 300e-6, 0.5],
    [1e-3, 20e-6, 0.2],
  ])(
    'carries the weight at the fall speed: %d kg, %d m2, exponent %d',
    (mass_kg, dragArea_m2, p) => {
      const body = { mass_kg, dragArea_m2, dragExponent: p }
      const v = fallSpeed_m_s(body, RHO, G)!
      expect(((RHO / 2) * dragAreaAt(body, v) * v * v) / (mass_kg * G)).toBeCloseTo(1, 9)
    },
  )

  it('a body without drag area, or without air, has no fall speed', () => {
    expect(fallSpeed_m_s({ mass_kg: 1e-3, dragArea_m2: 0 }, RHO, G)).toBeNull()
    expect(fallSpeed_m_s({ mass_kg: 1e-3, dragArea_m2: 1e-4 }, 0, G)).toBeNull()
  })

  it('a drop timed at 2.8 m/s says .77 of its area for a cast', () => {
    // Long enough that nearly all of it goes at the terminal speed of 2.8 m/s.
    const mass = 35e-6
    const [bare, soft] = [0, 0.35].map((p) => dragAreaFromDrop_m2(mass, 28, 10.2, p)!)
    const terminal = Math.sqrt((2 * mass * G) / (RHO * bare!))
    expect(soft! / bare!).toBeCloseTo((terminal / 6) ** 0.35, 9)
    expect(soft! / bare!).toBeCloseTo(0.77, 2)
  })

  it('hackle, hair and yarn give way, foam, beads and clipped hair do not', () => {
    const exponent = (style: (typeof FLY_STYLES)[number]) =>
      flyFigures({ style, hook: 12 }).dragExponent.value
    const solid = FLY_STYLES.filter((style) => exponent(style) === 0)
    expect(solid).toEqual(['foam-terrestrial', 'nymph', 'beaded-nymph', 'deer-hair', 'popper'])
    expect(exponent('parachute')).toBe(0.35)
  })
})
