// @vitest-environment node
import { describe, expect, it } from 'vitest'
import type { CastCase, LeaderStrand } from '../../../src/engine/cast'
import { STANDARD_AIR, runLoop } from '../../../src/engine/cast'
import { buildChain } from '../../../src/engine/cast/chain'
import {
  applyForces,
  AXIAL_POWER,
  CROSS_POWER,
  FX,
  FY,
  recordOf,
} from '../../../src/engine/cast/kernel'
import { startState } from '../../../src/engine/cast/state'
import { makeStepper } from '../../../src/engine/cast/step'
import {
  G,
  NO_AIR,
  UP,
  bareCase,
  evenChain,
  relative,
  run,
  setDrag,
  stateOf,
  strand,
  viewOf,
} from './rig'

const AIR = { ...STANDARD_AIR, density_kg_m3: 1.225 } // ISO 2533:1975
const SHARES = [0.5, 0.25, 0.1] as const

interface Loop {
  readonly input: CastCase
  readonly leg_m: number
  readonly drag?: readonly [across: number, along: number]
}

/** Time and speed of the fly leg when so much of it is left: the loop's nose goes at half its speed. */
function passes({ input, leg_m, drag = [0, 0] }: Loop) {
  const chain = buildChain(input)
  setDrag(chain, ...drag)
  const state = viewOf(startState(chain, input))
  const from = state.x[chain.links]!
  const rows: { time_s: number; speed_m_s: number }[] = []
  let last = { time: 0, left: leg_m, speed: input.cast.lineSpeed_m_s }
  run(chain, state, input, 2, {
    // A limp, undamped strand is the worst that link inertia can meet: short steps keep it quiet.
    cap_s: 1e-4,
    after: ({ time_s, step_s, x, vx, ax }) => {
      const left = leg_m - (x[chain.links]! - from) / 2
      const speed = vx[chain.links]! + (ax[chain.links]! * step_s) / 2
      const end = leg_m * (SHARES[rows.length] ?? 0)
      if (left <= end) {
        const share = (last.left - end) / (last.left - left)
        rows.push({
          time_s: last.time + share * (time_s - last.time),
          speed_m_s: last.speed + share * (speed - last.speed),
        })
      }
      last = { time: time_s, left, speed }
      return rows.length === SHARES.length
    },
  })
  return rows
}

const R = 0.25
const ROUND = Math.PI * R
const LEVEL = strand(0.5 + ROUND + 4.9, 1e-3)
const uniform = (patch: Partial<CastCase> = {}): Loop => ({
  leg_m: 5,
  input: bareCase({ line: [LEVEL], segments: [strand(0.1, 1e-3)], ...patch }),
})
const MU = (1140 * Math.PI * 1e-6) / 4
const withFly = uniform({ fly: { mass_kg: 0.5 * MU, dragArea_m2: 0 } })
const inAir: Loop = { ...uniform({ air: AIR }), drag: [1, 0.01] }

/** From 0.5 to 0.15 mm over 2.7 m, after a level rod leg and loop. */
const taper: LeaderStrand = { ...strand(2.7, 0.5e-3), diameterTo_m: 0.15e-3 }
const tapered: Loop = {
  leg_m: 2.7,
  drag: [1.5, 0.02],
  input: bareCase({
    line: [strand(0.5 + Math.PI * 0.15, 0.5e-3)],
    segments: [taper],
    air: AIR,
    fly: { mass_kg: 30e-6, dragArea_m2: (2 * 3e-5) / 1.225 },
    cast: { ...bareCase().cast, lineSpeed_m_s: 15, loopHeight_m: 0.3 },
  }),
}

type Rows = readonly (readonly [time_s: number, speed_m_s: number])[]

describe('loop cases of a planar chain (own computation by another chain, no published source)', () => {
  // The tolerances are those that the other chain claims for itself.
  it.each<[string, Loop, number, Rows]>([
    [
      'uniform',
      uniform(),
      0.003,
      [
        [0.4364, 13.66],
        [0.5978, 18.15],
        [0.67, 24.69],
      ],
    ],
    [
      'with a fly as heavy as half a metre',
      withFly,
      0.003,
      [
        [0.4423, 13.19],
        [0.6131, 16.6],
        [0.695, 20.62],
      ],
    ],
    [
      'with drag',
      inAir,
      0.01,
      [
        [0.4652, 11.94],
        [0.6562, 14.8],
        [0.7466, 19.3],
      ],
    ],
    [
      'tapered, with drag and a fly',
      tapered,
      0.01,
      [
        [0.2008, 11.46],
        [0.3391, 8.05],
        [0.4596, 5.53],
      ],
    ],
  ])('%s', (_name, loop, tolerance, expected) => {
    const rows = passes(loop)
    expect(rows).toHaveLength(SHARES.length)
    rows.forEach((row, i) => {
      expect(relative(row.time_s, expected[i]![0])).toBeLessThan(tolerance)
      expect(relative(row.speed_m_s, expected[i]![1])).toBeLessThan(tolerance)
    })
  })
})

describe('loop law (energy of the moving leg alone: own derivation)', () => {
  // 0.5 %: the law takes the loop for half a circle throughout; the chain's loop tightens a little.
  it('v = v0 sqrt(s0/s), t = 4/(3 v0 sqrt(s0)) (s0^1.5 - s^1.5), s counting half of the loop', () => {
    const s0 = 5 + ROUND / 2
    const rows = passes(uniform())
    expect(rows).toHaveLength(SHARES.length)
    rows.forEach(({ time_s, speed_m_s }, i) => {
      const s = 5 * SHARES[i]! + ROUND / 2
      expect(relative(speed_m_s, 10 * Math.sqrt(s0 / s))).toBeLessThan(0.005)
      const time = (4 / (3 * 10 * Math.sqrt(s0))) * (s0 ** 1.5 - s ** 1.5)
      expect(relative(time_s, time)).toBeLessThan(0.005)
    })
  })
})

describe('chain against energy model', () => {
  function model({ input, leg_m, drag = [0, 0] }: Loop, d: (left: number) => number) {
    const ends = [1, ...SHARES, 0]
    const pieces = SHARES.concat(0 as never).flatMap((_, i) => {
      const [from, to] = [ends[i]! * leg_m, ends[i + 1]! * leg_m]
      return Array.from({ length: 60 }, (_, k) => {
        const diameter_m = d(from - ((k + 0.5) * (from - to)) / 60)
        const linearDensity_kg_m = (1140 * Math.PI * diameter_m ** 2) / 4
        return { length_m: (from - to) / 60, diameter_m, linearDensity_kg_m }
      })
    })
    const result = runLoop({
      pieces,
      fly: input.fly,
      speed_m_s: input.cast.lineSpeed_m_s,
      radius_m: input.cast.loopHeight_m / 2,
      airDensity_kg_m3: input.air.density_kg_m3,
      crossDrag: () => drag[0],
      axialFriction: () => drag[1],
    })
    return SHARES.map((_, i) => ({
      time_s: result.pieces.slice(0, 60 * (i + 1)).reduce((sum, p) => sum + p.time_s, 0),
      speed_m_s: result.pieces[60 * (i + 1) - 1]!.speed_m_s,
    }))
  }

  const narrowing = (left: number) => 0.15e-3 + (0.35e-3 * left) / 2.7
  const undragged: Loop = {
    ...tapered,
    drag: [0, 0],
    input: { ...tapered.input, air: NO_AIR, fly: { mass_kg: 30e-6, dragArea_m2: 0 } },
  }

  function worst(loop: Loop, d: (left: number) => number): number {
    const expected = model(loop, d)
    const rows = passes(loop)
    expect(rows).toHaveLength(SHARES.length)
    const errors = rows.flatMap((row, i) => [
      relative(row.time_s, expected[i]!.time_s),
      relative(row.speed_m_s, expected[i]!.speed_m_s),
    ])
    return Math.max(...errors)
  }

  // Without drag only the loop's shape and what of the taper lies in it differ: 1.5 % while a quarter of the
  // leg is left, 2.0 % with a tenth left (own trial).
  it('undragged and tapered, within 2.2 %', () => {
    expect(worst(undragged, narrowing)).toBeLessThan(0.022)
  })

  it('dragged, within 1 to 6 %', () => {
    for (const error of [worst(inAir, () => 1e-3), worst(tapered, narrowing)]) {
      expect(error).toBeLessThan(0.06)
      expect(error).toBeGreaterThan(0.001) // else both would be one computation
    }
  })
})

describe('forces on a circular loop (Gatti-Bono and Perkins, J. Appl. Mech. 71:745, 2004)', () => {
  // d 1 mm, R 0.5 m, v 20 m/s, air 1.225; 400 links on the half circle are off by 1e-5, the sources' four
  // digits by 1e-4, the drag table by up to 4e-4 where the air meets the loop slowly.
  function forces(across: number, along: number) {
    const links = 400
    const { input, chain } = evenChain(links, Math.PI * 0.5, 1e-3, { air: AIR })
    setDrag(chain, across, along)
    const turned = (k: number) => ((k - 0.5) * Math.PI) / links
    const state = stateOf(chain, turned)
    for (let k = 0; k <= links; k++) {
      const tangent = (k * Math.PI) / links
      state.vx[k] = 10 * (1 - Math.cos(tangent))
      state.vy[k] = -10 * Math.sin(tangent)
    }
    const stepper = makeStepper(chain, state, input)
    applyForces(state, chain, stepper.surroundings, stepper)
    const sum = (field: number) =>
      Array.from({ length: links + 1 }, (_, k) => state.nodes[recordOf(k) + field]!).reduce(
        (total, value) => total + value,
      )
    return { x: sum(FX), y: sum(FY), power: sum(CROSS_POWER) + sum(AXIAL_POWER) }
  }

  it('drag 0.04083 N and power 0.4083 W with coefficient 1 across', () => {
    const { x, y, power } = forces(1, 0)
    expect(relative(-x, 0.04083)).toBeLessThan(6e-4)
    expect(Math.abs(y)).toBeLessThan(1e-6)
    expect(relative(power, 0.4083)).toBeLessThan(6e-4)
  })

  it('lift 1.225e-3 N with coefficient 0.015 per diameter along', () => {
    expect(relative(forces(0, 0.015 / Math.PI).y, 1.225e-3)).toBeLessThan(6e-4)
  })
})

describe('folded falling chain (Calkin and March, Am. J. Phys. 57:154, 1989)', () => {
  function fall(links: number) {
    const { input, chain } = evenChain(links, 1, 1e-3, { gravity_m_s2: G })
    const half = (links - 1) / 2
    const state = stateOf(chain, (k) =>
      k <= half ? -Math.PI / 2 : k === half + 1 ? 0 : Math.PI / 2,
    )
    let lowest = { y: UP, time: 0 }
    let ratio = NaN
    run(chain, state, input, 0.5, {
      after: ({ time_s, step_s, y, vy, ay }) => {
        const u = UP - y[links]!
        const v = vy[links]! + (ay[links]! * step_s) / 2
        if (u >= 0.5 && Number.isNaN(ratio)) ratio = (v * v * (1 - u)) / (G * (2 * u - u * u))
        if (y[links]! < lowest.y) lowest = { y: y[links]!, time: time_s }
      },
    })
    return { time: lowest.time / Math.sqrt(2 / G), ratio }
  }

  // A fold one link wide makes it an error of first order in the link (own trial: 1.0 % at 101 links, 0.55 %
  // at 201), so twice the finer less the coarser is compared: 0.1 % in trial.
  it('falls its length in 0.84721 of free-fall time, v^2 = gL (2u - u^2)/(1 - u)', () => {
    const [coarse, fine] = [fall(101), fall(201)]
    expect(relative(fine.time, 0.84721)).toBeLessThan(0.007)
    expect(relative(2 * fine.time - coarse.time, 0.84721)).toBeLessThan(0.002)
    expect(relative(fine.ratio, 1)).toBeLessThan(0.02)
    expect(relative(2 * fine.ratio - coarse.ratio, 1)).toBeLessThan(0.005)
  })
})
