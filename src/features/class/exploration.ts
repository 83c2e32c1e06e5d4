import type { CastCase } from '../../engine/cast'
import type { Explored, MeasureId, Measures, Posed, Span } from '../../engine/explore'
import type { Curve } from '../../castViews/curves'
import { caseOf, perturbed } from '../../engine/cast'
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

/** Sampled casts a value, and values at which they are sampled: rough, and there within a second or two. */
const SAMPLES = 20
const SAMPLED = 9
const NINE_OF_TEN = 0.9

/** Values of the range at which the spread of likely casts is sampled, ends included. */
export function sampledPoints(points: readonly ExplorePoint[]): ExplorePoint[] {
  const at = (k: number) => points[Math.round((k * (points.length - 1)) / (SAMPLED - 1))]
  return Array.from({ length: Math.min(SAMPLED, points.length) }, (_, k) => at(k)).flatMap(
    (point) => point ?? [],
  )
}

/** The same cast over and over with what is poorly known drawn anew; the quick mesh will do for a spread. */
export function likelyCases(points: readonly ExplorePoint[]): CastCase[] {
  return points.flatMap(({ input }) =>
    Array.from({ length: SAMPLES }, (_, seed) => perturbed({ ...input, mesh: 'coarse' }, seed + 1)),
  )
}

/** Where eight of ten likely casts lie: below and above, a point for each value that is known whole. */
export function bandCurves(
  points: readonly ExplorePoint[],
  extensions: readonly number[],
  axis_size: number,
): Curve[] {
  const known = points.slice(0, Math.floor(extensions.length / SAMPLES))
  const quantile = (k: number, share: number) =>
    extensions.slice(k * SAMPLES, (k + 1) * SAMPLES).toSorted((a, b) => a - b)[
      Math.round(share * (SAMPLES - 1))
    ] ?? NaN
  const curve = (name: string, share: number): Curve => ({
    name,
    of: 1,
    points: known.map(({ value }, k) => ({ x: value / axis_size, y: quantile(k, share) })),
  })
  if (known.length === 0) return []
  return [
    curve('nine of ten likely casts reach at least', 1 - NINE_OF_TEN),
    curve('nine of ten reach at most', NINE_OF_TEN),
  ]
}

/** Cases over two quantities, row by row: the first along a row, the second from row to row. */
export function casesOver(
  posed: Posed,
  [across, up]: readonly [Explored, Explored],
  [xs, ys]: readonly [readonly number[], readonly number[]],
): CastCase[] {
  return ys.flatMap((y) => {
    const row = changed(posed, up, y)
    return xs.flatMap((x) => {
      const { leader, choices } = changed(row, across, x)
      const input = caseOf(leader, { ...choices, mesh: 'coarse' })
      return typeof input === 'string' ? [] : [input]
    })
  })
}
