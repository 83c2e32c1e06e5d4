import type { CastCase } from '../../engine/cast'
import type { Explored, MeasureId, Measures, Posed, Span } from '../../engine/explore'
import type { Curve } from '../../stage/curves'
import { caseOf } from '../../engine/cast'
import { changed, valuesOver } from '../../engine/explore'

/** Casts over the whole range of a quantity: fine enough to drag through, few enough to be there in a moment. */
const POINTS = 33

/** One value of the quantity, with the leader and cast it makes. */
export interface ExplorePoint {
  readonly value: number
  readonly posed: Posed
  readonly input: CastCase
}

/** The points of a span, from low to high; none where the leader cannot be cast. */
export function pointsOver(posed: Posed, what: Explored, span: Span): ExplorePoint[] {
  return valuesOver(span, POINTS).flatMap((value) => {
    const next = changed(posed, what, value)
    const input = caseOf(next.leader, next.choices)
    return typeof input === 'string' ? [] : [{ value, posed: next, input }]
  })
}

/** The points in the order in which they are wanted: the one looked at first, its neighbours next. */
export function outwardFrom<T>(points: readonly T[], at: number): T[] {
  return points
    .map((point, i) => ({ point, away: Math.abs(i - at) }))
    .sort((a, b) => a.away - b.away)
    .map(({ point }) => point)
}

/** The index of the value nearest to `value`. */
export function nearest(points: readonly ExplorePoint[], value: number): number {
  let best = 0
  for (const [i, point] of points.entries()) {
    const before = points[best]?.value ?? Infinity
    if (Math.abs(point.value - value) < Math.abs(before - value)) best = i
  }
  return best
}

/** One measure over the points that have been flown; a gap where the fly never came to it. */
export function measureCurve(
  points: readonly ExplorePoint[],
  measures: readonly (Measures | undefined)[],
  id: MeasureId,
  axis_size: number,
): Curve {
  return {
    name: 'this leader',
    points: points.flatMap(({ value }, i) => {
      const y = measures[i]?.[id]
      return y === undefined ? [] : [{ x: value / axis_size, y: y ?? NaN }]
    }),
  }
}
