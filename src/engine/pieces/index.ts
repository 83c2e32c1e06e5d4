import type { Leader, Segment } from '../leader'
import type { JointProfile, Profile, SegmentProfile } from '../profile'
import type { Strength, StrengthPlace } from '../strength'
import type { CutPiece } from '../tying'
import { jointsOf, profileOf, segmentAt } from '../profile'
import { strengthOf } from '../strength'
import { cutList } from '../tying'

/** A joint with what it holds. */
export interface JointFigures extends JointProfile {
  readonly strength: Strength
}

/** All that is computed of one piece, with the joint towards the line. */
export interface Piece {
  readonly segment: Segment
  readonly profile: SegmentProfile
  readonly strength: Strength
  readonly cut: CutPiece
  readonly above: JointFigures
}

export interface Pieces {
  readonly profile: Profile
  /** From butt to tippet. */
  readonly pieces: readonly Piece[]
  /** The joint at the fly. */
  readonly tip: JointFigures
  readonly weakest: StrengthPlace
}

/** @throws RangeError where the leader has no segment. */
export function piecesOf(leader: Leader): Pieces {
  const profile = profileOf(leader)
  const { segments, joints, weakest } = strengthOf(leader)
  const cut = cutList(leader)
  const figures = jointsOf(leader, profile).map((joint, i) => ({
    ...joint,
    strength: at(joints, i),
  }))
  const pieces = leader.segments.map((segment, i) => ({
    segment,
    profile: at(profile.segments, i),
    strength: at(segments, i),
    cut: at(cut, i),
    above: at(figures, i),
  }))
  return { profile, pieces, tip: at(figures, pieces.length), weakest }
}

/** All joints from the line to the fly: one more than there are pieces. */
export function jointsIn({ pieces, tip }: Pick<Pieces, 'pieces' | 'tip'>): JointFigures[] {
  return [...pieces.map((piece) => piece.above), tip]
}

/** The piece at a distance from the line's end (m); the ends hold for anything beyond them. */
export function pieceAt({ pieces }: Pick<Pieces, 'pieces'>, distance_m: number): number {
  return segmentAt({ segments: pieces.map((piece) => piece.profile) }, distance_m)
}

function at<T>(rows: readonly T[], i: number): T {
  const row = rows[i]
  if (row === undefined) throw new RangeError(`There is no row ${i} of ${rows.length}.`)
  return row
}
