import type { Joint, Leader } from '../leader'
import { diameter_m, jointAt } from '../leader'
import { knot, takeUp_m } from '../materials'
import { USUAL_LINE_TIP_M } from '../tackle'

/** What to cut for one segment, m. cut = finished + inKnots + trimmed. */
export interface CutPiece {
  readonly finished_m: number
  /** Taken up by the turns of its two knots. */
  readonly inKnots_m: number
  /** Tags to hold while tying; cut off and binned. */
  readonly trimmed_m: number
  readonly cut_m: number
}

const SHORTEST_TAG_M = 0.025 // what two wet fingers can hold, estimate
/** Turns lie side by side, so a knot is much shorter than the strand wound into it: a quarter, estimate. */
const LENGTH_PER_TAKE_UP = 1 / 4

/** Length (m) of knots drawn up, both sides together, from the strand that one side gives to their turns. */
export function knotLength_m(takeUp_m: number): number {
  return takeUp_m * LENGTH_PER_TAKE_UP
}

/** Cut lengths from butt to tippet. */
export function cutList(leader: Leader): CutPiece[] {
  return leader.segments.map((segment, i) => {
    const near = endOf(leader, i, i, 1)
    const far = endOf(leader, i + 1, i, 0)
    const inKnots_m = near.takeUp_m + far.takeUp_m
    const trimmed_m = near.tag_m + far.tag_m
    const finished_m = segment.length.si
    return { finished_m, inKnots_m, trimmed_m, cut_m: finished_m + inKnots_m + trimmed_m }
  })
}

/** What one end of segment `own` gives to joint `at`; side 0 is the joint's butt side. */
function endOf(leader: Leader, at: number, own: number, side: 0 | 1) {
  const joint = jointAt(leader, at)
  const takeUp = joint.takeUp?.[side].si ?? turnsTakeUp_m(leader, joint, at, own, side)
  return {
    takeUp_m: takeUp,
    tag_m: Math.max(SHORTEST_TAG_M, knot(joint.knot).allowance_m - takeUp),
  }
}

function turnsTakeUp_m(leader: Leader, joint: Joint, at: number, own: number, side: 0 | 1): number {
  const strand = leader.segments[own]
  if (!strand) return 0
  const k = knot(joint.knot)
  return takeUp_m(
    k,
    diameter_m(strand),
    partnerDiameter_m(leader, at, own),
    joint.turns?.[side] ?? k.turns,
  )
}

/** The strand on the other side; the line's tip at the butt, the strand itself at a hook eye. */
function partnerDiameter_m(leader: Leader, at: number, own: number): number {
  if (at === 0) return leader.outfit.line?.tipDiameter_m ?? USUAL_LINE_TIP_M
  const partner = leader.segments[at === own ? at - 1 : at] ?? leader.segments[own]
  return partner ? diameter_m(partner) : 0
}
