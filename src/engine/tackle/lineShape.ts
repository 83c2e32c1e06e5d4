import type { LineTaper } from './designation'
import type { FlyLine } from './line'
import { FOOT_M } from '../units'

/** Geometry of a line from its tip backwards, m. */
export interface LineShape {
  /** Level tip; the weight standard counts from behind it. */
  readonly levelTip_m: number
  readonly frontTaper_m: number
  /** Of full diameter. */
  readonly belly_m: number
  readonly rearTaper_m: number
  /** Diameter behind the rear taper over that of the belly; of a double taper the tip's again. */
  readonly runningRatio: number
  readonly total_m: number
  /** Length that sinks of a sink-tip line; the whole of a sinking one. */
  readonly sinkTip_m: number
}

/** Parts of a shape that a tape measures. */
export const SHAPE_PARTS = [
  'levelTip',
  'frontTaper',
  'belly',
  'rearTaper',
  'total',
  'sinkTip',
] as const
export type ShapePart = (typeof SHAPE_PARTS)[number]

/** A measured shape, m by part, as it takes the place of the usual one. */
export function measuredShape(
  parts: Readonly<Partial<Record<ShapePart, number>>>,
): Partial<LineShape> {
  const given = SHAPE_PARTS.filter((part) => parts[part] !== undefined)
  return Object.fromEntries(given.map((part) => [`${part}_m`, parts[part]]))
}

const TOTAL_M = 90 * FOOT_M // 80 to 100 ft (common practice)

/**
 * The usual shape of each taper. Makers differ by half; all of it is an estimate after what the trade
 * draws in its catalogues, and the user's own measurements replace it.
 */
const SHAPES: Readonly<Record<LineTaper, Omit<LineShape, 'sinkTip_m'>>> = {
  WF: {
    levelTip_m: 0,
    frontTaper_m: 2,
    belly_m: 7.5,
    rearTaper_m: 1.5,
    runningRatio: 0.72,
    total_m: TOTAL_M,
  },
  DT: {
    levelTip_m: 0,
    frontTaper_m: 2.4,
    belly_m: TOTAL_M - 4.8,
    rearTaper_m: 2.4,
    runningRatio: 1,
    total_m: TOTAL_M,
  },
  ST: {
    levelTip_m: 0,
    frontTaper_m: 3.5,
    belly_m: TOTAL_M - 3.5,
    rearTaper_m: 0,
    runningRatio: 1,
    total_m: TOTAL_M,
  },
  L: {
    levelTip_m: 0,
    frontTaper_m: 0,
    belly_m: TOTAL_M,
    rearTaper_m: 0,
    runningRatio: 1,
    total_m: TOTAL_M,
  },
  // A head of about thirty feet that shoots a thin running line.
  SH: {
    levelTip_m: 0,
    frontTaper_m: 2,
    belly_m: 7.2,
    rearTaper_m: 0,
    runningRatio: 0.5,
    total_m: 30,
  },
}

const SINK_TIP_M = 12 * FOOT_M // 5 to 15 ft of a sink-tip line sink (common practice)

/** The line's shape: the usual one of its taper, with what the user measured in its place. */
export function shapeOf({ taper, buoyancy, shape }: FlyLine): LineShape {
  const usual = SHAPES[taper]
  const sinkTip_m = buoyancy === 'F/S' ? SINK_TIP_M : Infinity
  return { ...usual, sinkTip_m, ...shape }
}

/** A level stretch of line. */
interface Stretch {
  readonly length_m: number
  readonly diameter_m: number
}

const TAPER_STEPS = 4

/**
 * The line cut into level stretches from its tip over `length_m`, each all floating or all sinking; its
 * last part goes on for ever.
 */
export function stretches(
  shape: LineShape,
  taper: LineTaper,
  tip_m: number,
  belly_m: number,
  length_m: number,
): Stretch[] {
  const end = taper === 'DT' ? tip_m : belly_m * shape.runningRatio
  const pieces = [
    ...cut(tip_m, tip_m, shape.levelTip_m),
    ...cut(tip_m, belly_m, shape.frontTaper_m),
    ...cut(belly_m, belly_m, shape.belly_m),
    ...cut(belly_m, end, shape.rearTaper_m),
    { length_m: Math.max(0, length_m), diameter_m: end },
  ]
  return splitAt(clipped(pieces, length_m), shape.sinkTip_m)
}

function cut(from_m: number, to_m: number, length_m: number): Stretch[] {
  if (length_m <= 0) return []
  const steps = from_m === to_m ? 1 : TAPER_STEPS
  return Array.from({ length: steps }, (_, k) => ({
    diameter_m: from_m + ((to_m - from_m) * (k + 0.5)) / steps,
    length_m: length_m / steps,
  }))
}

function clipped(pieces: readonly Stretch[], length_m: number): Stretch[] {
  let left = length_m
  return pieces.flatMap((piece) => {
    const take = Math.min(piece.length_m, left)
    left -= take
    return take > 0 ? [{ ...piece, length_m: take }] : []
  })
}

function splitAt(pieces: readonly Stretch[], place_m: number): Stretch[] {
  let start = 0
  return pieces.flatMap((piece) => {
    const before = place_m - start
    start += piece.length_m
    if (before <= 0 || before >= piece.length_m) return [piece]
    return [
      { ...piece, length_m: before },
      { ...piece, length_m: piece.length_m - before },
    ]
  })
}

/**
 * Diameter (m) of the belly such that `head_m` behind the level tip hold a volume, given over pi/4: root of
 * belly length x d^2 + taper length x (tip^2 + tip d + d^2)/3; by halving where the head is shorter.
 */
export function bellyDiameter_m(
  shape: LineShape,
  taper: LineTaper,
  tip_m: number,
  volume: number,
  head_m: number,
): number {
  const third = shape.frontTaper_m / 3
  const level = head_m - shape.frontTaper_m
  if (level < 0 || level > shape.belly_m) return bellyByHalving(shape, taper, tip_m, volume, head_m)
  const a = level + third
  const b = third * tip_m
  const c = third * tip_m * tip_m - volume
  return (-b + Math.sqrt(b * b - 4 * a * c)) / (2 * a)
}

function bellyByHalving(
  shape: LineShape,
  taper: LineTaper,
  tip_m: number,
  volume: number,
  head_m: number,
): number {
  const bare = { ...shape, levelTip_m: 0 }
  let [low, high] = [0, 0.02]
  for (let k = 0; k < 40; k++) {
    const belly = (low + high) / 2
    const held = stretches(bare, taper, tip_m, belly, head_m).reduce(
      (sum, p) => sum + p.length_m * p.diameter_m ** 2,
      0,
    )
    if (held < volume) low = belly
    else high = belly
  }
  return (low + high) / 2
}
