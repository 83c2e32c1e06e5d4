import type { Leader } from '../../engine/leader'
import { diameter_m, insertSegment, roundedDiameter } from '../../engine/leader'

/** A new piece between its neighbours in size, like the one above in the rest. */
export function insertedSegment(leader: Leader, at: number): Leader {
  const above = leader.segments[at - 1] ?? leader.segments[0]
  if (!above) return leader
  const below = leader.segments[at]
  const { part, material, length } = above
  const size =
    below && at > 0 ? Math.sqrt(diameter_m(above) * diameter_m(below)) : diameter_m(above)
  const diameter = below && at > 0 ? roundedDiameter(size, above.diameter.unit) : above.diameter
  return insertSegment(leader, at, {
    part,
    material,
    diameter,
    length,
    joint: { knot: 'blood' },
    attachments: [],
  })
}
