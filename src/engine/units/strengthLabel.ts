import { POUND_FORCE_N, THOU_M } from './units'

/**
 * Diameters (thousandths of an inch) that level nylon of a labelled strength (lb) has been sold at.
 * Our own reading of several generic tables, which disagree by half (common practice).
 */
const LEVEL_NYLON: readonly (readonly [lb: number, low: number, high: number])[] = [
  [4, 7, 8.5],
  [6, 9, 10],
  [8, 10, 12],
  [10, 11, 13.5],
  [12, 12, 15],
  [15, 14, 16.5],
  [20, 16, 19],
  [25, 18, 21],
  [30, 19, 23],
  [40, 22, 27],
  [50, 25, 30],
  [60, 27, 33],
  [80, 32, 38],
]

export interface DiameterRange {
  readonly low_m: number
  readonly high_m: number
}

/**
 * The range of diameters (m) that a strength label (N) may stand for, interpolated in the table;
 * undefined outside 1 to 100 lb. Below 4 lb the strength per area of fine tippet (610 to 1100 MPa,
 * derived from generic tables) gives the range instead.
 */
export function strengthLabelRange(force_N: number): DiameterRange | undefined {
  // Nine figures, so that 1 lb read as newtons is still inside the table.
  const lb = Number((force_N / POUND_FORCE_N).toPrecision(9))
  if (!(lb >= 1 && lb <= 100)) return undefined
  if (lb < 4)
    return { low_m: Math.sqrt(lb / 0.125) * THOU_M, high_m: Math.sqrt(lb / 0.07) * THOU_M }
  const last = LEVEL_NYLON.length - 1
  const found = LEVEL_NYLON.findIndex(([label]) => label >= lb)
  // Above the table its last two rows run on.
  const index = found < 0 ? last : Math.max(1, found)
  const [a, b] = [LEVEL_NYLON[index - 1], LEVEL_NYLON[index]]
  if (!a || !b) return undefined
  const t = (lb - a[0]) / (b[0] - a[0])
  return { low_m: (a[1] + t * (b[1] - a[1])) * THOU_M, high_m: (a[2] + t * (b[2] - a[2])) * THOU_M }
}
