import type { Leader } from '../leader'
import type { Profile } from '../profile'
import type { Caster, FlyLine } from '../tackle'
import type { LoopPiece, LoopRun, PieceLoss } from './energyModel'
import type { TurnoverVerdict } from './simulated'
import { STANDARD_GRAVITY_M_S2 } from '../units'
import { casterOf } from '../leader'
import { bodyOf, flyFigures, linePieces } from '../tackle'
import { STANDARD_AIR, chengCylinderDrag, dragTable, matsuiAxialFriction, readTable } from './drag'
import { runLoop } from './energyModel'
import { STRAIGHT_EXTENSION, verdictOf } from './simulated'

/**
 * The standard cast (common practice): 9 m of line out, 4 m of it the rod leg at the start, rod tip
 * 2 m up, launched 10 degrees upward. The launch angle was chosen so that ordinary leaders work as
 * anglers find they do.
 */
export const STANDARD_CAST = {
  lineOut_m: 9,
  rodLeg_m: 4,
  tipHeight_m: 2,
  launchAngle_deg: 10,
} as const

/** What the energy model says of leader, fly, line and caster. An estimate of the turnover, not a flight. */
export interface Turnover {
  readonly caster: Caster
  readonly verdict: TurnoverVerdict
  /** Line speed that just turns it over before the fly is down, m/s, and its band. */
  readonly neededSpeed_m_s: { readonly value: number; readonly low: number; readonly high: number }
  /** Speed of the fly as the loop reaches it, m/s. */
  readonly flySpeed_m_s: number
  /** Where the leg's speed goes, summed over line and leader: shares of all drag loss, together 1. */
  readonly lossShares: { readonly fly: number; readonly leg: number; readonly loop: number }
  /** One per leader segment. */
  readonly segments: readonly PieceLoss[]
  /** Estimated chord from butt to fly over leader length as the fly comes down. */
  readonly extension: number
}

// Uncertainty of the needed speed: axial friction, loop start and fly drag are poorly known; our estimate.
const SPEED_BAND = { low: 0.75, high: 1.3 } as const

/**
 * The closed-form estimate for one leader, or the name of what is missing.
 * The loop must reach the fly before the fly, falling freely from the launched leg, is on the water;
 * time scales as 1 / speed, which gives the speed needed.
 */
export function estimateTurnover(
  leader: Leader,
  profile: Profile,
): Turnover | 'no-fly' | 'no-line' {
  const { line } = leader.outfit
  const choice = leader.tip.fly
  if (!choice) return 'no-fly'
  if (!line) return 'no-line'
  const caster = casterOf(leader.outfit)
  const R = caster.loopHeight_m / 2
  const legOfLine_m = Math.max(0.3, STANDARD_CAST.lineOut_m - STANDARD_CAST.rodLeg_m - Math.PI * R)
  const linePart = lineLeg(line, legOfLine_m)
  const run = runLoop({
    pieces: [...linePart, ...leaderPieces(profile)],
    fly: bodyOf(flyFigures(choice.fly)),
    speed_m_s: caster.lineSpeed_m_s,
    radius_m: R,
    airDensity_kg_m3: STANDARD_AIR.density_kg_m3,
    crossDrag,
    axialFriction,
  })
  return judged(run, caster, profile.total_m, legOfLine_m, linePart.length)
}

/** What may still be folded back when a leader counts as straight, as a share of its length. */
const CRUMB = (1 - STRAIGHT_EXTENSION) / 2
const TIP_PIECES = 6

/**
 * The leader for the loop to run through. Its last segment, where speeds change most, is cut finer, and
 * what may be left folded stands apart: with a bulky fly the loop takes for ever over that.
 */
export function leaderPieces({
  segments,
  total_m,
}: {
  readonly segments: readonly LoopPiece[]
  readonly total_m: number
}): LoopPiece[] {
  const tip = segments.at(-1)
  if (!tip) return []
  const crumb_m = Math.min(CRUMB * total_m, tip.length_m / 2)
  const rest_m = (tip.length_m - crumb_m) / TIP_PIECES
  const cut = (length_m: number): LoopPiece => ({ ...tip, length_m })
  return [
    ...segments.slice(0, -1),
    ...Array.from({ length: TIP_PIECES }, () => cut(rest_m)),
    cut(crumb_m),
  ]
}

/** Time (s) over what may be left folded. */
export function lastCrumb_s({ pieces }: LoopRun): number {
  return pieces.at(-1)?.time_s ?? 0
}

/** One entry a segment again. */
function merged(pieces: readonly PieceLoss[]): PieceLoss[] {
  const first = pieces.length - TIP_PIECES - 1
  const tip = pieces.slice(first)
  const sum = (key: keyof PieceLoss) => tip.reduce((total, p) => total + p[key], 0)
  const last: PieceLoss = {
    length_m: sum('length_m'),
    time_s: sum('time_s'),
    massGain: sum('massGain'),
    flyDrag: sum('flyDrag'),
    legDrag: sum('legDrag'),
    loopDrag: sum('loopDrag'),
    speed_m_s: tip.at(-1)?.speed_m_s ?? 0,
  }
  return [...pieces.slice(0, first), last]
}

/** The line's share of the fly leg: the same for every edit of a leader on one line. */
const LEGS = new WeakMap<
  FlyLine,
  { readonly length_m: number; readonly pieces: readonly LoopPiece[] }
>()

function lineLeg(line: FlyLine, length_m: number): readonly LoopPiece[] {
  const known = LEGS.get(line)
  if (known?.length_m === length_m) return known.pieces
  const pieces = linePieces(line, length_m).reverse()
  LEGS.set(line, { length_m, pieces })
  return pieces
}

// Laws read from tables: an estimate at every keystroke has no time for a dozen powers.
const CROSS = dragTable(chengCylinderDrag)
const AXIAL = dragTable(matsuiAxialFriction)
const PER_VISCOSITY = 1 / STANDARD_AIR.kinematicViscosity_m2_s

/** The loop's front meets air at half the leg's speed. */
function crossDrag(diameter_m: number, speed_m_s: number): number {
  const re = (diameter_m * speed_m_s * PER_VISCOSITY) / 2
  return readTable(CROSS, re) / re
}

/** The leg slides through it at all of its speed. */
function axialFriction(diameter_m: number, speed_m_s: number): number {
  const re = diameter_m * speed_m_s * PER_VISCOSITY
  return readTable(AXIAL, re) / re
}

function judged(
  run: LoopRun,
  caster: Caster,
  leader_m: number,
  line_m: number,
  lineCount: number,
): Turnover {
  const available_s = timeInAir_s(
    { ...STANDARD_CAST, loopHeight_m: caster.loopHeight_m },
    line_m + leader_m,
  )
  const needed = (caster.lineSpeed_m_s * (run.time_s - lastCrumb_s(run))) / available_s
  const segments = merged(run.pieces.slice(lineCount))
  const extension = extensionAt(run.pieces, available_s, leader_m)
  return {
    caster,
    verdict: verdictOf(extension),
    neededSpeed_m_s: {
      value: needed,
      low: needed * SPEED_BAND.low,
      high: needed * SPEED_BAND.high,
    },
    flySpeed_m_s: run.endSpeed_m_s,
    lossShares: lossShares(run.pieces),
    segments,
    extension,
  }
}

/**
 * The loop's tension carries the leg, so it comes down later than a stone. One factor for all leaders,
 * fitted to the chain simulation over every shipped leader with every shipped fly: the middle half of them
 * lies within 8 % of it.
 */
const CARRIED = 1.5

/**
 * Time (s) until a fly that ends 2 x leg further along the launch line has fallen to the water:
 * tip height + loop height + leg sin(angle) = g t^2 / 2.
 */
export function timeInAir_s(
  { launchAngle_deg, tipHeight_m, loopHeight_m }: FallFrom,
  leg_m: number,
): number {
  const rise = Math.sin((launchAngle_deg * Math.PI) / 180)
  const drop_m = tipHeight_m + loopHeight_m + leg_m * rise
  return CARRIED * Math.sqrt((2 * Math.max(0, drop_m)) / STANDARD_GRAVITY_M_S2)
}

interface FallFrom {
  readonly launchAngle_deg: number
  readonly tipHeight_m: number
  readonly loopHeight_m: number
}

/** What is still folded back when time is up shortens the chord twice. */
function extensionAt(pieces: readonly PieceLoss[], available_s: number, leader_m: number): number {
  let left_s = available_s
  let folded_m = 0
  for (const piece of pieces) {
    const share = Math.min(1, Math.max(0, left_s / piece.time_s))
    folded_m += (1 - share) * piece.length_m
    left_s -= piece.time_s
  }
  return Math.max(0, 1 - (2 * folded_m) / leader_m)
}

function lossShares(pieces: readonly PieceLoss[]): Turnover['lossShares'] {
  const sum = (part: 'flyDrag' | 'legDrag' | 'loopDrag') =>
    pieces.reduce((total, p) => total + p[part], 0)
  const [fly, leg, loop] = [sum('flyDrag'), sum('legDrag'), sum('loopDrag')]
  const all = fly + leg + loop || 1
  return { fly: fly / all, leg: leg / all, loop: loop / all }
}
