import type { Body } from '../tackle'
import { dragAreaAt } from '../tackle'

/**
 * The energy model: a loop with its rod leg held runs along line and leader to the fly.
 *
 * With s the straight length of fly leg left, R the loop's radius, mu linear density and d diameter:
 *   moving mass  M(s) = integral of mu over the leg + fly + mu(s) pi R/2
 *   drag factor  K(s) = rho/2 CdA + rho d Cn R/12 + rho/2 Cf pi integral(d ds) + (5 pi^2/32) rho Cf d R
 *   leg speed    v(s) = v0 sqrt(M0/M) exp(-Lambda/2), Lambda = integral of 4K/M ds
 *   time         dt = 2 ds/v
 * Derived from the momentum and energy of the two legs. Bending and gravity are left out, so the share
 * of energy that survives does not depend on line speed: speed buys time against gravity.
 */
export interface LoopPiece {
  readonly length_m: number
  readonly diameter_m: number
  readonly linearDensity_kg_m: number
}

export interface LoopInput {
  /** From the loop to the fly: the line's share of the fly leg, then the leader. */
  readonly pieces: readonly LoopPiece[]
  readonly fly: Body
  readonly speed_m_s: number
  readonly radius_m: number
  readonly airDensity_kg_m3: number
  /** Coefficients for a diameter (m) at a leg speed (m/s): across the loop's front, along the leg. */
  readonly crossDrag: (diameter_m: number, speed_m_s: number) => number
  readonly axialFriction: (diameter_m: number, speed_m_s: number) => number
}

/** What one piece does to ln v: its gain from mass taper, its losses to drag. */
export interface PieceLoss {
  readonly length_m: number
  /** Time the loop takes to run through it, s. */
  readonly time_s: number
  /** ln(v) gained because less mass is left moving. */
  readonly massGain: number
  readonly flyDrag: number
  readonly legDrag: number
  readonly loopDrag: number
  /** Leg speed when the loop leaves it, m/s. */
  readonly speed_m_s: number
}

export interface LoopRun {
  readonly pieces: readonly PieceLoss[]
  readonly time_s: number
  /** Leg speed as the loop reaches the fly, m/s. */
  readonly endSpeed_m_s: number
}

const STEP_M = 0.06 // 0.3 % in speed and time against steps ten times finer

const LEAST_SPEED_M_S = 1e-6 // a leg that has stopped: keeps its time finite

/** Runs the loop through every piece. All figures are finite for positive masses and speeds. */
export function runLoop(input: LoopInput): LoopRun {
  const leg = wholeLeg(input)
  const pieces = input.pieces.map((piece) => runPiece(input, piece, leg))
  const time_s = pieces.reduce((sum, p) => sum + p.time_s, 0)
  return { pieces, time_s, endSpeed_m_s: leg.speed_m_s }
}

/** What is still moving: changed as the loop eats the leg. */
interface Leg {
  mass_kg: number
  /** Sum of diameter times length, m2. */
  surface_m2: number
  /** Moving mass at the last step, the loop's share included; NaN before the first. */
  moving_kg: number
  speed_m_s: number
}

function wholeLeg({ pieces, fly, speed_m_s }: LoopInput): Leg {
  const mass_kg = pieces.reduce((sum, p) => sum + p.linearDensity_kg_m * p.length_m, fly.mass_kg)
  const surface_m2 = pieces.reduce((sum, p) => sum + p.diameter_m * p.length_m, 0)
  return { mass_kg, surface_m2, moving_kg: NaN, speed_m_s }
}

function runPiece(input: LoopInput, piece: LoopPiece, leg: Leg): PieceLoss {
  const { diameter_m: d, linearDensity_kg_m: mu, length_m } = piece
  const { radius_m: R, airDensity_kg_m3: rho } = input
  const cf = input.axialFriction(d, leg.speed_m_s)
  const front = (rho * d * input.crossDrag(d, leg.speed_m_s) * R) / 12
  const loopFactor = front + ((5 * Math.PI * Math.PI) / 32) * rho * cf * d * R
  const flyFactor = (rho / 2) * dragAreaAt(input.fly, leg.speed_m_s)
  const legFactor = (rho / 2) * cf * Math.PI
  const loopMass = (mu * Math.PI * R) / 2
  const steps = Math.max(2, Math.ceil(length_m / STEP_M))
  const h = length_m / steps
  const loss = {
    length_m,
    time_s: 0,
    massGain: 0,
    flyDrag: 0,
    legDrag: 0,
    loopDrag: 0,
    speed_m_s: 0,
  }
  if (Number.isNaN(leg.moving_kg)) leg.moving_kg = leg.mass_kg + loopMass
  for (let k = 0; k < steps; k++) {
    const after = leg.mass_kg - mu * h + loopMass
    const perMass = (2 * h) / (after + (mu * h) / 2)
    const flyPart = perMass * flyFactor
    const legPart = perMass * legFactor * (leg.surface_m2 - (d * h) / 2)
    const loopPart = perMass * loopFactor
    const gain = Math.log(leg.moving_kg / after) / 2
    const kept = Math.exp(gain - flyPart - legPart - loopPart)
    const next = Math.max(LEAST_SPEED_M_S, leg.speed_m_s * kept)
    loss.time_s += (4 * h) / (leg.speed_m_s + next)
    loss.flyDrag += flyPart
    loss.legDrag += legPart
    loss.loopDrag += loopPart
    loss.massGain += gain
    leg.mass_kg -= mu * h
    leg.surface_m2 -= d * h
    leg.moving_kg = after
    leg.speed_m_s = next
  }
  loss.speed_m_s = leg.speed_m_s
  return loss
}

/**
 * Line speed (m/s) from the way (m) and time (s) of the loop's front: between a leg at rest and a leg
 * that flies at v the front moves at v/2 (derived: each leg feeds it by as much as the other).
 */
export function lineSpeedOfLoop(way_m: number, time_s: number): number {
  return (2 * way_m) / time_s
}
