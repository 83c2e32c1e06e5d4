// @vitest-environment node
import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import type { FlyStyle } from '../../../src/engine/tackle'
import {
  FLY_STYLES,
  LINE_BUOYANCIES,
  LINE_TAPERS,
  beadMass_kg,
  flyFigures,
  formatHook,
  gape_m,
  headMass_kg,
  isSizedByHook,
  lineFigures,
  linePieces,
  parseDesignation,
  parseHook,
  shankLength_m,
} from '../../../src/engine/tackle'
import { lineOf } from '../build'

const GRAIN_KG = 64.79891e-6 // NIST SP 811, 2008

describe('line weights', () => {
  // AFFTA fly line weight specification: grains in the first 30 ft, and tolerance.
  const TABLE = [
    [1, 60, 6],
    [2, 80, 6],
    [3, 100, 6],
    [4, 120, 6],
    [5, 140, 6],
    [6, 160, 8],
    [7, 185, 8],
    [8, 210, 8],
    [9, 240, 10],
    [10, 280, 10],
    [11, 330, 12],
    [12, 380, 12],
    [13, 450, 15],
    [14, 500, 15],
    [15, 550, 15],
  ] as const

  it.each(TABLE)('a %i-weight weighs %i grains, within %i', (weight, grains, tolerance) => {
    const { value, low, high } = headMass_kg(weight)
    expect(value / GRAIN_KG).toBeCloseTo(grains, 9)
    expect((high - low) / 2 / GRAIN_KG).toBeCloseTo(tolerance, 9)
  })

  it.each(TABLE)(
    'the first 30 ft of a %i-weight as it is cast weigh %i grains',
    (weight, grains) => {
      const head = linePieces(lineOf(`WF${weight}F`), 30 * 0.3048)
      const mass = head.reduce((sum, p) => sum + p.length_m * p.linearDensity_kg_m, 0)
      // The front taper is cast as four level pieces, which weigh a thousandth less than the cone.
      expect(Math.abs(mass / GRAIN_KG / grains - 1)).toBeLessThan(2e-3)
    },
  )

  it('a 5-weight weighs 0.992 g a metre in its head', () => {
    // 140 grains over 30 ft by hand: 9.07185 g / 9.144 m.
    expect(lineFigures(lineOf('WF5F')).headLinearDensity_kg_m).toBeCloseTo(0.9921e-3, 7)
  })

  it.each([0, 16])('there is no %i-weight', (weight) => {
    expect(() => headMass_kg(weight)).toThrow(/1 to 15/)
  })

  it('cuts the line into pieces of just the length asked for', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 1, max: 15 }),
        fc.double({ min: 0.1, max: 15, noNaN: true }),
        (w, m) => {
          const sum = linePieces(lineOf(`DT${w}F`), m).reduce((total, p) => total + p.length_m, 0)
          return Math.abs(sum - m) < 1e-9
        },
      ),
    )
  })

  it('gets thicker from its tip backwards', () => {
    const d = linePieces(lineOf('WF5F'), 5).map((p) => p.diameter_m)
    expect(d).toEqual([...d].sort((a, b) => a - b))
  })
})

describe('line tips', () => {
  // Tips run from .025 in (light) to .042 in (10-weight); a 5-weight about .030 (J. Wulff; common practice).
  it.each([
    [1, 0.025],
    [5, 0.03],
    [10, 0.042],
  ])('a %i-weight has a tip of about %f in', (weight, inch) => {
    // Makers differ by a tenth.
    const ratio = lineFigures(lineOf(`WF${weight}F`)).tipDiameter_m / 0.0254 / inch
    expect(Math.abs(ratio - 1)).toBeLessThan(0.1)
  })

  it('takes the diameter that was measured', () => {
    const line = { ...lineOf('WF5F'), tipDiameter_m: 1e-3 }
    expect(lineFigures(line)).toMatchObject({ tipDiameter_m: 1e-3, tipSource: 'as measured' })
  })
})

describe('designations', () => {
  it.each([
    ['WF5F', 'WF', 5, 'F'],
    ['wf7f/s', 'WF', 7, 'F/S'],
    ['DT 4 F', 'DT', 4, 'F'],
    ['L6', 'L', 6, 'F'],
    ['WF-8-I', 'WF', 8, 'I'],
    ['ST10S', 'ST', 10, 'S'],
  ])('reads %s', (text, taper, weight, buoyancy) => {
    expect(parseDesignation(text)).toEqual({ designation: text, taper, weight, buoyancy })
  })

  it.each(['', 'WF', '5F', 'WF0F', 'WF16F', 'XX5F', 'WF5Q', 'WF5FF'])(
    'does not read "%s"',
    (text) => {
      expect(parseDesignation(text)).toBeUndefined()
    },
  )

  it('reads every taper, weight and buoyancy of the grammar', () => {
    fc.assert(
      fc.property(
        fc.constantFrom(...LINE_TAPERS),
        fc.integer({ min: 1, max: 15 }),
        fc.constantFrom(...LINE_BUOYANCIES),
        (taper, weight, buoyancy) => {
          const read = parseDesignation(`${taper}${weight}${buoyancy}`)
          return read?.taper === taper && read.weight === weight && read.buoyancy === buoyancy
        },
      ),
    )
  })
})

describe('hooks', () => {
  it.each([
    ['14', 14],
    ['#14', 14],
    ['# 8', 8],
    [' 1 ', 1],
    ['1/0', 0],
    ['4/0', -3],
    [12, 12],
  ])('reads %s', (text, n) => {
    expect(parseHook(text)).toBe(n)
  })

  it.each(['0', '27', '5/0', '0/0', '1/2', 'x', '', '-3', '3.5'])('does not read "%s"', (text) => {
    expect(parseHook(text)).toBeUndefined()
  })

  it('brings every size back as it was written', () => {
    for (let n = -3; n <= 26; n++) expect(parseHook(formatHook(n))).toBe(n)
  })

  it('gets larger as its number gets smaller', () => {
    for (let n = -3; n < 26; n++) expect(shankLength_m(n)).toBeGreaterThan(shankLength_m(n + 1))
  })
})

describe('beads', () => {
  const sphere_m3 = (d: number) => (Math.PI / 6) * d ** 3

  // Density of tungsten heavy alloys, 17.0 to 18.5: ASTM B777-15. Of brass, 8.4 to 8.73: Machinery's
  // Handbook, 31st ed., 2020 (from memory). A hole takes from a tenth to a third of the sphere, estimate.
  it.each([
    ['tungsten', 2e-3, 17000, 18500],
    ['tungsten', 4.6e-3, 17000, 18500],
    ['brass', 2e-3, 8400, 8730],
    ['brass', 4.6e-3, 8400, 8730],
  ] as const)('%s of %f m weighs less than its solid sphere', (metal, d, low, high) => {
    const mass = beadMass_kg({ metal, diameter_m: d })
    expect(mass).toBeLessThan(0.9 * high * sphere_m3(d))
    expect(mass).toBeGreaterThan(0.67 * low * sphere_m3(d))
  })

  it('goes with the cube of its diameter', () => {
    const at = (d: number) => beadMass_kg({ metal: 'brass', diameter_m: d })
    expect(at(4e-3) / at(2e-3)).toBeCloseTo(8, 9)
  })
})

describe('flies', () => {
  const realStyles = FLY_STYLES.filter((s): s is FlyStyle => s !== 'yarn-tuft')

  it.each(realStyles)('a larger %s is heavier and meets more air', (style) => {
    for (let hook = 26; hook > -3; hook--) {
      const [small, large] = [flyFigures({ style, hook }), flyFigures({ style, hook: hook - 1 })]
      expect(large.mass.value).toBeGreaterThan(small.mass.value)
      expect(large.dragArea.value).toBeGreaterThan(small.dragArea.value)
    }
  })

  it('carries a band of two either way in drag area', () => {
    const { value, low, high } = flyFigures({ style: 'parachute', hook: 14 }).dragArea
    expect([low / value, high / value]).toEqual([0.5, 2])
  })

  it('a popper meets four to eight times the air of a dry fly of its trade size, a nymph far less', () => {
    // Common practice, in direction: poppers fail by drag, beaded nymphs do not.
    const drag = (style: FlyStyle, hook: number) => flyFigures({ style, hook }).dragArea.value
    expect(drag('popper', 2)).toBeGreaterThan(4 * drag('collar-hackle', 14))
    expect(drag('nymph', 14)).toBeLessThan(drag('collar-hackle', 14) / 4)
  })

  it('takes what was weighed and what was measured in a drop', () => {
    // Terminal speed: CdA = 2 m g / (rho v^2). 35 mg falling at 2.5 m/s: 8.97e-5 m2, by hand.
    const dragArea_m2 = (2 * 35e-6 * 9.80665) / (1.225 * 2.5 ** 2)
    expect(dragArea_m2).toBeCloseTo(8.966e-5, 8)
    const figures = flyFigures({ style: 'midge', hook: 20, mass_kg: 35e-6, dragArea_m2 })
    expect(figures.mass).toMatchObject({ value: 35e-6, low: 35e-6, high: 35e-6 })
    expect(figures.dragArea.value).toBe(dragArea_m2)
  })

  it('a bead is added to the fly it is tied on', () => {
    const bead = { metal: 'tungsten', diameter_m: 3e-3 } as const
    const [with_, without] = [
      flyFigures({ style: 'nymph', hook: 12, bead }),
      flyFigures({ style: 'nymph', hook: 12 }),
    ]
    expect(with_.mass.value - without.mass.value).toBeCloseTo(beadMass_kg(bead), 12)
  })

  it('a hackle of one and a half gapes makes a disc three gapes across, which no dry fly exceeds', () => {
    // Proportion of hackle to gape: common practice.
    const disc = (Math.PI / 4) * (3 * gape_m(14)) ** 2
    for (const style of ['midge', 'parachute', 'collar-hackle', 'bushy', 'emerger'] as const) {
      expect(flyFigures({ style, hook: 14 }).dragArea.value).toBeLessThan(disc)
    }
  })

  it('the tippet of streamers, poppers and deer hair is not chosen by hook size', () => {
    // Common practice.
    const not = FLY_STYLES.filter((s) => !isSizedByHook(s))
    expect(not).toEqual(['streamer', 'weighted-streamer', 'deer-hair', 'popper', 'yarn-tuft'])
  })
})
