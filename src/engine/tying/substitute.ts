import type { Leader, Segment } from '../leader'
import type { Quantity, Unit } from '../units'
import type { Spool } from './spool'
import { diameter_m, setSegment } from '../leader'
import { BUILT_IN_MATERIALS } from '../materials'
import { quantityOf } from '../units'
import { cutList } from './cut'
import {
  isFor,
  isUsableFor,
  materialIdIn,
  readingsOf,
  segmentFamily,
  spoolDiameter_m,
} from './spool'

export interface Substitute {
  readonly spool: Spool
  /** The leader with the piece made of that spool. */
  readonly leader: Leader
}

/** How far off counts as a substitute at all: beyond a third in diameter it is another leader. Estimate. */
const FARTHEST = Math.log(1.35)
/** A strange material weighs like this step in diameter (natural logarithm). Estimate. */
const OTHER_MATERIAL = 0.03
const OTHER_FAMILY = 0.1

/** The usable spools that come nearest to piece i, nearest first, each applied to a copy of the leader. */
export function substitutesFor(
  leader: Leader,
  i: number,
  spools: readonly Spool[],
  most = 3,
): Substitute[] {
  const segment = leader.segments[i]
  const cut_m = cutList(leader)[i]?.cut_m ?? 0
  if (!segment) return []
  return spools
    .filter((spool) => isUsableFor(spool, segment) && spool.left.si >= cut_m)
    .filter((spool) => !isFor(spool, leader, segment))
    .map((spool) => ({ spool, distance: distanceTo(leader, segment, spool) }))
    .filter(({ distance }) => distance < FARTHEST)
    .sort((a, b) => a.distance - b.distance)
    .slice(0, most)
    .flatMap(({ spool }) => {
      const made = withSpool(leader, i, spool)
      return made ? [{ spool, leader: made }] : []
    })
}

function distanceTo(leader: Leader, segment: Segment, spool: Spool): number {
  const step = Math.abs(Math.log(spoolDiameter_m(spool) / diameter_m(segment)))
  if (materialIdIn(leader, spool) === segment.material) return step
  const family = BUILT_IN_MATERIALS.find((m) => m.id === spool.material)?.family
  const isNear = family === segmentFamily(leader, segment)
  return step + (isNear ? OTHER_MATERIAL : OTHER_FAMILY)
}

/** Piece i made of a spool, with what is known of that spool; null where the leader lacks its material. */
function withSpool(leader: Leader, i: number, spool: Spool): Leader | null {
  const segment = leader.segments[i]
  const material = materialIdIn(leader, spool)
  if (!segment || material === null) return null
  const { measured: _m, strength: _s, pullTest: _p, label: _l, colour: _c, ...rest } = segment
  const { label, strength, colour, size } = spool
  const made: Segment = {
    ...rest,
    material,
    diameter: size,
    ...measuredOf(spool),
    ...(label === undefined ? {} : { label }),
    ...(strength === undefined ? {} : { strength }),
    ...(colour === undefined ? {} : { colour }),
  }
  return { ...leader, segments: leader.segments.map((s, k) => (k === i ? made : s)) }
}

/** What the shelf's micrometer and balance say of a spool, as figures of a piece. */
function measuredOf({ readings, pullTests }: Spool): { measured?: Quantity; pullTest?: Quantity } {
  const [thick, holds] = [readingsOf(readings), readingsOf(pullTests)]
  return {
    ...(thick ? { measured: quantityOf(thick.mean, 'diameter', finestOf(readings[0])) } : {}),
    ...(holds ? { pullTest: quantityOf(holds.mean, 'force', pullTests[0]?.unit ?? 'lb') } : {}),
  }
}

/** A mean is written in inches or millimetres: an X size is not read off a micrometer. */
function finestOf(reading: Quantity | undefined): Unit {
  return reading?.unit === 'X' || reading === undefined ? 'in' : reading.unit
}

export interface Measured {
  readonly index: number
  readonly spool: Spool
  readonly from_m: number
  readonly to_m: number
}

/**
 * The nominal diameters replaced by what the shelf measured, where a spool of that strand has readings:
 * of several the one with most left, since it is the one that will be tied from.
 */
export function measuredByShelf(
  leader: Leader,
  spools: readonly Spool[],
): { readonly leader: Leader; readonly measured: readonly Measured[] } {
  const measured: Measured[] = []
  const applied = leader.segments.reduce((made, segment, index) => {
    const spool = spools
      .filter((each) => each.readings.length > 0 && isFor(each, leader, segment))
      .sort((a, b) => b.left.si - a.left.si)[0]
    if (!spool) return made
    const next = setSegment(made, index, measuredOf(spool))
    const to_m = next.segments[index]?.measured?.si ?? spoolDiameter_m(spool)
    measured.push({ index, spool, from_m: diameter_m(segment), to_m })
    return next
  }, leader)
  return { leader: applied, measured }
}
