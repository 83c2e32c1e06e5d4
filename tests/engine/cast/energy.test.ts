// @vitest-environment node
import { Solver } from 'odex'
import { describe, expect, it } from 'vitest'
import type { CastCase } from '../../../src/engine/cast'
import type { Chain } from '../../../src/engine/cast/chain'
import { caseOf, runCast } from '../../../src/engine/cast'
import { projectVelocities } from '../../../src/engine/cast/state'
import { SHIPPED, leaderOf } from '../../support/formulas'
import type { View } from './rig'
import { G, NO_AIR, evenChain, run, stateOf } from './rig'

/** A shipped leader's case, for the caster named. */
function shipped(
  file: string,
  caster: 'learner' | 'ordinary' | 'strong',
  patch: Partial<CastCase> = {},
): CastCase {
  const leader = leaderOf(SHIPPED.find((f) => f.file === `${file}.json`)!.text)
  const input = caseOf({ ...leader, outfit: { ...leader.outfit, caster } })
  if (typeof input === 'string') throw new Error(input)
  return { ...input, ...patch }
}

describe('energy of a cast', () => {
  const audit = (input: CastCase) => runCast(input, { audit: true, stopWhenStraight: true })

  // Of the kinetic energy at the start, through the straightening: 3e-3 with a drag area that stays as it is. One
  // that falls with speed brakes the snap less.
  it.each([
    ['middle-sallow-9ft-5x', 'ordinary'],
    ['middle-sallow-9ft-5x', 'strong'],
    ['lower-sallow-hopper-8ft-2x', 'learner'],
    ['saturday-class-level-line', 'ordinary'],
    ['lower-sallow-big-streamer-7ft-bite', 'ordinary'],
  ] as const)('with drag the ledger closes to 3e-3: %s, %s', (file, caster) => {
    const input = shipped(file, caster)
    expect(audit({ ...input, fly: { ...input.fly, dragExponent: 0 } }).energyError).toBeLessThan(
      3e-3,
    )
    const { energyError, ledger, status } = audit(input)
    expect(status).toBe('ok')
    expect(energyError).toBeLessThan(5e-3)
    const { start_J, kinetic_J, gravity_J, stored_J, fly_J, cross_J, axial_J, bending_J } = ledger!
    const lost = [...cross_J, ...axial_J, ...bending_J].reduce((sum, part) => sum + part, fly_J)
    const left = start_J + gravity_J - kinetic_J - stored_J - lost
    expect(Math.abs(left) / start_J).toBeLessThanOrEqual(energyError! + 1e-9)
    expect(lost / start_J).toBeGreaterThan(0.2) // else nothing was closed
  })

  // A heavy fly snaps the leader straight within a millisecond: the mesh called fine keeps 3e-3 there too.
  it('closes at the snap of a heavy nymph on the fine mesh', () => {
    const input = shipped('middle-sallow-nymph-9ft-5x', 'ordinary', { mesh: 'fine' })
    expect(audit(input).energyError).toBeLessThan(3e-3)
  })

  it('without drag the drift is under 3e-3 and falls with mesh and step', () => {
    const undragged = (mesh: CastCase['mesh']) => {
      const input = shipped('saturday-class-even-taper', 'ordinary', {
        air: NO_AIR,
        fly: { mass_kg: 50e-6, dragArea_m2: 0 },
        bendingDamping_s: 0.003,
        mesh,
      })
      return audit(input).energyError!
    }
    const usual = undragged('usual')
    expect(usual).toBeLessThan(3e-3)
    expect(undragged('fine')).toBeLessThan(usual / 2)
  })
})

const LINKS = 8
const LINK_M = 0.025

/** Eight links of uneven tilt swinging from a fixed tip: smooth for the quarter second that is compared. */
function pendulum() {
  const { input, chain } = evenChain(LINKS, LINKS * LINK_M, 1e-3, { gravity_m_s2: G })
  const angle = (k: number) => -Math.PI / 2 + 0.9 * Math.sin(0.6 * k) + 0.5
  return { input, chain, angle }
}

/** Masses on massless links, in link angles: Lagrange's equations, solved for the accelerations. */
function derivative(mass_kg: Float64Array, l: number) {
  const beyond = Array.from({ length: LINKS + 2 }, () => 0)
  for (let k = LINKS; k >= 1; k--) beyond[k] = beyond[k + 1]! + mass_kg[k]!
  return (_t: number, y: number[]): number[] => {
    const rows = Array.from({ length: LINKS }, (_, i) => {
      const row = Array.from({ length: LINKS + 1 }, () => 0)
      const a = y[i]!
      let pull = -beyond[i + 1]! * G * Math.cos(a)
      for (let j = 0; j < LINKS; j++) {
        const both = beyond[Math.max(i, j) + 1]! * l
        row[j] = both * Math.cos(a - y[j]!)
        pull -= both * Math.sin(a - y[j]!) * y[LINKS + j]! ** 2
      }
      row[LINKS] = pull
      return row
    })
    return [...y.slice(LINKS), ...solved(rows)]
  }
}

/** Gauss without pivoting: the mass matrix is positive definite. */
function solved(rows: number[][]): number[] {
  const n = rows.length
  for (let i = 0; i < n; i++) {
    for (let r = i + 1; r < n; r++) {
      const factor = rows[r]![i]! / rows[i]![i]!
      for (let c = i; c <= n; c++) rows[r]![c]! -= factor * rows[i]![c]!
    }
  }
  const x = Array.from({ length: n }, () => 0)
  for (let i = n - 1; i >= 0; i--) {
    let sum = rows[i]![n]!
    for (let c = i + 1; c < n; c++) sum -= rows[i]![c]! * x[c]!
    x[i] = sum / rows[i]![i]!
  }
  return x
}

function energyOf(mass_kg: Float64Array, l: number, y: number[]): number {
  let [py, vx, vy, energy] = [0, 0, 0, 0]
  for (let k = 1; k <= LINKS; k++) {
    const [a, w] = [y[k - 1]!, y[LINKS + k - 1]!]
    py += l * Math.sin(a)
    vx -= l * w * Math.sin(a)
    vy += l * w * Math.cos(a)
    energy += mass_kg[k]! * ((vx * vx + vy * vy) / 2 + G * py)
  }
  return energy
}

describe('against an independent adaptive integrator (odex, after Hairer, Norsett and Wanner, 1993)', () => {
  const END_S = 0.25
  const { chain: weighed, angle } = pendulum()
  const solver = new Solver(2 * LINKS)
  solver.absoluteTolerance = solver.relativeTolerance = 1e-11
  const start = Array.from({ length: 2 * LINKS }, (_, i) => (i < LINKS ? angle(i + 1) : 0))
  const exact = solver.solve(derivative(weighed.mass_kg, LINK_M), 0, start, END_S).y
  const end = exact
    .slice(0, LINKS)
    .reduce((p, a) => ({ x: p.x + LINK_M * Math.cos(a), y: p.y + LINK_M * Math.sin(a) }), {
      x: 0,
      y: 0,
    })

  function error(cap_s: number): number {
    const { input, chain } = pendulum()
    const state = stateOf(chain, angle)
    const top = state.y[0]!
    run(chain, state, input, END_S, { cap_s })
    return Math.hypot(state.x[LINKS]! - end.x, state.y[LINKS]! - top - end.y)
  }

  it('whose own energy drifts less than 1e-6', () => {
    const [before, after] = [start, exact].map((y) => energyOf(weighed.mass_kg, LINK_M, y))
    const moved = weighed.mass_kg.reduce((sum, m) => sum + m, 0) * G * 0.2
    expect(Math.abs(after! - before!) / moved).toBeLessThan(1e-6)
  })

  // A millimetre in 20 cm at 0.4 ms; and second order: four times less at half the step, within what the
  // first steps (which start short and grow) add.
  it('the chain agrees, with an error of second order in the step', () => {
    const [coarse, middle, fine] = [error(4e-4), error(2e-4), error(1e-4)]
    expect(coarse).toBeLessThan(1e-3)
    expect(fine).toBeGreaterThan(1e-9) // else the order could not be seen
    for (const ratio of [coarse / middle, middle / fine]) {
      expect(ratio).toBeGreaterThan(3)
      expect(ratio).toBeLessThan(5.5)
    }
  })
})

describe('without outside force (Newton, 1687)', () => {
  function momenta({ mass_kg, links }: Chain, state: View) {
    let [px, py, turning] = [0, 0, 0]
    for (let k = 0; k <= links; k++) {
      const [m, ux, uy] = [
        mass_kg[k]!,
        state.vx[k]! + (state.ax[k]! * state.step_s) / 2,
        state.vy[k]! + (state.ay[k]! * state.step_s) / 2,
      ]
      px += m * ux
      py += m * uy
      turning += m * (state.x[k]! * uy - state.y[k]! * ux)
    }
    return { px, py, turning }
  }

  function flight(free: boolean, cap_s: number) {
    const { input, chain } = evenChain(
      20,
      0.5,
      1e-3,
      { bendingDamping_s: 0.001 },
      { modulus_Pa: 2.5e9 },
    )
    if (free) chain.inverseMass[0] = 1 / chain.mass_kg[0]!
    const state = stateOf(chain, (k) => 0.3 * Math.sin(0.5 * k))
    for (let k = free ? 0 : 1; k <= 20; k++) {
      state.vx[k] = Math.sin(1.7 * k)
      state.vy[k] = 3 * Math.cos(0.9 * k) + 1
    }
    projectVelocities(state, chain)
    const before = momenta(chain, state)
    run(chain, state, input, 0.2, { cap_s })
    return { before, after: momenta(chain, state) }
  }

  // Momentum to rounding: every force is a pair. Angular momentum to the second order of the step.
  it('a free strand keeps momentum and angular momentum', () => {
    const { before, after } = flight(true, 1e-4)
    const size = Math.hypot(before.px, before.py)
    expect(Math.abs(after.px - before.px) / size).toBeLessThan(1e-9)
    expect(Math.abs(after.py - before.py) / size).toBeLessThan(1e-9)
    expect(Math.abs(after.turning / before.turning - 1)).toBeLessThan(1e-3)
  })
})
