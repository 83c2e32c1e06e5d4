import type { Evaluation } from '../../engine/evaluate'
import type { Family } from '../../engine/materials'
import type { Joint, Segment } from '../../engine/leader'
import { USUAL_LINE_TIP_M } from '../../engine/tackle'
import { jointsIn } from '../../engine/pieces'
import { pixelAt } from './axis'

/** One segment as a bar of the drawing, CSS pixels. */
export interface Bar {
  readonly segment: Segment
  readonly diameter_m: number
  readonly family: Family
  readonly x: number
  readonly width: number
  readonly thickness: number
}

export interface Drawing {
  readonly bars: readonly Bar[]
  /** Middles of the joints, from the line to the fly. */
  readonly joints: readonly { readonly x: number; readonly joint: Joint }[]
  /** How much thicker than long the leader is drawn. */
  readonly exaggeration: number
  /** Pixels of thickness for a metre of diameter. */
  readonly perMetre: number
  readonly lineThickness: number
}

const THICKEST_PX = 40

/** The leader to length, its diameters exaggerated by one factor. */
export function drawingOf(evaluation: Evaluation, width: number): Drawing {
  const { pieces, profile, line } = evaluation
  const tip = line?.tipDiameter_m ?? USUAL_LINE_TIP_M
  const thickest = Math.max(tip, ...pieces.map((piece) => piece.profile.diameter_m))
  const perMetre = THICKEST_PX / thickest
  const at = (x: number) => pixelAt(x, profile.total_m, width)
  const lengthScale = (at(profile.total_m) - at(0)) / profile.total_m
  return {
    bars: pieces.map(({ segment, profile: s }) => ({
      segment,
      diameter_m: s.diameter_m,
      family: s.material.family,
      x: at(s.start_m),
      width: at(s.start_m + s.length_m) - at(s.start_m),
      thickness: Math.max(1.5, s.diameter_m * perMetre),
    })),
    joints: jointsIn(evaluation).map(({ distance_m, joint }) => ({ x: at(distance_m), joint })),
    exaggeration: Math.round(perMetre / lengthScale / 10) * 10,
    perMetre,
    lineThickness: tip * perMetre,
  }
}
