/** Every edit is a function leader -> leader. None of them touches what it was given. */
import type { Dimension, Quantity, Unit } from '../units'
import type { Material } from '../materials'
import type { Joint, Leader, Segment } from './types'
import { THOU_M, quantityOf, isMetricUnit, INCH_M } from '../units'

export function setSegment(leader: Leader, i: number, patch: Partial<Segment>): Leader {
  return { ...leader, segments: leader.segments.map((s, k) => (k === i ? { ...s, ...patch } : s)) }
}

export function setJoint(leader: Leader, i: number, joint: Joint): Leader {
  if (i < leader.segments.length) return setSegment(leader, i, { joint })
  return { ...leader, tip: { ...leader.tip, joint } }
}

function nextKey(leader: Leader): number {
  return Math.max(0, ...leader.segments.map((s) => s.key)) + 1
}

/** Puts a segment in before index i; what stood there keeps its knot unless it was the line's. */
export function insertSegment(leader: Leader, i: number, segment: Omit<Segment, 'key'>): Leader {
  const segments = [...leader.segments]
  const follower = segments[i]
  const added = { ...segment, key: nextKey(leader) }
  if (i === 0 && follower) {
    segments[0] = { ...follower, joint: { knot: 'blood' } }
    return { ...leader, segments: [{ ...added, joint: follower.joint }, ...segments] }
  }
  segments.splice(i, 0, added)
  return { ...leader, segments }
}

/** Takes a segment out; the line's knot stays at the line. A leader keeps at least one segment. */
export function removeSegment(leader: Leader, i: number): Leader {
  if (leader.segments.length < 2 || !leader.segments[i]) return leader
  const segments = leader.segments.filter((_, k) => k !== i)
  const first = segments[0]
  const lineJoint = leader.segments[0]?.joint
  if (i === 0 && first && lineJoint) segments[0] = { ...first, joint: lineJoint }
  return { ...leader, segments }
}

/** Cuts a segment into two pieces of half its length, joined by a blood knot. */
export function splitSegment(leader: Leader, i: number): Leader {
  const segment = leader.segments[i]
  if (!segment) return leader
  const [near, far] = halves(segment.length)
  const { attachments: _, ...bare } = segment
  const second = { ...bare, attachments: [], length: far, joint: { knot: 'blood' as const } }
  return insertSegment(setSegment(leader, i, { length: near }), i + 1, second)
}

function halves(length: Quantity): [Quantity, Quantity] {
  const near = quantityOf(length.si / 2, 'length', length.unit)
  return [near, quantityOf(length.si - near.si, 'length', length.unit)]
}

/** Makes one piece of a segment and the next, of the first one's material and diameter. */
export function joinWithNext(leader: Leader, i: number): Leader {
  const [a, b] = [leader.segments[i], leader.segments[i + 1]]
  if (!a || !b) return leader
  const length = quantityOf(a.length.si + b.length.si, 'length', a.length.unit)
  const attachments = [...a.attachments, ...b.attachments]
  return removeSegment(setSegment(leader, i, { length, attachments }), i + 1)
}

export function duplicateSegment(leader: Leader, i: number): Leader {
  const segment = leader.segments[i]
  return segment
    ? insertSegment(leader, i + 1, {
        ...segment,
        joint: i === 0 ? { knot: 'blood' } : segment.joint,
      })
    : leader
}

/** Moves a segment; the knots stay where they are, since they belong to places in the leader. */
export function moveSegment(leader: Leader, from: number, to: number): Leader {
  const segments = [...leader.segments]
  const joints = segments.map((s) => s.joint)
  const [moved] = segments.splice(from, 1)
  if (!moved || to < 0 || to > segments.length) return leader
  segments.splice(to, 0, moved)
  return { ...leader, segments: segments.map((s, k) => ({ ...s, joint: joints[k] ?? s.joint })) }
}

/** The other way round: strands swap ends, parts and knots stay at their places. */
export function turnRound(leader: Leader): Leader {
  const reversed = [...leader.segments].reverse()
  const segments = reversed.map((s, k) => {
    const place = leader.segments[k] ?? s
    return { ...s, part: place.part, joint: place.joint }
  })
  return { ...leader, segments }
}

/** Moves length (m) from one segment to another; the total stays. */
export function moveLength(leader: Leader, from: number, to: number, amount_m: number): Leader {
  const [a, b] = [leader.segments[from], leader.segments[to]]
  if (!a || !b || from === to) return leader
  const shorter = quantityOf(a.length.si - amount_m, 'length', a.length.unit)
  const longer = quantityOf(b.length.si + a.length.si - shorter.si, 'length', b.length.unit)
  return setSegment(setSegment(leader, from, { length: shorter }), to, { length: longer })
}

/** A new diameter: what was written on the old spool (label, strength, tests) no longer holds. */
export function setDiameter(leader: Leader, i: number, diameter: Quantity): Leader {
  const segment = leader.segments[i]
  if (!segment) return leader
  const { measured: _m, strength: _s, pullTest: _p, label: _l, ...rest } = segment
  return {
    ...leader,
    segments: leader.segments.map((s, k) => (k === i ? { ...rest, diameter } : s)),
  }
}

/** Each transition at least six inches (common practice). */
export const SHORTEST_PIECE_M = 6 * INCH_M

/** Spools come in half-thousandths or hundredths of a millimetre (common practice). */
const THOU_GRID_M = THOU_M / 2
const MM_GRID_M = 1e-5
const STOUTEST_X_M = 11.01 * THOU_M // 0X, .011 in by the rule of eleven (common practice), and a hair

/** From one diameter that there are spools of to the next, m. */
export function diameterGrid_m(unit: Unit): number {
  return isMetricUnit(unit) ? MM_GRID_M : THOU_GRID_M
}

/** Added to a diameter, it makes rounding go up: a little more than half of the coarser grid (derived). */
export const ROUNDING_M = 0.65e-5

/** A computed diameter is rounded to one that there are spools of. */
export function roundedDiameter(size_m: number, unit: Unit): Quantity {
  const grid = diameterGrid_m(unit)
  const written = unit === 'X' && size_m > STOUTEST_X_M ? 'in' : unit
  return quantityOf(Math.round(size_m / grid) * grid, 'diameter' satisfies Dimension, written)
}

/** Gives a segment a material of the user's own, which the leader then carries; ids stay unique. */
export function withMaterial(leader: Leader, i: number, material: Omit<Material, 'id'>): Leader {
  const taken = leader.materials.map((m) => m.id)
  const id = Array.from({ length: taken.length + 1 }, (_, k) => `own-${k + 1}`).find(
    (each) => !taken.includes(each),
  )
  if (id === undefined) return leader
  return setSegment({ ...leader, materials: [...leader.materials, { ...material, id }] }, i, {
    material: id,
  })
}
