import type { Evaluation } from '../engine/evaluate'
import type { Family } from '../engine/materials'
import type { Piece } from '../engine/pieces'
import type { DiameterUnit, ForceUnit, LengthUnit } from '../engine/units'
import { jointsIn } from '../engine/pieces'
import { FOOT_M, SI_SIZE, isMetricUnit } from '../engine/units'

export interface ChartPoint {
  readonly x: number
  readonly y: number
}

/** One quantity against distance from the line, ready to be drawn; x in m, y in `unit`. */
export interface ProfileSeries {
  readonly id: 'diameter' | 'stiffness' | 'density' | 'strength'
  readonly title: string
  readonly unit: string
  readonly isLog: boolean
  /** Whole decades that hold a logarithmic curve, so that its axis always has a figure on it. */
  readonly decades?: readonly [low: number, high: number]
  /** Two points a segment, so that a joint is a step. */
  readonly points: readonly ChartPoint[]
  /** Dash pattern of each segment: materials differ by line style, not by colour alone. */
  readonly dashes: readonly (readonly number[])[]
  /** A second, fainter curve: the same wet, or the band. */
  readonly second?: { readonly title: string; readonly points: readonly ChartPoint[] }
  /** Single places: knots in the strength chart. */
  readonly marks?: { readonly title: string; readonly points: readonly ChartPoint[] }
}

export interface ChartUnits {
  readonly diameter: DiameterUnit
  readonly force: ForceUnit
}

export const FAMILY_DASHES: Readonly<Record<Family, readonly number[]>> = {
  nylon: [],
  copolymer: [10, 3],
  fluorocarbon: [5, 3],
  polyester: [2, 2],
  braid: [1, 3],
  wire: [8, 2, 2, 2],
}

/** The four curves of the bench, from line to fly. */
export function profileSeries(evaluation: Evaluation, units: ChartUnits): ProfileSeries[] {
  return [
    diameterSeries(evaluation, units),
    stiffnessSeries(evaluation),
    densitySeries(evaluation),
    strengthSeries(evaluation, units),
  ]
}

function steps({ pieces }: Evaluation, value: (piece: Piece) => number): ChartPoint[] {
  return pieces.flatMap((piece) => {
    const { start_m, length_m } = piece.profile
    const y = value(piece)
    return [
      { x: start_m, y },
      { x: start_m + length_m, y },
    ]
  })
}

function dashes({ pieces }: Evaluation) {
  return pieces.map(({ profile }) => FAMILY_DASHES[profile.material.family])
}

function diameterSeries(evaluation: Evaluation, { diameter }: ChartUnits): ProfileSeries {
  const unit = isMetricUnit(diameter) ? 'mm' : 'thou'
  const size = SI_SIZE.diameter[unit] ?? 1
  const points = steps(evaluation, ({ profile }) => profile.diameter_m / size)
  const written = unit === 'mm' ? 'mm' : 'thousandths of an inch'
  return {
    id: 'diameter',
    title: 'Diameter',
    unit: written,
    isLog: false,
    points,
    dashes: dashes(evaluation),
  }
}

const N_MM2 = 1e6

function stiffnessSeries(evaluation: Evaluation): ProfileSeries {
  const points = steps(evaluation, ({ profile }) => profile.stiffness_N_m2 * N_MM2)
  const wet = steps(evaluation, ({ profile }) => profile.wetStiffness_N_m2 * N_MM2)
  return {
    id: 'stiffness',
    title: 'Bending stiffness',
    unit: 'N mm²',
    isLog: true,
    decades: decadesOf([...points, ...wet]),
    points,
    dashes: dashes(evaluation),
    second: { title: 'wet', points: wet },
  }
}

/** Powers of ten below and above all values; a strand with no stiffness has no place on such an axis. */
function decadesOf(points: readonly ChartPoint[]): readonly [number, number] {
  const values = points.map((p) => p.y).filter((y) => y > 0)
  const low = Math.floor(Math.log10(Math.min(...values, 1)))
  const high = Math.ceil(Math.log10(Math.max(...values, 1e-6)))
  return [10 ** low, 10 ** Math.max(high, low + 1)]
}

function densitySeries(evaluation: Evaluation): ProfileSeries {
  const points = steps(evaluation, ({ profile }) => profile.linearDensity_kg_m * 1e3)
  return {
    id: 'density',
    title: 'Linear density',
    unit: 'g/m',
    isLog: false,
    points,
    dashes: dashes(evaluation),
  }
}

function strengthSeries(evaluation: Evaluation, { force }: ChartUnits): ProfileSeries {
  const size = SI_SIZE.force[force] ?? 1
  return {
    id: 'strength',
    title: 'Strength, wet',
    unit: force,
    isLog: false,
    points: steps(evaluation, ({ strength }) => strength.wet.value / size),
    dashes: dashes(evaluation),
    marks: {
      title: 'at the knot',
      points: jointsIn(evaluation).map(({ distance_m, strength }) => ({
        x: distance_m,
        y: strength.wet.value / size,
      })),
    },
  }
}

/** Tick places (m) on the distance axis: whole feet or half metres, few enough to read. */
export function distanceTicks(total_m: number, unit: LengthUnit): number[] {
  const base = isMetricUnit(unit) ? 0.25 : FOOT_M
  const every = [1, 2, 4, 8, 20].find((n) => total_m / (base * n) <= 10) ?? 40
  return Array.from(
    { length: Math.floor(total_m / (base * every) + 1e-9) + 1 },
    (_, k) => k * base * every,
  )
}
