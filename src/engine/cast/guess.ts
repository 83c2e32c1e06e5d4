import type { CastCase, Strand } from './castCase'
import type { LoopPiece } from './energyModel'
import { linearDensity_kg_m } from '../materials'
import { AXIAL_FRICTION, CYLINDER_DRAG, dragTable, readTable } from './drag'
import { runLoop } from './energyModel'
import { lastCrumb_s, leaderPieces, timeInAir_s } from './turnover'

/**
 * The line speed (m/s) that the energy model thinks a case needs: where a search by flights begins. The same
 * reckoning as the closed-form estimate, from everything that a case can change but the wind.
 */
function guessedSpeed(input: CastCase): number {
  const { cast, fly, air } = input
  const R = cast.loopHeight_m / 2
  const segments = input.segments.map(levelled)
  const leader_m = total(segments)
  const line = legOf(input.line.map(levelled), cast.loopStart_m + Math.PI * R)
  const cross = lawOf(dragTable(CYLINDER_DRAG[input.cylinderDrag]), air.kinematicViscosity_m2_s)
  const run = runLoop({
    pieces: [...line, ...leaderPieces({ segments, total_m: leader_m })],
    fly,
    speed_m_s: cast.lineSpeed_m_s,
    radius_m: R,
    airDensity_kg_m3: air.density_kg_m3,
    // The loop's front meets air at half the leg's speed.
    crossDrag: (d, v) => cross(d, v / 2),
    axialFriction: frictionOf(input),
  })
  const available_s = timeInAir_s(cast, total(line) + leader_m)
  return (cast.lineSpeed_m_s * (run.time_s - lastCrumb_s(run))) / available_s
}

/** Above this the energy model says only that the fly is bulky, m/s; estimate. */
const TRUSTED_M_S = 25

/** Where to begin a search of the least speed, m/s: the guess, where it is one. */
export function startingSpeed(input: CastCase): number {
  const guess = guessedSpeed(input)
  return guess <= TRUSTED_M_S ? guess : input.cast.lineSpeed_m_s
}

/**
 * Where to begin for a case that differs a little from one whose least speed is known. The energy model makes
 * too much of a bulkier fly, so that its changes upward are damped, and both ways are limited; estimates by trial.
 */
export function scaledSpeed(known_m_s: number, nominal: CastCase, changed: CastCase): number {
  const ratio = guessedSpeed(changed) / guessedSpeed(nominal)
  if (!Number.isFinite(ratio)) return known_m_s
  const damped = ratio > 1 ? 1 + DAMPING * (ratio - 1) : ratio
  return known_m_s * Math.min(MOST_SCALED, Math.max(LEAST_SCALED, damped))
}

const DAMPING = 0.7
const LEAST_SCALED = 0.75
const MOST_SCALED = 1.5

function levelled({ length_m, diameterFrom_m, diameterTo_m, density_kg_m3 }: Strand): LoopPiece {
  const diameter_m = (diameterFrom_m + diameterTo_m) / 2
  return {
    length_m,
    diameter_m,
    linearDensity_kg_m: linearDensity_kg_m(density_kg_m3, diameter_m),
  }
}

const total = (pieces: readonly LoopPiece[]): number =>
  pieces.reduce((sum, piece) => sum + piece.length_m, 0)

/** What of the line lies beyond so many metres from the rod tip, and a little of its end at least. */
function legOf(line: readonly LoopPiece[], beyond_m: number): LoopPiece[] {
  let left_m = Math.max(LEAST_LEG_M, total(line) - beyond_m)
  const leg: LoopPiece[] = []
  for (const piece of [...line].reverse()) {
    if (left_m <= 0) break
    const length_m = Math.min(piece.length_m, left_m)
    leg.unshift({ ...piece, length_m })
    left_m -= length_m
  }
  return leg
}

const LEAST_LEG_M = 0.3 // as the closed-form estimate has it

/** Coefficient from a table of coefficient x Re. */
function lawOf(table: Float64Array, viscosity_m2_s: number) {
  return (diameter_m: number, speed_m_s: number): number => {
    const re = (diameter_m * speed_m_s) / viscosity_m2_s
    return readTable(table, re) / re
  }
}

function frictionOf({ axialFriction: given, air }: CastCase) {
  if (typeof given === 'number') return () => given
  const { law, factor } = typeof given === 'string' ? { law: given, factor: 1 } : given
  const friction = lawOf(dragTable(AXIAL_FRICTION[law]), air.kinematicViscosity_m2_s)
  return (d: number, v: number) => factor * friction(d, v)
}
