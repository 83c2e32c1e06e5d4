// @vitest-environment node
import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import type { LineTaper } from '../../../src/engine/tackle'
import {
  LINE_BUOYANCIES,
  LINE_TAPERS,
  formatDesignation,
  headMass_kg,
  lineFigures,
  lineMassOut_kg,
  linePieces,
  lineSinkRate,
  lineStations,
  parseDesignation,
  rodAndLine,
} from '../../../src/engine/tackle'
import { lineOf } from '../build'

const FT = 0.3048
const INCH = 0.0254
const GRAIN_KG = 64.79891e-6 // NIST SP 811, 2008

describe('designations', () => {
  it.each([
    ['WF7S3', 'S', 3],
    ['WF6S III', 'S', 3],
    ['DT5S-2', 'S', 2],
    ['WF8F/S 4', 'F/S', 4],
    ['wf9s type vi', 'S', 6],
    ['WF5I', 'I', undefined],
  ] as const)('reads the sink class of %s', (text, buoyancy, sinkClass) => {
    const line = parseDesignation(text)
    expect([line?.buoyancy, line?.sinkClass]).toEqual([buoyancy, sinkClass])
  })

  it.each(['WF5F3', 'WF5I2', 'WF5S7', 'WF5S IIII', 'WF5SS'])('does not read "%s"', (text) => {
    expect(parseDesignation(text)).toBeUndefined()
  })

  it('what is written reads back the same', () => {
    const any = fc.record({
      taper: fc.constantFrom(...LINE_TAPERS),
      weight: fc.integer({ min: 1, max: 15 }),
      buoyancy: fc.constantFrom(...LINE_BUOYANCIES),
      sinkClass: fc.option(fc.integer({ min: 1, max: 6 }), { nil: undefined }),
    })
    fc.assert(
      fc.property(any, (line) => {
        const text = formatDesignation(line)
        const read = parseDesignation(text)
        const sinks = line.buoyancy.endsWith('S') ? line.sinkClass : undefined
        return (
          read !== undefined &&
          formatDesignation(read) === text &&
          read.sinkClass === sinks &&
          read.weight === line.weight
        )
      }),
    )
  })
})

describe('tapers', () => {
  // AFFTA fly line weight specification: whatever its taper and density, a 5-weight holds 140 grains in
  // the first 30 ft; shapes themselves are ours.
  const all = LINE_TAPERS.flatMap((taper) =>
    LINE_BUOYANCIES.map((buoyancy) => `${taper}5${buoyancy}`),
  )
  it.each(all)('%s weighs within the tolerance of the standard', (designation) => {
    const grains = lineMassOut_kg(lineOf(designation), 30 * FT) / GRAIN_KG
    expect(Math.abs(grains - 140)).toBeLessThan(6)
  })

  it('of a measured shape with a short head too', () => {
    const line = { ...lineOf('WF6F'), shape: { frontTaper_m: 1.5, belly_m: 5, rearTaper_m: 1 } }
    expect(lineMassOut_kg(line, 30 * FT) / GRAIN_KG).toBeCloseTo(160, 3)
  })

  const at = (taper: LineTaper, from: number) => {
    let start = 0
    for (const p of linePieces(lineOf(`${taper}5F`), 27)) {
      start += p.length_m
      if (start > from) return p.diameter_m
    }
    return NaN
  }

  it('a level line has one diameter, a double taper both ends alike, a weight-forward a thin back', () => {
    const level = linePieces(lineOf('L5F'), 27).map((p) => p.diameter_m)
    expect(Math.max(...level) - Math.min(...level)).toBeLessThan(1e-12)
    // A level 5-weight by hand: 9.0718 g over 9.144 m at 850 kg/m3 is 1.219 mm thick.
    expect(level[0]).toBeCloseTo(1.219e-3, 6)
    expect(at('DT', 0.1)).toBeCloseTo(at('DT', 26.9), 4)
    expect(at('DT', 14)).toBe(at('DT', 8))
    expect(at('WF', 14)).toBeLessThan(0.8 * at('WF', 8))
    expect(at('SH', 14)).toBeLessThan(at('WF', 14))
  })

  it('far out a double taper weighs more than a weight-forward of its class', () => {
    const [dt, wf] = [lineOf('DT5F'), lineOf('WF5F')]
    expect(lineMassOut_kg(dt, 18) / lineMassOut_kg(wf, 18)).toBeGreaterThan(1.15)
    expect(Math.abs(lineMassOut_kg(dt, 9) / lineMassOut_kg(wf, 9) - 1)).toBeLessThan(0.02)
  })

  it('behind the sinking tip of a sink-tip line it floats', () => {
    const pieces = linePieces(lineOf('WF7F/S3'), 15)
    expect(pieces[0]?.density_kg_m3).toBeGreaterThan(1000)
    expect(pieces.at(-1)?.density_kg_m3).toBe(850)
  })
})

describe('figures along a line', () => {
  it('grow from the tip to the belly, with stiffness as the fourth power of diameter', () => {
    const [tip, front, belly, back] = lineStations(lineOf('WF5F'))
    expect(front!.diameter_m).toBeGreaterThan(tip!.diameter_m)
    expect(belly!.diameter_m).toBeGreaterThan(front!.diameter_m)
    expect(back!.diameter_m).toBeLessThan(belly!.diameter_m)
    const ratio = belly!.diameter_m / tip!.diameter_m
    expect(belly!.stiffness.value / tip!.stiffness.value).toBeCloseTo(ratio ** 4, 6)
    // By hand: 850 kg/m3 x pi/4 d^2.
    expect(belly!.linearDensity_kg_m).toBeCloseTo(850 * (Math.PI / 4) * belly!.diameter_m ** 2, 9)
  })
})

describe('sinking lines', () => {
  /** W. Sucker and H. Brauer, Wärme- und Stoffübertragung 8:149, 1975 (from memory): another law than ours. */
  const suckerBrauer = (re: number) =>
    1.18 + 6.8 * re ** -0.89 + 1.96 * re ** -0.5 - (4e-4 * re) / (1 + 3.64e-7 * re * re)

  it.each(['WF5I', 'WF6S2', 'WF7S3', 'DT8S4', 'WF9S5'])(
    'the belly of a %s falls at the rate of its class',
    (designation) => {
      const line = lineOf(designation)
      const { density_kg_m3: density, headLinearDensity_kg_m: mu } = lineFigures(line)
      const d = Math.sqrt((4 * mu) / (Math.PI * density))
      const weight = 9.80665 * mu * (1 - 999.7 / density)
      // Fixed-point iteration of the drag balance, water at 10 C.
      let v = 0.1
      for (let k = 0; k < 200; k++) {
        const cd = suckerBrauer((999.7 * d * v) / 1.307e-3)
        v = 0.5 * v + 0.5 * Math.sqrt(weight / (0.5 * 999.7 * cd * d))
      }
      // The two laws agree within 20 % in drag, so within 10 % in speed.
      expect(Math.abs(v / (lineSinkRate(line)?.value ?? 0) - 1)).toBeLessThan(0.1)
    },
  )

  it('rates grow with the class, and an intermediate sinks about an inch a second', () => {
    // Common practice.
    expect((lineSinkRate(lineOf('WF5I'))?.value ?? 0) / INCH).toBeCloseTo(1, 9)
    const rates = [1, 2, 3, 4, 5].map((n) => lineSinkRate(lineOf(`WF5S${n}`))?.value ?? 0)
    expect(rates).toEqual([...rates].sort((a, b) => a - b))
    expect(lineSinkRate(lineOf('DT5F'))).toBeNull()
  })
})

describe('rod and line', () => {
  it('a line of the rod’s class loads it in full with 30 ft out', () => {
    const { classes, fullLoad_m, loadings } = rodAndLine(5, lineOf('WF5F'))
    expect(classes).toBe(0)
    expect((fullLoad_m ?? 0) / FT).toBeCloseTo(30, 0)
    expect(loadings.map((l) => l.out_m)).toEqual([6, 9, 14])
  })

  it('a line one class up loads it with less out, one class down with more', () => {
    const out = (designation: string) => rodAndLine(5, lineOf(designation)).fullLoad_m ?? Infinity
    // 160 grains to 140 and 120 to 140: AFFTA; over a belly that is nearly level the length goes the
    // other way by about as much, more where the tip's taper is part of it.
    expect(out('DT6F') / out('DT5F')).toBeCloseTo(140 / 160, 1)
    expect(out('DT4F')).toBeGreaterThan(out('DT5F') * 1.1)
  })

  it('a weight-forward two classes light never loads it', () => {
    const { fullLoad_m, loadings } = rodAndLine(7, lineOf('WF4F'))
    expect(headMass_kg(7).value / headMass_kg(4).value).toBeCloseTo(185 / 120, 9)
    expect(loadings.at(-1)?.share).toBeLessThan(1)
    expect(fullLoad_m === null || fullLoad_m > 15).toBe(true)
  })
})
