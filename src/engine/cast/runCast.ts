import type { CastCase } from './castCase'
import type { Chain } from './chain'
import type { State } from './state'
import type { Stepper } from './step'
import { buildChain } from './chain'
import { bendingEnergy } from './forces/bending'
import { startState } from './state'
import { advance, applyForces, makeStepper } from './step'

export interface RunOptions {
  /** Stop once the leader is straight and its chord is 1 % past its greatest value. */
  readonly stopWhenStraight?: boolean
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
  readonly flySpeed_m_s: number
  /** Kinetic energy left, J. */
  readonly kinetic_J: number
}

/** Where the energy of the cast went, J. It closes to `energyError`. */
export interface Ledger {
  readonly start_J: number
  readonly kinetic_J: number
  readonly gravity_J: number
  readonly stored_J: number
  readonly fly_J: number
  /** Air across line and leader (mostly the loop's front) and along them, per link. */
  readonly cross_J: Float64Array
  readonly axial_J: Float64Array
  readonly bending_J: Float64Array
}

export interface FlightResult {
  /** `ok`, or what went wrong and when. */
  readonly status: string
  /** Greatest chord from butt to fly over leader length with the fly ahead of the butt; 0 if never ahead. */
  readonly extension: number
  readonly timeOfExtension_s: number | null
  /** Greatest share of the leader that had turned forward before the fly touched the water. */
  readonly unrolledFraction: number
  readonly flySpeedAtTurn_m_s: number | null
  readonly timeOfTurn_s: number | null
  readonly touchTime_s: number | null
  readonly touchSpeed_m_s: number | null
  readonly slackOnWater: number | null
  readonly energyError: number | null
  readonly ledger: Ledger | null
  readonly frames: readonly Frame[]
  readonly steps: number
  readonly nodes: number
}

const MOST_STEPS = 400_000
/** Share of the leader below which a chord is that of a leader still folded. */
const PAST = 0.99

/** Flies one cast from a formed loop to `endTime_s`. Deterministic; nothing is allocated inside a step. */
export function runCast(input: CastCase, options: RunOptions = {}): FlightResult {
  const chain = buildChain(input)
  const state = startState(chain, input)
  const stepper = makeStepper(chain, input)
  const watch = new Watch(chain, state, options)
  let steps = 0
  let status = 'ok'
  while (state.time_s < input.endTime_s - 1e-9) {
    applyForces(state, chain, input, stepper)
    const left_s = input.endTime_s - state.time_s
    const before_s = state.step_s
    if (steps === 0) watch.start(state, input)
    if (
      steps >= MOST_STEPS ||
      !advance(state, chain, input, stepper, left_s) ||
      !isSound(state, chain)
    ) {
      status = `did not converge at ${state.time_s.toFixed(4)} s`
      break
    }
    steps++
    if (options.audit) watch.account(state, stepper, input, (before_s + state.step_s) / 2)
    watch.look(state)
    if (options.stopWhenStraight && watch.isPast) break
  }
  return watch.result(chain, status, steps)
}

/** A figure that is no number anywhere reaches the fly within a step. */
function isSound({ x, y, vx }: State, { links }: Chain): boolean {
  return Number.isFinite(x[links]! + y[links]! + vx[links]!)
}

/** Follows a flight and keeps what is asked about it. */
class Watch {
  isPast = false
  private readonly chain: Chain
  private readonly options: RunOptions
  private extension = 0
  private timeOfExtension: number | null = null
  private unrolled = 0
  private turnSpeed: number | null = null
  private turnTime: number | null = null
  private touchTime: number | null = null
  private touchSpeed: number | null = null
  private readonly frames: Frame[] = []
  private nextFrame = 0
  private touchesWater = false
  private startEnergy = 0
  private worstError = 0
  private readonly lost: {
    fly: number
    cross: Float64Array
    axial: Float64Array
    bending: Float64Array
  }
  private lastEnergies = { kinetic: 0, gravity: 0, stored: 0 }
  private initial = { kinetic: 0, gravity: 0, stored: 0 }
  // The last two looks: chord, whether the fly is ahead, its speed, its height, the last link's cosine.
  private before = { time: 0, chord: 0, ahead: false, speed: 0, height: 0, cos: -1 }
  private last = { time: 0, chord: 0, ahead: false, speed: 0, height: 0, cos: -1 }

  constructor(chain: Chain, state: State, options: RunOptions) {
    this.chain = chain
    this.options = options
    const column = () => new Float64Array(chain.links + 2)
    this.lost = { fly: 0, cross: column(), axial: column(), bending: column() }
    this.measure(state, this.last)
  }

  start(state: State, input: CastCase): void {
    this.initial = this.energies(state, input, 0)
    this.lastEnergies = this.initial
    this.startEnergy = this.initial.kinetic
    this.frame(state)
  }

  look(state: State): void {
    const [before, last] = [this.before, this.last]
    const now = this.before
    const old = { chord: before.chord, time: before.time }
    this.before = last
    this.last = now
    this.measure(state, now)
    if (this.touchTime === null) {
      this.lookAtTurn(last, now)
      this.lookAtChord(old.chord, last, now)
      this.unrolled = Math.max(this.unrolled, this.turnedForward(state))
      if (now.height <= 0) this.touch(last, now)
    }
    if (state.time_s >= this.nextFrame) this.frame(state)
  }

  private measure({ time_s, x, y, vx, vy, ax, ay, step_s, cos }: State, into: Watch['last']): void {
    const { links, butt, leaderLength_m } = this.chain
    const [dx, dy] = [x[links]! - x[butt]!, y[links]! - y[butt]!]
    into.time = time_s
    into.chord = Math.sqrt(dx * dx + dy * dy) / leaderLength_m
    into.ahead = dx > 0
    into.speed = Math.hypot(
      vx[links]! + (ax[links]! * step_s) / 2,
      vy[links]! + (ay[links]! * step_s) / 2,
    )
    into.height = y[links]!
    into.cos = cos[links]!
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
    if (this.extension > 0.8 && now.chord < this.extension * PAST && this.turnTime !== null)
      this.isPast = true
  }

  private touch(last: Watch['last'], now: Watch['last']): void {
    const share = last.height > now.height ? last.height / (last.height - now.height) : 0
    this.touchTime = last.time + share * (now.time - last.time)
    this.touchSpeed = last.speed + share * (now.speed - last.speed)
    const chord = last.chord + share * (now.chord - last.chord)
    if (now.ahead && chord > this.extension) {
      this.extension = chord
      this.timeOfExtension = this.touchTime
    }
    this.isPast = true
  }

  /** Share of the leader's length that points forward. */
  private turnedForward({ cos }: State): number {
    const { links, butt, length_m, leaderLength_m } = this.chain
    let length = 0
    for (let k = butt + 1; k <= links; k++) if (cos[k]! > 0) length += length_m[k]!
    return length / leaderLength_m
  }

  private energies(state: State, input: CastCase, half_s: number) {
    const { links, mass_kg } = this.chain
    const { vx, vy, ax, ay, y } = state
    let kinetic = 0
    let gravity = 0
    for (let k = 1; k <= links; k++) {
      const [ux, uy] = [vx[k]! + half_s * ax[k]!, vy[k]! + half_s * ay[k]!]
      kinetic += (mass_kg[k]! / 2) * (ux * ux + uy * uy)
      gravity += mass_kg[k]! * input.gravity_m_s2 * y[k]!
      if (y[k]! < 0) this.touchesWater = true
    }
    return { kinetic, gravity, stored: bendingEnergy(state, this.chain) }
  }

  /** What the air and the damping took in this step, and whether the account still closes. */
  account(state: State, stepper: Stepper, input: CastCase, between_s: number): void {
    const { lost } = this
    if (this.touchesWater) return
    lost.fly += stepper.flyPower * between_s
    let total = lost.fly
    for (let k = 1; k <= this.chain.links; k++) {
      lost.cross[k] = lost.cross[k]! + stepper.power.cross[k]! * between_s
      lost.axial[k] = lost.axial[k]! + stepper.power.axial[k]! * between_s
      lost.bending[k] = lost.bending[k]! + stepper.power.bending[k]! * between_s
      total += lost.cross[k]! + lost.axial[k]! + lost.bending[k]!
    }
    const now = this.energies(state, input, state.step_s / 2)
    // The half step of loss between the last force and now belongs to the next step.
    const half = (this.powerNow(stepper) * state.step_s) / 2
    this.lastEnergies = now
    const held = now.kinetic + now.gravity + now.stored
    const began = this.initial.kinetic + this.initial.gravity + this.initial.stored
    const error = Math.abs(held + total + half - began) / this.startEnergy
    if (!this.touchesWater && error > this.worstError) this.worstError = error
  }

  private powerNow({ power, flyPower }: Stepper): number {
    let sum = flyPower
    for (let k = 1; k <= this.chain.links; k++)
      sum += power.cross[k]! + power.axial[k]! + power.bending[k]!
    return sum
  }

  private frame(state: State): void {
    const every = this.options.frameEvery_s ?? 0
    if (every <= 0) return
    this.nextFrame = state.time_s + every * 0.999
    const { links, mass_kg } = this.chain
    let kinetic = 0
    for (let k = 1; k <= links; k++)
      kinetic += (mass_kg[k]! / 2) * (state.vx[k]! ** 2 + state.vy[k]! ** 2)
    this.frames.push({
      time_s: state.time_s,
      x: Float32Array.from(state.x),
      y: Float32Array.from(state.y),
      flySpeed_m_s: this.last.speed,
      kinetic_J: kinetic,
    })
  }

  result(chain: Chain, status: string, steps: number): FlightResult {
    const flown = status === 'ok' && !this.options.stopWhenStraight
    return {
      status,
      extension: this.extension,
      timeOfExtension_s: this.timeOfExtension,
      unrolledFraction: this.unrolled,
      flySpeedAtTurn_m_s: this.turnSpeed,
      timeOfTurn_s: this.turnTime,
      touchTime_s: this.touchTime,
      touchSpeed_m_s: this.touchSpeed,
      slackOnWater: flown ? 1 - this.last.chord : null,
      energyError: this.options.audit ? this.worstError : null,
      ledger: this.options.audit ? this.ledger() : null,
      frames: this.frames,
      steps,
      nodes: chain.links + 1,
    }
  }

  private ledger(): Ledger {
    const { fly, cross, axial, bending } = this.lost
    return {
      start_J: this.startEnergy,
      kinetic_J: this.lastEnergies.kinetic,
      gravity_J: this.initial.gravity - this.lastEnergies.gravity,
      stored_J: this.lastEnergies.stored,
      fly_J: fly,
      cross_J: cross,
      axial_J: axial,
      bending_J: bending,
    }
  }
}
