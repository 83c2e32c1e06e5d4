/** What one leader does otherwise than another of as many pieces: for substitutes and measured diameters. Pure. */
import type { Leader } from './leader'
import { jointsIn, piecesOf } from './pieces'

/** A figure before and after. */
export interface Change {
  readonly before: number | null
  readonly after: number | null
}

/** What changes about one piece and about the leader it is in. */
export interface PieceChange {
  readonly diameter_m: Change
  /** Diameter kept at the joint above and at the joint below. */
  readonly stepAbove: Change
  readonly stepBelow: Change
  readonly stiffness_N_m2: Change
  readonly strength_N: Change
}

export interface LeaderChange {
  readonly mass_kg: Change
  readonly weakest_N: Change
}

const change = <T>(a: T, b: T, of: (side: T) => number | null | undefined): Change => ({
  before: of(a) ?? null,
  after: of(b) ?? null,
})

function figuresOf(leader: Leader) {
  const figures = piecesOf(leader)
  return {
    ...figures,
    joints: jointsIn(figures),
  }
}

/** What piece i of `after` does otherwise than the same piece of `before`. */
export function pieceChange(before: Leader, after: Leader, i: number): PieceChange {
  const [a, b] = [figuresOf(before), figuresOf(after)]
  return {
    diameter_m: change(a, b, (f) => f.pieces[i]?.profile.diameter_m),
    stepAbove: change(a, b, (f) => f.joints[i]?.diameterRatio),
    stepBelow: change(a, b, (f) => f.joints[i + 1]?.diameterRatio),
    stiffness_N_m2: change(a, b, (f) => f.pieces[i]?.profile.stiffness_N_m2),
    strength_N: change(a, b, (f) => f.pieces[i]?.strength.wet.value),
  }
}

export function leaderChange(before: Leader, after: Leader): LeaderChange {
  const [a, b] = [figuresOf(before), figuresOf(after)]
  return {
    mass_kg: change(a, b, (f) => f.profile.mass_kg),
    weakest_N: change(a, b, (f) => f.weakest.strength.wet.value),
  }
}
