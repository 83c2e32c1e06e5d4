import type { ProfileSeries } from '../../charts'
import type { Evaluation } from '../../engine/evaluate'
import type { SpokenUnits } from '../../wording'
import type { Curve } from '../../castViews/curves'
import { profileSeries } from '../../charts'
import { totalUnit } from '../../wording'

/** One quantity along all the leaders: a curve each, x in m from the line. */
export interface Overlay {
  readonly title: string
  readonly unit: string
  readonly isLog: boolean
  readonly curves: readonly Curve[]
}

/** The evaluation of a leader beside its name. */
export interface Named {
  readonly name: string
  readonly evaluation: Evaluation
}

/** The axis of the distance from the line: feet or metres, as whole leaders are read. */
export function distanceAxis({ length }: SpokenUnits): { unit: string; size: number } {
  return totalUnit(length) === 'm' ? { unit: 'm', size: 1 } : { unit: 'ft', size: 0.3048 }
}

/** Diameter, stiffness, density, strength and steps of several leaders, laid over each other; x in units of `x_m`. */
export function overlaysOf(leaders: readonly Named[], units: SpokenUnits, x_m: number): Overlay[] {
  const all = leaders.map(({ evaluation }) => profileSeries(evaluation, units))
  const series = (all[0] ?? []).map((first, k) => ({
    title: first.title,
    unit: first.unit,
    isLog: first.isLog,
    curves: all.map((each, of) => curveOf(each[k], leaders[of]?.name ?? '', of)),
  }))
  const scaled = (curve: Curve) => ({
    ...curve,
    points: curve.points.map(({ x, y }) => ({ x: x / x_m, y })),
  })
  return [...series, stepsOf(leaders)].map((overlay) => ({
    ...overlay,
    curves: overlay.curves.map(scaled),
  }))
}

function curveOf(series: ProfileSeries | undefined, name: string, of: number): Curve {
  return { name, of, points: series?.points ?? [] }
}

/** The share of the diameter kept at each joint, from one joint to the next. */
function stepsOf(leaders: readonly Named[]): Overlay {
  const curves = leaders.map(({ name, evaluation }, of) => ({
    name,
    of,
    points: evaluation.pieces.flatMap(({ profile, above: { place, diameterRatio } }) =>
      place === 'line' || diameterRatio === null
        ? []
        : [{ x: profile.start_m, y: diameterRatio * 100 }],
    ),
  }))
  return { title: 'Steps', unit: '% of the diameter kept', isLog: false, curves }
}
