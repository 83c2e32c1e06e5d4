import type { CastCase } from './castCase'
import type { Chain } from './chain'
import type { State } from './state'
import type { Stepper } from './step'
import { buildChain } from './chain'
import { bendingEnergy } from './forces/bending'
import {
  AX,
  AXIAL_POWER,
  AY,
  BENDING_POWER,
  COS,
  CROSS_POWER,
  VX,
  VY,
  X,
  Y,
  STRIDE,
  TENSION,
  recordOf,
} from './kernel'
import { startState } from './state'
import { advance, applyAll, makeStepper } from './step'
import { fallSpeed_m_s } from '../tackle'
import { STRAIGHT_EXTENSION } from './simulated'

export interface RunOptions {
  /** Stop once the leader is straight and its chord is 1 % past its greatest value, or the fly is down. */
  readonly stopWhenStraight?: boolean
  /**
   * Stop once it is certain whether this extension is reached with enough of the leader unrolled: see
   * `Decision`. Of what a flight measures, only `isReached` is then to be relied on.
   */
  readonly decide?: number
  /** Stop as the fly comes down: all that is to be known of how it lies is known then. */
  readonly stopAtTouch?: boolean
  /** Extension that counts as straight, 0.95 unless said: a lower peak may yet be surpassed before touch. */
  readonly straight?: number
  /** Keep account of energy: costs about a tenth of the run. */
  readonly audit?: boolean
  /** Keep the shape of the chain this often, s; 0 keeps none. */
  readonly frameEvery_s?: number
}

/** Positions of all nodes at one moment, m. */
export interface Frame {
  readonly time_s: number
  readonly x: Float32Array
  readonly y: Float32Array
  /** Tension (N) of the link on the rod's side of each node; 0 at the rod tip. */
  readonly tension_N: Float32Array
  readonly flySpeed_m_s: number
  /** Kinetic energy left, J. */
  readonly kinetic_J: number
  /** Taken by the air from the fly, across and along line and leader, and by bending, so far; J. */
  readonly lost_J: {
    readonly fly: number
    readonly cross: number
    readonly axial: number
    readonly bending: number
  }
}

/** Where the energy of the cast went, J. It closes to `energyError`. */
export interface Ledger {
  readonly start_J: number
  readonly kinetic_J: number
  /** Gained by falling since the start. */
  readonly gravity_J: number
  /** Put into bent strands since the start. */
  readonly stored_J: number
  readonly fly_J: number
  /** Air across line and leader (mostly the loop's front) and along them, per link. */
  readonly cross_J: Float64Array
  readonly axial_J: Float64Array
  readonly bending_J: Float64Array
  /** Leader segment of each link; -1 is the line. */
  readonly segmentOf: Int16Array
}

/** When each first happened, s; null where it did not. */
export interface FlightEvents {
  /** The whole leader points forward. */
  readonly unrolled_s: number | null
  /** The chord reaches what counts as straight, the fly ahead of the butt. */
  readonly straight_s: number | null
  /** Any part of line, leader or fly is on the water. */
  readonly firstTouch_s: number | null
  /** Leader and fly move no faster than a few centimetres a second; the line may swing from the rod yet. */
  readonly atRest_s: number | null
}

/** What comes down. */
export type TouchPart = 'line' | 'leader' | 'fly'

/** Slower than this nothing is seen to move, m/s; estimate. */
const REST_M_S = 0.05

export interface FlightResult {
  /** `ok`, or what went wrong and when. */
  readonly status: string
  /** Whether the extension to be decided, or else the one that counts as straight, was reached unrolled. */
  readonly isReached: boolean
  /** Greatest chord from butt to fly over leader length with the fly ahead of the butt; 0 if never ahead. */
  readonly extension: number
  readonly timeOfExtension_s: number | null
  /** Greatest share of the leader that had turned forward before the fly touched the water. */
  readonly unrolledFraction: number
  readonly flySpeedAtTurn_m_s: number | null
  readonly timeOfTurn_s: number | null
  readonly events: FlightEvents
  readonly touchTime_s: number | null
  readonly touchSpeed_m_s: number | null
  readonly slackOnWater: number | null
  /**
   * How it lies at the moment the fly touches the water, null where it never does: x from butt to fly over leader
   * length, 1 laid out straight, negative behind the butt.
   */
  readonly lay: number | null
  /** x of the fly over the length of line and leader then. */
  readonly reachShare: number | null
  /** The fly's speed downward then, m/s, and over its fall speed in still air; null without a drag area. */
  readonly touchSpeedDown_m_s: number | null
  readonly touchSpeedRatio: number | null
  /** Line end, middle of the leader and fly in the order of coming down, until the fly is down. */
  readonly touchOrder: readonly TouchPart[] | null
  /** The same as the lay for each leader segment. */
  readonly pieceLays: readonly number[] | null
  readonly energyError: number | null
  readonly ledger: Ledger | null
  readonly frames: readonly Frame[]
  readonly steps: number
  readonly nodes: number
  /** Node at which the leader begins, and the node at which each of its segments does, for drawing. */
  readonly buttNode: number
  readonly jointNodes: readonly number[]
  /** Mass lumped at each node, kg; the fly's is in the last. */
  readonly nodeMass_kg: Float64Array
}

const MOST_STEPS = 400_000 // several times what a flight on the finest mesh takes, estimate
/**
 * Nodes times steps after which a flight is given up: some five seconds, and twice what a standard cast takes on
 * the mesh `reference` (4.8e7), estimate.
 */
export const MOST_NODE_STEPS = 100_000_000
/** Share of its greatest value below which a chord is past it, estimate. */
const PAST = 0.99
/** The share of the leader that must have unrolled before a chord counts as turned over, estimate. */
const UNROLLED = 0.8

/** The extension that a verdict goes by: 0 while less than that share has unrolled. */
export function unrolledExtension({
  unrolledFraction,
  extension,
}: Pick<FlightResult, 'unrolledFraction' | 'extension'>): number {
  return unrolledFraction >= UNROLLED ? extension : 0
}

/** The whole leader points forward, but for rounding. */
const WHOLE = 0.999

/**
 * When a flight that is to be decided is given up: a leader so far unrolled, its chord so far below its peak.
 * Estimates by trial: every shipped leader with every shipped fly at six speeds about each edge, 2,016 verdicts on the
 * coarse mesh, none of them wrong (tests/support/decisions.mjs). A bound by the way that a fly has left was tried and
 * is not sound: a bulky one that hangs in the air comes round in the end.
 */
const SUNK_BACK = { unrolled: 0.99, share: 0.9 } as const

/** Flies one cast from a formed loop to `endTime_s`. Deterministic; nothing is allocated inside a step. */
export function runCast(input: CastCase, options: RunOptions = {}): FlightResult {
  const chain = buildChain(input)
  return flyFrom(chain, startState(chain, input), input, options)
}

/** The same from any state of any chain. */
export function flyFrom(
  chain: Chain,
  state: State,
  input: CastCase,
  options: RunOptions = {},
): FlightResult {
  const flight = new Flight(chain, state, input, options)
  while (flight.goesOn()) flight.step()
  return flight.result()
}

/** One flight, a step at a time: the loop over them holds no work of its own, which compiles best. */
class Flight {
  private readonly chain: Chain
  private readonly state: State
  private readonly input: CastCase
  private readonly stepper: Stepper
  private readonly watch: Watch
  private readonly audit: boolean
  private steps = 0
  private status = 'ok'

  constructor(chain: Chain, state: State, input: CastCase, options: RunOptions) {
    this.chain = chain
    this.state = state
    this.input = input
    this.stepper = makeStepper(chain, state, input)
    this.watch = new Watch(chain, state, input, options)
    this.audit = options.audit === true
  }

  goesOn(): boolean {
    return (
      this.status === 'ok' && !this.watch.isDone && this.state.time_s < this.input.endTime_s - 1e-9
    )
  }

  step(): void {
    const { chain, state, input, stepper, watch, audit } = this
    applyAll(state, chain, stepper)
    const before_s = state.step_s
    if (this.steps === 0) watch.start(state)
    if (audit) watch.weigh(state, input)
    if (this.steps >= Math.min(MOST_STEPS, MOST_NODE_STEPS / chain.links)) {
      this.status = `stopped at ${state.time_s.toFixed(4)} s, after ${this.steps} steps of ${chain.links + 1} nodes`
      return
    }
    const isMoved = advance(state, chain, stepper, input.endTime_s - state.time_s)
    if (!isMoved || !isSound(state, chain)) {
      this.status = `did not converge at ${state.time_s.toFixed(4)} s`
      return
    }
    this.steps++
    if (audit) watch.account(state, stepper, before_s)
    watch.look(state, stepper.lowest_m)
  }

  result(): FlightResult {
    return this.watch.result(this.chain, this.status, this.steps)
  }
}

/** A figure that is no number anywhere reaches the fly within a step. */
function isSound({ nodes }: State, { links }: Chain): boolean {
  const fly = recordOf(links)
  return Number.isFinite(nodes[fly + X]! + nodes[fly + Y]! + nodes[fly + VX]!)
}

/** Energy (J) of a moment. */
interface Held {
  kinetic: number
  gravity: number
  stored: number
}

const POWERS = { cross: CROSS_POWER, axial: AXIAL_POWER, bending: BENDING_POWER } as const

const sumOf = ({ kinetic, gravity, stored }: Held): number => kinetic + gravity + stored

/** W or J by what takes it; per link, bending per node. */
interface Losses {
  fly: number
  readonly cross: Float64Array
  readonly axial: Float64Array
  readonly bending: Float64Array
}

/** Kinetic energy (J) with velocities moved on by `shift_s`: nodes, less what link inertia corrects. */
function kineticEnergy(state: State, chain: Chain, shift_s: number): number {
  const { nodes } = state
  const { links, mass_kg, linkInertia } = chain
  const moved = (o: number, v: number, a: number) => nodes[o + v]! + shift_s * nodes[o + a]!
  let energy = 0
  let nearX = moved(recordOf(0), VX, AX)
  let nearY = moved(recordOf(0), VY, AY)
  for (let k = 1; k <= links; k++) {
    const farX = moved(recordOf(k), VX, AX)
    const farY = moved(recordOf(k), VY, AY)
    energy += (mass_kg[k]! * (farX * farX + farY * farY)) / 2
    energy -= (linkInertia[k]! * ((farX - nearX) ** 2 + (farY - nearY) ** 2)) / 2
    nearX = farX
    nearY = farY
  }
  return energy
}

/** What is looked at after a step. */
const LOOK = {
  time: 0,
  chord: 0,
  ahead: false,
  speed: 0,
  height: 0,
  cos: -1,
  x: 0,
  dx: 0,
  down: 0,
}

type Landing = Pick<
  FlightResult,
  'lay' | 'reachShare' | 'touchSpeedDown_m_s' | 'touchSpeedRatio' | 'touchOrder' | 'pieceLays'
>
const NOT_LANDED: Landing = {
  lay: null,
  reachShare: null,
  touchSpeedDown_m_s: null,
  touchSpeedRatio: null,
  touchOrder: null,
  pieceLays: null,
}

/** Node nearest to the middle of the leader. */
function middleOf({ butt, links, length_m, leaderLength_m }: Chain): number {
  let [node, along] = [butt, 0]
  while (node < links && along < leaderLength_m / 2) along += length_m[++node]!
  return node
}

/** How far each segment runs outward over its length. */
function pieceLays({ nodes }: State, { jointNodes, links, length_m }: Chain): number[] {
  return jointNodes.map((from, i) => {
    const to = jointNodes[i + 1] ?? links
    const length = length_m.subarray(from + 1, to + 1).reduce((sum, l) => sum + l, 0)
    return length > 0 ? (nodes[recordOf(to) + X]! - nodes[recordOf(from) + X]!) / length : 1
  })
}

/** Follows a flight and keeps what is asked about it. */
class Watch {
  private isPast = false
  /** Of `decide`: the target is passed on the way to a peak, or cannot be reached any more. */
  private isDecided = false
  private isSurelyReached = false
  /** Greatest chord since all but the last of the leader turned forward. */
  private unrolledPeak = 0
  private readonly chain: Chain
  private readonly input: CastCase
  private readonly options: RunOptions
  private extension = 0
  private timeOfExtension: number | null = null
  private unrolled = 0
  private turnSpeed: number | null = null
  private turnTime: number | null = null
  private events: { -readonly [K in keyof FlightEvents]: number | null } = {
    unrolled_s: null,
    straight_s: null,
    firstTouch_s: null,
    atRest_s: null,
  }
  private touchTime: number | null = null
  private touchSpeed: number | null = null
  private readonly frames: Frame[] = []
  private nextFrame = 0
  private touchesWater = false
  /** Greatest gap of the account, and the energy of motion that it is measured by: of a loop that starts beyond the line there is none at first. */
  private worst_J = 0
  private mostKinetic_J = 0
  private readonly lost: Losses
  /** Power of the last account, for the trapezoidal rule. */
  private readonly power: Losses
  private held: Held = { kinetic: 0, gravity: 0, stored: 0 }
  private initial: Held | null = null
  // The last two looks: chord, whether the fly is ahead, its speed, its height, the last link's cosine.
  private before = { ...LOOK }
  private last = { ...LOOK }
  private landing: Landing | null = null
  private readonly down: TouchPart[] = []
  private readonly middle: number

  constructor(chain: Chain, state: State, input: CastCase, options: RunOptions) {
    this.chain = chain
    this.input = input
    this.options = options
    this.middle = middleOf(chain)
    const column = () => new Float64Array(options.audit ? chain.links + 2 : 0)
    const losses = () => ({ fly: 0, cross: column(), axial: column(), bending: column() })
    this.lost = losses()
    this.power = losses()
    this.measure(state, this.last)
  }

  start(state: State): void {
    this.frame(state)
  }

  /** Nothing that was asked for is still to come. */
  get isDone(): boolean {
    const { stopWhenStraight, stopAtTouch, decide } = this.options
    if (stopAtTouch) return this.landing !== null
    if (decide !== undefined) return this.isPast || this.isDecided
    return this.isPast && stopWhenStraight === true
  }

  look(state: State, lowest_m: number): void {
    const [before, last] = [this.before, this.last]
    const now = this.before
    const old = { chord: before.chord, time: before.time }
    this.before = last
    this.last = now
    this.measure(state, now)
    if (this.touchTime === null) {
      this.lookAtTurn(last, now)
      this.lookAtChord(old.chord, last, now)
      if (this.unrolled < WHOLE) this.unrolled = Math.max(this.unrolled, this.turnedForward(state))
      this.lookAtTouches(state)
      if (now.height <= 0) this.touch(state, last, now)
      else if (this.options.decide !== undefined)
        this.lookForDecision(last.chord, now, this.options.decide)
    }
    this.lookAtEvents(state, now, lowest_m)
    if (state.time_s >= this.nextFrame) this.frame(state)
  }

  private measure({ time_s, nodes, step_s }: State, into: Watch['last']): void {
    const { links, butt, leaderLength_m } = this.chain
    const [from, to] = [recordOf(butt), recordOf(links)]
    const dx = nodes[to + X]! - nodes[from + X]!
    const dy = nodes[to + Y]! - nodes[from + Y]!
    into.time = time_s
    into.chord = Math.sqrt(dx * dx + dy * dy) / leaderLength_m
    into.ahead = dx > 0
    into.dx = dx
    into.x = nodes[to + X]!
    into.down = -(nodes[to + VY]! + (nodes[to + AY]! * step_s) / 2)
    into.speed = Math.hypot(
      nodes[to + VX]! + (nodes[to + AX]! * step_s) / 2,
      nodes[to + VY]! + (nodes[to + AY]! * step_s) / 2,
    )
    into.height = nodes[to + Y]!
    into.cos = nodes[to + COS]!
  }

  private lookAtTurn(last: Watch['last'], now: Watch['last']): void {
    if (this.turnSpeed !== null || !(last.cos < 0 && now.cos >= 0)) return
    const share = -last.cos / (now.cos - last.cos)
    this.turnSpeed = last.speed + share * (now.speed - last.speed)
    this.turnTime = last.time + share * (now.time - last.time)
  }

  private lookAtChord(older: number, last: Watch['last'], now: Watch['last']): void {
    const isPeak = last.ahead && last.chord >= older && last.chord > now.chord
    if (isPeak && last.chord > this.extension) {
      this.extension = last.chord
      this.timeOfExtension = last.time
    }
    const { straight = STRAIGHT_EXTENSION } = this.options
    const isStraight = this.extension >= straight && this.unrolled >= UNROLLED
    if (isStraight && now.chord < this.extension * PAST && this.turnTime !== null)
      this.isPast = true
  }

  /**
   * A chord that grows past the target ahead of the butt goes on to a peak or to the water, and either counts. One
   * that comes ahead as it shrinks, of a fly that swings upright over a line on the water, had its peak behind.
   * Hopeless is a leader that has unrolled and sunk back.
   */
  private lookForDecision(older: number, now: Watch['last'], target: number): void {
    const isGrowing = now.ahead && now.chord >= target && now.chord > older
    if ((isGrowing || this.extension >= target) && this.unrolled >= UNROLLED) {
      this.isSurelyReached = true
      this.isDecided = true
    } else if (this.unrolled >= SUNK_BACK.unrolled) {
      if (now.ahead) this.unrolledPeak = Math.max(this.unrolledPeak, now.chord)
      this.isDecided = now.ahead && now.chord < this.unrolledPeak * SUNK_BACK.share
    }
  }

  private lookAtEvents(state: State, now: Watch['last'], lowest_m: number): void {
    const { events } = this
    const { straight = STRAIGHT_EXTENSION } = this.options
    if (this.unrolled >= WHOLE) events.unrolled_s ??= now.time
    if (now.ahead && now.chord >= straight) events.straight_s ??= now.time
    if (events.firstTouch_s === null) {
      if (lowest_m <= 0) events.firstTouch_s = now.time
    } else if (events.atRest_s === null && this.isAtRest(state)) events.atRest_s = now.time
  }

  private isAtRest({ nodes }: State): boolean {
    const end = recordOf(this.chain.links)
    for (let o = recordOf(this.chain.butt); o <= end; o += STRIDE) {
      const [vx, vy] = [nodes[o + VX]!, nodes[o + VY]!]
      if (vx * vx + vy * vy > REST_M_S * REST_M_S) return false
    }
    return true
  }

  /** Which of line end and middle of the leader has come down by now. */
  private lookAtTouches({ nodes }: State): void {
    if (!this.down.includes('line') && nodes[recordOf(this.chain.butt) + Y]! <= 0)
      this.down.push('line')
    if (!this.down.includes('leader') && nodes[recordOf(this.middle) + Y]! <= 0)
      this.down.push('leader')
  }

  private touch(state: State, last: Watch['last'], now: Watch['last']): void {
    const share = last.height > now.height ? last.height / (last.height - now.height) : 0
    this.touchTime = last.time + share * (now.time - last.time)
    this.touchSpeed = last.speed + share * (now.speed - last.speed)
    const chord = last.chord + share * (now.chord - last.chord)
    if (now.ahead && chord > this.extension) {
      this.extension = chord
      this.timeOfExtension = this.touchTime
    }
    this.isPast = true
    this.landing = this.landed(state, last, now, share)
  }

  private landed(state: State, last: Watch['last'], now: Watch['last'], share: number): Landing {
    const { chain, input } = this
    const between = (of: 'x' | 'dx' | 'down') => last[of] + share * (now[of] - last[of])
    const total_m = chain.length_m.reduce((sum, l) => sum + l, 0)
    const fall = fallSpeed_m_s(input.fly, input.air.density_kg_m3, input.gravity_m_s2)
    return {
      lay: between('dx') / chain.leaderLength_m,
      reachShare: between('x') / total_m,
      touchSpeedDown_m_s: between('down'),
      touchSpeedRatio: fall ? between('down') / fall : null,
      touchOrder: [...this.down, 'fly'],
      pieceLays: pieceLays(state, chain),
    }
  }

  /** Share of the leader's length that points forward. */
  private turnedForward({ nodes }: State): number {
    const { links, butt, length_m, leaderLength_m } = this.chain
    let length = 0
    for (let k = butt + 1; k <= links; k++)
      if (nodes[recordOf(k) + COS]! > 0) length += length_m[k]!
    return length / leaderLength_m
  }

  /** Before a step: what is held by height and by bending. The account ends where the water begins. */
  weigh(state: State, input: CastCase): void {
    const { links, mass_kg } = this.chain
    let gravity = 0
    for (let k = 1; k <= links; k++) {
      const y = state.nodes[recordOf(k) + Y]!
      gravity += mass_kg[k]! * input.gravity_m_s2 * y
      if (y < 0) this.touchesWater = true
    }
    if (!this.touchesWater)
      this.held = { kinetic: 0, gravity, stored: bendingEnergy(state, this.chain) }
  }

  /**
   * After that step: kinetic energy at its beginning, now that the acceleration there is known, what air and
   * damping took until then, and whether the account still closes.
   */
  account(state: State, stepper: Stepper, before_s: number): void {
    if (this.touchesWater) return
    this.held.kinetic = kineticEnergy(state, this.chain, -state.step_s / 2)
    this.initial ??= { ...this.held }
    const total = this.addLosses(state, stepper, before_s / 2)
    const { held, initial } = this
    this.worst_J = Math.max(this.worst_J, Math.abs(sumOf(held) + total - sumOf(initial)))
    this.mostKinetic_J = Math.max(this.mostKinetic_J, initial.kinetic, held.kinetic)
  }

  private addLosses({ nodes }: State, { flyPower }: Stepper, half_s: number): number {
    const { lost, power: last, chain } = this
    lost.fly += (last.fly + flyPower) * half_s
    last.fly = flyPower
    let total = lost.fly
    for (const part of ['cross', 'axial', 'bending'] as const) {
      const [sum, from, power] = [lost[part], last[part], POWERS[part]]
      for (let k = 1; k <= chain.links; k++) {
        const to = nodes[recordOf(k) + power]!
        sum[k] = sum[k]! + (from[k]! + to) * half_s
        from[k] = to
        total += sum[k]!
      }
    }
    return total
  }

  private lostSoFar(): Frame['lost_J'] {
    const sum = (column: Float64Array) => column.reduce((total, part) => total + part, 0)
    const { fly, cross, axial, bending } = this.lost
    return { fly, cross: sum(cross), axial: sum(axial), bending: sum(bending) }
  }

  private frame(state: State): void {
    const every = this.options.frameEvery_s ?? 0
    if (every <= 0) return
    this.nextFrame = state.time_s + every * 0.999
    const column = (field: number) =>
      Float32Array.from(
        { length: this.chain.links + 1 },
        (_, k) => state.nodes[recordOf(k) + field]!,
      )
    this.frames.push({
      time_s: state.time_s,
      x: column(X),
      y: column(Y),
      tension_N: column(TENSION),
      flySpeed_m_s: this.last.speed,
      kinetic_J: kineticEnergy(state, this.chain, state.step_s / 2),
      lost_J: this.lostSoFar(),
    })
  }

  result(chain: Chain, status: string, steps: number): FlightResult {
    const { stopWhenStraight, stopAtTouch, decide } = this.options
    const flown = status === 'ok' && !stopWhenStraight && !stopAtTouch && decide === undefined
    const target = this.options.decide ?? this.options.straight ?? STRAIGHT_EXTENSION
    return {
      status,
      isReached:
        status === 'ok' &&
        (this.isSurelyReached || (this.extension >= target && this.unrolled >= UNROLLED)),
      extension: this.extension,
      timeOfExtension_s: this.timeOfExtension,
      unrolledFraction: this.unrolled,
      flySpeedAtTurn_m_s: this.turnSpeed,
      timeOfTurn_s: this.turnTime,
      events: this.events,
      touchTime_s: this.touchTime,
      touchSpeed_m_s: this.touchSpeed,
      slackOnWater: flown ? 1 - this.last.chord : null,
      ...(this.landing ?? NOT_LANDED),
      energyError: this.options.audit ? this.energyError() : null,
      ledger: this.options.audit ? this.ledger() : null,
      frames: this.frames,
      steps,
      nodes: chain.links + 1,
      buttNode: chain.butt,
      jointNodes: chain.jointNodes,
      nodeMass_kg: chain.mass_kg,
    }
  }

  private energyError(): number {
    return this.mostKinetic_J > 0 ? this.worst_J / this.mostKinetic_J : 0
  }

  private ledger(): Ledger {
    const { fly, cross, axial, bending } = this.lost
    const { held } = this
    const initial = this.initial ?? held
    return {
      start_J: initial.kinetic,
      kinetic_J: held.kinetic,
      gravity_J: initial.gravity - held.gravity,
      stored_J: held.stored - initial.stored,
      fly_J: fly,
      cross_J: cross,
      axial_J: axial,
      bending_J: bending,
      segmentOf: this.chain.segmentOf,
    }
  }
}
