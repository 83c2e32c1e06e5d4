import type { Leader, Segment } from '../leader'
import type { Quantity } from '../units'
import { diameter_m, totalLength_m } from '../leader'

/** A piece of an old leader in the hand, from the line down. */
export interface OldPiece {
  readonly diameter: Quantity
  readonly length: Quantity
  readonly material: string
}

/** A spool at hand. */
export interface SpoolAtHand {
  readonly name: string
  readonly material: string
  readonly diameter: Quantity
}

export type RebuildStep =
  | {
      readonly kind: 'keep'
      readonly piece: number
      readonly old: number
      readonly length_m: number
      readonly cutOff_m: number
    }
  | {
      readonly kind: 'from-spool'
      readonly piece: number
      readonly spool: string
      readonly length_m: number
      readonly diameter_m: number
      readonly wanted_m: number
    }
  | {
      readonly kind: 'no-spool'
      readonly piece: number
      readonly length_m: number
      readonly wanted_m: number
    }
  | { readonly kind: 'discard'; readonly old: number; readonly length_m: number }

export interface Rebuilt {
  readonly leader: Leader
  readonly steps: readonly RebuildStep[]
  readonly total_m: number
  /** Length (m) of the old leader that is used again. */
  readonly saved_m: number
}

const ALIKE = 0.06 // a piece stands for another whose diameter is this near, estimate
const ENOUGH = 0.7 // a kept piece may be this much of the length wanted, estimate
const NEAR_SPOOL = 0.12 // a spool this near still serves, estimate

/**
 * Rebuilds a target from what is left in the hand and the spools: old pieces in their order where they fit,
 * the rest from the nearest spool. What no spool has is named and taken as the target has it.
 */
export function rebuild(
  old: readonly OldPiece[],
  target: Leader,
  spools: readonly SpoolAtHand[],
): Rebuilt {
  let next = 0
  const steps: RebuildStep[] = []
  const segments = target.segments.map((wanted, i) => {
    const found = old.findIndex((p, k) => k >= next && fits(p, wanted))
    const piece = old[found]
    if (piece) {
      steps.push(...old.slice(next, found).map((p, k) => discard(next + k, p)))
      next = found + 1
      return keep(piece, found, wanted, i, steps)
    }
    return fromSpool(wanted, i, spools, steps)
  })
  steps.push(...old.slice(next).map((p, k) => discard(next + k, p)))
  const leader = { ...target, segments }
  const saved_m = steps.reduce((sum, s) => sum + (s.kind === 'keep' ? s.length_m : 0), 0)
  return { leader, steps, total_m: totalLength_m(leader), saved_m }
}

function fits({ diameter, length }: OldPiece, wanted: Segment): boolean {
  const near = Math.abs(diameter.si / diameter_m(wanted) - 1) <= ALIKE
  return near && length.si >= ENOUGH * wanted.length.si
}

const discard = (old: number, { length }: OldPiece): RebuildStep => ({
  kind: 'discard',
  old,
  length_m: length.si,
})

function keep(
  piece: OldPiece,
  old: number,
  wanted: Segment,
  i: number,
  steps: RebuildStep[],
): Segment {
  const length_m = Math.min(piece.length.si, wanted.length.si)
  steps.push({ kind: 'keep', piece: i, old, length_m, cutOff_m: piece.length.si - length_m })
  const length = length_m === piece.length.si ? piece.length : wanted.length
  return bare({ ...wanted, material: piece.material, diameter: piece.diameter, length })
}

/** What was measured in the hand or comes off another spool has no label of the target's. */
function bare(segment: Segment): Segment {
  const { measured: _m, label: _l, strength: _s, pullTest: _p, ...rest } = segment
  return rest
}

function fromSpool(
  wanted: Segment,
  i: number,
  spools: readonly SpoolAtHand[],
  steps: RebuildStep[],
): Segment {
  const farness = (s: SpoolAtHand) =>
    Math.abs(Math.log(s.diameter.si / diameter_m(wanted))) +
    (s.material === wanted.material ? 0 : 0.05)
  const nearest = [...spools].sort((a, b) => farness(a) - farness(b))[0]
  const near = nearest && Math.abs(nearest.diameter.si / diameter_m(wanted) - 1) <= NEAR_SPOOL
  const common = { piece: i, length_m: wanted.length.si, wanted_m: diameter_m(wanted) }
  if (!nearest || !near) {
    steps.push({ kind: 'no-spool', ...common })
    return wanted
  }
  steps.push({
    kind: 'from-spool',
    ...common,
    spool: nearest.name,
    diameter_m: nearest.diameter.si,
  })
  return bare({ ...wanted, material: nearest.material, diameter: nearest.diameter })
}
