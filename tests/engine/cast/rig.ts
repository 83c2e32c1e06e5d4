/** Rigs for the chain: simple casts, states laid out by hand, runs that can be watched. SI. */
import type { CastCase, LeaderStrand, Strand } from '../../../src/engine/cast'
import type { Chain } from '../../../src/engine/cast/chain'
import type { State } from '../../../src/engine/cast/state'
import {
  STANDARD_AIR,
  STANDARD_SURROUNDINGS,
  STATED_STRAND,
  dragTable,
} from '../../../src/engine/cast'
import { buildChain } from '../../../src/engine/cast/chain'
import * as kernel from '../../../src/engine/cast/kernel'
import { blankState } from '../../../src/engine/cast/state'
import { advance, makeStepper } from '../../../src/engine/cast/step'

export const G = 9.80665
export const NO_AIR = { ...STANDARD_AIR, density_kg_m3: 0 }

export const strand = (
  length_m: number,
  diameter_m: number,
  patch: Partial<Strand> = {},
): LeaderStrand => ({
  length_m,
  diameterFrom_m: diameter_m,
  diameterTo_m: diameter_m,
  density_kg_m3: 1140,
  modulus_Pa: 0,
  spreads: STATED_STRAND,
  ...patch,
})

/** Nothing acts unless asked for: no air, no gravity, no stiffness, no fly. */
export function bareCase(patch: Partial<CastCase> = {}): CastCase {
  return {
    ...STANDARD_SURROUNDINGS,
    line: [],
    segments: [strand(1, 1e-3)],
    fly: { mass_kg: 0, dragArea_m2: 0 },
    cast: {
      lineSpeed_m_s: 10,
      loopHeight_m: 0.5,
      loopStart_m: 0.5,
      launchAngle_deg: 0,
      tipHeight_m: 100,
    },
    air: NO_AIR,
    gravity_m_s2: 0,
    bendingDamping_s: 0,
    mesh: 'fine',
    ...patch,
  }
}

/** A leader of so many equal links, hung straight from the tip. */
export function evenChain(
  links: number,
  length_m: number,
  d_m: number,
  patch: Partial<CastCase>,
  s: Partial<Strand> = {},
) {
  const segments = Array.from({ length: links }, () => strand(length_m / links, d_m, s))
  // The usual mesh leaves pieces this short whole.
  const input = bareCase({ mesh: 'usual', ...patch, segments })
  const chain = buildChain(input, true)
  if (chain.links !== links) throw new Error(`The mesh made ${chain.links} links of ${links}`)
  return { input, chain }
}

/** Height of the first node, well above the water. */
export const UP = 10

/** One quantity of every node, read and written by the node's number. */
type Column = Record<number, number>

function column({ nodes }: State, field: number): Column {
  const place = (key: string | symbol) => kernel.recordOf(Number(key)) + field
  return new Proxy<Column>(
    {},
    {
      get: (_, key) => nodes[place(key)],
      set: (_, key, value: number) => {
        nodes[place(key)] = value
        return true
      },
    },
  )
}

/** A state with its quantities apart, as a test wants to see it. */
export interface View extends State {
  readonly x: Column
  readonly y: Column
  readonly vx: Column
  readonly vy: Column
  readonly ax: Column
  readonly ay: Column
  readonly fx: Column
  readonly fy: Column
  readonly cos: Column
  readonly sin: Column
}

/** The state itself, with its columns. */
export function viewOf(state: State): View {
  const of = (field: number) => column(state, field)
  return Object.assign(state, {
    x: of(kernel.X),
    y: of(kernel.Y),
    vx: of(kernel.VX),
    vy: of(kernel.VY),
    ax: of(kernel.AX),
    ay: of(kernel.AY),
    fx: of(kernel.FX),
    fy: of(kernel.FY),
    cos: of(kernel.COS),
    sin: of(kernel.SIN),
  })
}

/** Nodes set by the direction of each link, at rest. */
export function stateOf(chain: Chain, angle: (link: number) => number): View {
  const state = viewOf(blankState(chain))
  state.y[0] = UP
  for (let k = 1; k <= chain.links; k++) {
    const [c, s] = [Math.cos(angle(k)), Math.sin(angle(k))]
    state.cos[k] = c
    state.sin[k] = s
    state.x[k] = state.x[k - 1]! + chain.length_m[k]! * c
    state.y[k] = state.y[k - 1]! + chain.length_m[k]! * s
  }
  return state
}

/** Holds a node where it is: it still moves, but as if it weighed tons, and gravity does not see it. */
export function hold(chain: Chain, node: number): void {
  chain.inverseMass[node] = 1e-9
  chain.mass_kg[node] = 0
}

/** Constant coefficients in place of the laws: across per d, along per pi d. */
export function setDrag(chain: Chain, across: number, along: number): void {
  Object.assign(chain, {
    crossTable: dragTable(() => across),
    axialTable: dragTable(() => along),
    axialFactor: 1,
  })
}

export interface Watched {
  readonly cap_s?: number
  /** Before each step, forces applied. */
  readonly force?: (state: View) => void
  /** After each step; true stops. */
  readonly after?: (state: View) => boolean | void
}

/** Steps the chain to a time. */
export function run(
  chain: Chain,
  state: View,
  input: CastCase,
  end_s: number,
  watched: Watched = {},
): void {
  const stepper = makeStepper(chain, state, input)
  const { cap_s = Infinity } = watched
  while (state.time_s < end_s - 1e-12) {
    kernel.applyForces(state, chain, stepper.surroundings, stepper)
    watched.force?.(state)
    if (!advance(state, chain, stepper, Math.min(cap_s, end_s - state.time_s)))
      throw new Error(`stuck at ${state.time_s} s`)
    if (watched.after?.(state)) return
  }
}

/** Lets a chain come to rest under friction of our own, which leaves the resting shape alone. */
export function settle(
  chain: Chain,
  state: View,
  input: CastCase,
  rate_1_s: number,
  end_s: number,
): void {
  run(chain, state, input, end_s, {
    after: ({ vx, vy, step_s }) => {
      const kept = Math.exp(-rate_1_s * step_s)
      for (let k = 1; k <= chain.links; k++) {
        vx[k] = vx[k]! * kept
        vy[k] = vy[k]! * kept
      }
    },
  })
}

/** Times at which a value changes sign, by linear interpolation. */
export class Crossings {
  readonly times: number[] = []
  private last = { time: 0, value: NaN }
  see(time: number, value: number): void {
    const { last } = this
    if (last.value * value < 0)
      this.times.push(last.time + ((time - last.time) * last.value) / (last.value - value))
    this.last = { time, value }
  }
}

export const relative = (value: number, expected: number): number => Math.abs(value / expected - 1)
