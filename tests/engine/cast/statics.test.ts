// @vitest-environment node
import { describe, expect, it } from 'vitest'
import { chengCylinderDrag } from '../../../src/engine/cast'
import { Crossings, G, UP, evenChain, hold, relative, run, settle, stateOf } from './rig'

const DOWN = -Math.PI / 2

/** Bessel function J0 by its power series (Abramowitz and Stegun, 1964, 9.1.10). */
function besselJ0(x: number): number {
  let [term, sum] = [1, 1]
  for (let k = 1; k < 40; k++) {
    term *= -((x / 2) ** 2) / (k * k)
    sum += term
  }
  return sum
}

describe('hanging chain: zeros of J0 (D. Bernoulli, 1732; zeros in Abramowitz and Stegun, 1964, table 9.5)', () => {
  // Eighty links against a continuum, linear theory at an amplitude of a thousandth: own trial gave up to
  // 0.06 %, and a quarter of that with twice the links.
  it.each([
    [2.404826, 0.001],
    [5.520078, 0.001],
    [8.653728, 0.001],
  ])('zero %f', (zero, tolerance) => {
    const { input, chain } = evenChain(80, 1, 1e-3, { gravity_m_s2: G })
    const shape = (fromTop: number) => 1e-3 * besselJ0(zero * Math.sqrt(1 - fromTop))
    const state = stateOf(
      chain,
      (k) => DOWN + Math.asin((shape(k / 80) - shape((k - 1) / 80)) * 80),
    )
    const seen = new Crossings()
    const frequency = (zero / (4 * Math.PI)) * Math.sqrt(G)
    run(chain, state, input, 1.1 / frequency, { after: (s) => seen.see(s.time_s, s.x[80]!) })
    const [first = NaN, second = NaN] = seen.times
    expect(relative(1 / (2 * (second - first)), frequency)).toBeLessThan(tolerance)
  })
})

/** A beam of 0.1 m clamped at node 1: link 1 is in the wall, node 1 bends by half a link only. */
function cantilever(links: number, gravity_m_s2: number, modulus_Pa = 2.5e9) {
  const d = 0.5e-3
  const length = (0.1 * (links + 1)) / links
  const { input, chain } = evenChain(links + 1, length, d, { gravity_m_s2 }, { modulus_Pa })
  const EI = (modulus_Pa * Math.PI * d ** 4) / 64
  hold(chain, 1)
  chain.waveFactor[1] = 0
  chain.hinge[1] = (2 * EI * links) / 0.1
  const mu = (1140 * Math.PI * d * d) / 4
  return { input, chain, EI, mu, wall: 0.1 / links }
}

describe('cantilever frequencies (S. Timoshenko, Vibration Problems in Engineering, 1937)', () => {
  // Thirty links: a chain of hinges is off by about (mode)^2/links^2; own trial gave 0.02 to 0.5 %.
  it.each([
    [1.875104, 0.002],
    [4.694091, 0.004],
    [7.854757, 0.01],
  ])('beta %f', (beta, tolerance) => {
    const links = 30
    const { input, chain, EI, mu } = cantilever(links, 0)
    const ratio = (Math.cosh(beta) + Math.cos(beta)) / (Math.sinh(beta) + Math.sin(beta))
    const shape = (u: number) => {
      const z = beta * u
      return 1e-5 * (Math.cosh(z) - Math.cos(z) - ratio * (Math.sinh(z) - Math.sin(z)))
    }
    const rise = (k: number) => (shape((k - 1) / links) - shape((k - 2) / links)) / (0.1 / links)
    const state = stateOf(chain, (k) => (k === 1 ? 0 : Math.asin(rise(k))))
    const expected = ((beta * beta) / (2 * Math.PI)) * Math.sqrt(EI / mu) * 100
    if (beta < 2) expect(expected).toBeCloseTo(10.36, 2)
    const seen = new Crossings()
    run(chain, state, input, 1.1 / expected, {
      after: (s) => seen.see(s.time_s, s.y[links + 1]! - UP),
    })
    const [first = NaN, second = NaN] = seen.times
    expect(relative(1 / (2 * (second - first)), expected)).toBeLessThan(tolerance)
  })
})

/** Deflection of the end over the length: down, and back towards the wall. */
function droop(load: 'end' | 'own', share: number) {
  const links = 30
  const { input, chain, EI, mu, wall } = cantilever(links, G)
  // Loads are set by what gravity sees; inertia stays, so time runs as in the unloaded beam.
  const total = load === 'end' ? (share * EI) / (0.01 * G) : (share * EI) / (0.01 * G)
  for (let k = 1; k <= links + 1; k++) {
    const part = k === 1 ? 0 : k === links + 1 ? 0.5 : 1
    chain.mass_kg[k] = load === 'own' ? (total * part) / links : k === links + 1 ? total : 0
  }
  const state = stateOf(chain, () => 0)
  const omega = (1.875104 ** 2 * Math.sqrt(EI / mu)) / 0.01
  settle(chain, state, input, 2 * omega, 16 / omega)
  const end = links + 1
  return { down: (UP - state.y[end]!) / 0.1, back: 1 - (state.x[end]! - wall) / 0.1 }
}

describe('elastica', () => {
  // Thirty rigid links for a curve: own trial gave up to 0.0005 of the length.
  it.each([
    [0.5, 0.16214, 0.01592],
    [1, 0.30172, 0.05643],
    [2, 0.49346, 0.16064],
    [3, 0.60325, 0.25442],
    [5, 0.71379, 0.38763],
    [10, 0.81061, 0.555],
  ])('end load %f (Bisshopp and Drucker, Q. Appl. Math. 3:272, 1945)', (load, down, back) => {
    const end = droop('end', load)
    expect(Math.abs(end.down - down)).toBeLessThan(1e-3)
    expect(Math.abs(end.back - back)).toBeLessThan(1e-3)
  })

  it.each([
    [1, 0.12347],
    [2, 0.23851],
    [4, 0.42516],
    [8, 0.64063],
    [16, 0.79702],
  ])('own weight %f (own computation: shooting on the elastica)', (load, down) => {
    expect(Math.abs(droop('own', load).down - down)).toBeLessThan(1e-3)
  })
})

describe('catenary 2a sinh(D/2a) = L (J. Bernoulli, 1691; sags by own root-finding)', () => {
  // Sixty straight links cut the corner of the curve at the bottom: up to about 0.0005 of the length.
  it.each([
    [0.5, 0.39819],
    [0.75, 0.29433],
  ])('ends %f m apart', (apart, sag) => {
    const { input, chain } = evenChain(60, 1, 1e-3, { gravity_m_s2: G })
    const half = Math.acos(apart)
    const state = stateOf(chain, (k) => (k <= 30 ? -half : half))
    hold(chain, 60)
    settle(chain, state, input, 12, 3)
    expect(Math.abs(state.x[60]! - apart)).toBeLessThan(1e-4)
    expect(Math.abs(UP - state.y[30]! - sag)).toBeLessThan(1e-3)
  })
})

describe('terminal fall of a level cylinder, against the root of its drag balance', () => {
  const WATER_10_C = { density_kg_m3: 999.7, kinematicViscosity_m2_s: 1.307e-3 / 999.7 }
  const AIR = { density_kg_m3: 1.225, kinematicViscosity_m2_s: 1.789e-5 / 1.225 }

  function balance(d: number, density: number, fluid: typeof AIR, g: number): number {
    let [low, high] = [1e-5, 100]
    for (let i = 0; i < 80; i++) {
      const v = (low + high) / 2
      const drag =
        (fluid.density_kg_m3 / 2) *
        d *
        v *
        v *
        chengCylinderDrag((d * v) / fluid.kinematicViscosity_m2_s)
      if (drag > (density * Math.PI * d * d * g) / 4) high = v
      else low = v
    }
    return low
  }

  function fall(d: number, density: number, fluid: typeof AIR, g: number, end_s: number): number {
    const { input, chain } = evenChain(
      4,
      0.1,
      d,
      { air: fluid, gravity_m_s2: g, axialFriction: 0 },
      { density_kg_m3: density },
    )
    chain.inverseMass[0] = 1 / chain.mass_kg[0]!
    const state = stateOf(chain, () => 0)
    run(chain, state, input, end_s, {
      cap_s: 1e-3,
      force: ({ fy }) => {
        fy[0] = fy[0]! - chain.mass_kg[0]! * g
      },
    })
    return -state.vy[2]!
  }

  // The table of the drag law is right to 0.1 % from Re 1 on; here Re goes down to 0.4.
  it.each([
    [0.2e-3, 1140],
    [1e-3, 850],
  ])('in air, %f m', (d, density) => {
    expect(relative(fall(d, density, AIR, G, 3), balance(d, density, AIR, G))).toBeLessThan(2e-3)
  })

  // Sink speeds in cm/s, given to 0.005: own computation by the same balance with Cheng (2013).
  it.each([
    ['nylon', 1140, 0.15e-3, 0.39],
    ['nylon', 1140, 0.2e-3, 0.58],
    ['nylon', 1140, 0.3e-3, 0.97],
    ['PVDF', 1780, 0.15e-3, 1.47],
    ['PVDF', 1780, 0.2e-3, 2.09],
    ['PVDF', 1780, 0.3e-3, 3.29],
  ])('in water at 10 C, %s %f kg/m3 %f m', (_name, density, d, cm_s) => {
    const g = G * (1 - WATER_10_C.density_kg_m3 / density)
    const v = fall(d, density, WATER_10_C, g, 0.3)
    expect(relative(v, balance(d, density, WATER_10_C, g))).toBeLessThan(3e-3)
    expect(Math.abs(v * 100 - cm_s)).toBeLessThan(0.01)
  })
})
