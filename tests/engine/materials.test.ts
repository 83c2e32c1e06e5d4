// @vitest-environment node
import { describe, expect, it } from 'vitest'
import type { Family } from '../../src/engine/materials'
import {
  BUILT_IN_MATERIALS,
  KNOT_IDS,
  bendingStiffness_N_m2,
  knot,
  knotsFor,
  linearDensity_kg_m,
  sinks,
  takeUp_m,
} from '../../src/engine/materials'

describe('bending', () => {
  // Second moment of area of a round section, pi d^4/64: Machinery's Handbook, 31st ed., 2020.
  // By hand: pi x (0.5 mm)^4 / 64 = 3.0680e-15 m4; times 2.5 GPa = 7.6699e-6 N m2.
  const EI = bendingStiffness_N_m2(2.5e9, 0.5e-3)

  it('has the second moment of area of a round section', () => {
    // Five figures are what the hand computation gives.
    expect(EI / 7.6699e-6).toBeCloseTo(1, 4)
  })

  it('bends a cantilever by P L^3 / 3 E I', () => {
    // Roark's Formulas for Stress and Strain, 8th ed., 2012. 0.1 mN at 100 mm: 1e-7 / 2.30098e-5 m.
    expect((1e-4 * 0.1 ** 3) / (3 * EI)).toBeCloseTo(4.346e-3, 6)
  })

  it('gives a cantilever of 100 mm its first frequency', () => {
    // beta^2/(2 pi) sqrt(EI/mu)/L^2, beta = 1.875104: Blevins, Formulas for Natural Frequency, 1979.
    const mu = linearDensity_kg_m(1140, 0.5e-3)
    const f = (1.875104 ** 2 / (2 * Math.PI)) * (Math.sqrt(EI / mu) / 0.1 ** 2)
    // Worked by hand to four figures: 10.36 Hz.
    expect(f).toBeCloseTo(10.36, 2)
  })

  it('goes with the fourth power of diameter', () => {
    expect(bendingStiffness_N_m2(1e9, 4e-4) / bendingStiffness_N_m2(1e9, 2e-4)).toBeCloseTo(16, 10)
  })
})

describe('mass', () => {
  it('is density times the area of a circle', () => {
    // By hand: a metre of 1 mm is 0.785398e-6 m3.
    expect(linearDensity_kg_m(1000, 1e-3)).toBeCloseTo(0.785398e-3, 9)
  })
})

/** Handbook ranges: density kg/m3, Young's modulus Pa, water = 1. */
const RANGES: Partial<Record<Family, { density: [number, number]; modulus: [number, number] }>> = {
  // Density: US Fish & Wildlife Service, Net materials; modulus of drawn polyamide: from memory.
  nylon: { density: [1120, 1150], modulus: [1.5e9, 4e9] },
  copolymer: { density: [1120, 1150], modulus: [1.5e9, 4e9] },
  // Density: US patent 7,582,353 (1790) and moulding bulletins (1780); modulus: handbook of PVDF, from memory.
  fluorocarbon: { density: [1760, 1800], modulus: [2e9, 4e9] },
}

describe.each(BUILT_IN_MATERIALS.map((m) => [m.name, m] as const))('%s', (_, material) => {
  const range = RANGES[material.family]

  it('stands inside the handbook range, with its whole band', () => {
    if (!range) throw new Error(`no handbook range for ${material.family}`)
    expect(material.density.low).toBeGreaterThanOrEqual(range.density[0])
    expect(material.density.high).toBeLessThanOrEqual(range.density[1])
    expect(material.modulus.low).toBeGreaterThanOrEqual(range.modulus[0])
    expect(material.modulus.high).toBeLessThanOrEqual(range.modulus[1])
  })

  it('has a source for every constant, and a band round every value', () => {
    const { density, modulus, wetModulus, tensileStrength, wetStrength } = material
    for (const c of [density, modulus, wetModulus, tensileStrength, wetStrength]) {
      expect(c.source).not.toBe('')
      expect(c.low).toBeLessThanOrEqual(c.value)
      expect(c.high).toBeGreaterThanOrEqual(c.value)
    }
  })

  it('sinks once wetted, being denser than water', () => {
    // Water at 10 C: 999.7 kg/m3 (CRC Handbook of Chemistry and Physics, from memory).
    expect(sinks(material.density.value)).toBe(material.density.value > 999.7)
    expect(material.density.value).toBeGreaterThan(999.7)
  })
})

describe('wet nylon', () => {
  it.each(BUILT_IN_MATERIALS.filter((m) => m.family === 'nylon'))(
    '$name loses 10 to 20 % of its strength',
    ({ wetStrength }) => {
      // US Fish & Wildlife Service, Net materials.
      expect(wetStrength.low).toBeCloseTo(0.8, 10)
      expect(wetStrength.high).toBeCloseTo(0.9, 10)
    },
  )
})

describe('knots', () => {
  it.each(KNOT_IDS)('%s has a place, a band of efficiency inside 0 to 1 and a source', (id) => {
    const { places, efficiency } = knot(id)
    expect(places.length).toBeGreaterThan(0)
    expect(efficiency.low).toBeGreaterThan(0)
    expect(efficiency.low).toBeLessThanOrEqual(efficiency.value)
    expect(efficiency.value).toBeLessThanOrEqual(efficiency.high)
    expect(efficiency.high).toBeLessThan(1)
    expect(efficiency.source).not.toBe('')
  })

  it('the blood knot keeps what a published test measured', () => {
    // Field & Stream knot test: 83 % for the blood knot, 65 % for the surgeon's at worst.
    expect(knot('blood').efficiency.value).toBe(0.83)
    expect(knot('surgeons-double').efficiency.low).toBe(0.65)
  })

  it('the blood knot joins up to 35 % thinner nylon', () => {
    // G. Borger, article of 2009.
    expect(knot('blood').largestReduction?.value).toBe(0.35)
  })

  it.each(['line', 'between', 'fly'] as const)('there is one for the %s', (place) => {
    expect(knotsFor(place).every((k) => k.places.includes(place))).toBe(true)
    expect(knotsFor(place).length).toBeGreaterThan(1)
  })

  // A tight helix of five turns round both strands, 5 pi (d1 + d2), by hand.
  it.each([
    [20, 18, 0.6],
    [15, 13, 0.44],
    [8, 7, 0.24],
  ])('five turns of .0%i on .0%i in take up %f in a side', (a, b, inches) => {
    // Half of the last place of the hand computation.
    expect(takeUp_m(knot('blood'), a * 2.54e-5, b * 2.54e-5) / 0.0254).toBeCloseTo(inches, 2)
  })

  it('takes up more with more turns, in proportion', () => {
    const at = (turns: number) => takeUp_m(knot('blood'), 4e-4, 3e-4, turns)
    expect(at(7) / at(5)).toBeCloseTo(7 / 5, 10)
  })
})
