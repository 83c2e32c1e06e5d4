import type { Sourced } from '../materials/sourced'
import type { FlyLine } from './line'
import { sourced } from '../materials/sourced'
import { linePieces } from './line'
import { shapeOf } from './lineShape'

/** A reel's spool, m. */
export interface Spool {
  /** Diameter of the bare arbor. */
  readonly arbor_m: number
  /** Clear width between the flanges. */
  readonly width_m: number
  /** Diameter of the rim. */
  readonly rim_m: number
  /** What stays free below the rim, so that the line does not rub. */
  readonly gap_m: number
}

const YARD_M = 0.9144 // NIST SP 811, 2008
const LONGEST_BACKING_M = 1000

/** Metres of backing from `80 m`, `100 yd` or a bare number of metres; undefined for anything else. */
export function parseBacking_m(text: string): number | undefined {
  const match = /^(\d+(?:[.,]\d+)?) ?(m|yd|yds|yards?|metres?|meters?)?$/i.exec(text.trim())
  if (!match) return undefined
  const value = Number(match[1]?.replace(',', '.'))
  const metres = /^y/i.test(match[2] ?? '') ? value * YARD_M : value
  return metres > 0 && metres <= LONGEST_BACKING_M ? metres : undefined
}

/** What a reel's maker says it holds: a line and so much backing. */
export interface Capacity {
  readonly line: FlyLine
  readonly backing_m: number
  readonly backingDiameter_m: number
}

export const USUAL_GAP_M = 4e-3 // an eighth of an inch or a little more (common practice)

/** Backings of the trade, diameter in m: from memory; a micrometer replaces them. */
export const BACKINGS = {
  'braid-20': sourced(0.5e-3, 0.45e-3, 0.56e-3, 'braided polyester, 20 lb: from memory'),
  'braid-30': sourced(0.62e-3, 0.56e-3, 0.7e-3, 'braided polyester, 30 lb: from memory'),
  'gel-spun-50': sourced(0.33e-3, 0.28e-3, 0.4e-3, 'gel-spun fibre, 50 lb: from memory'),
} as const satisfies Readonly<Record<string, Sourced>>
export type BackingId = keyof typeof BACKINGS
export const BACKING_IDS = Object.keys(BACKINGS) as BackingId[]

/**
 * Share of a winding that is strand: 0.79 where each turn stands on the last, 0.91 where they bed in
 * (geometry of circles); wound by hand some of both and some air.
 */
const PACKING = sourced(0.75, 0.65, 0.85, 'estimate from the geometry of circles')

const area = (diameter_m: number) => (Math.PI / 4) * diameter_m ** 2
const ring = (outer_m: number, inner_m: number, width_m: number) =>
  (area(outer_m) - area(inner_m)) * width_m

/** Volume (m3) that a spool offers up to its gap. */
export function spoolVolume_m3({ arbor_m, width_m, rim_m, gap_m }: Spool): number {
  return Math.max(0, ring(rim_m - 2 * gap_m, arbor_m, width_m))
}

/** Volume (m3) of the strand of a whole line. */
export function lineVolume_m3(line: FlyLine): number {
  const pieces = linePieces(line, shapeOf(line).total_m)
  return pieces.reduce((sum, p) => sum + area(p.diameter_m) * p.length_m, 0)
}

/** Strand volume (m3) that a reel holds by what is written on it. */
export function capacityVolume_m3({ line, backing_m, backingDiameter_m }: Capacity): number {
  return lineVolume_m3(line) + backing_m * area(backingDiameter_m)
}

/** Length of backing (m) that fits under a line; 0 where the line alone is too much. */
export function backingFor(
  reel: Spool | Capacity,
  line: FlyLine,
  backingDiameter_m: number,
): Sourced {
  const { value, low, high, source } = strandVolume(reel)
  const left = (volume: number) =>
    Math.max(0, volume - lineVolume_m3(line)) / area(backingDiameter_m)
  return sourced(left(value), left(low), left(high), source)
}

function strandVolume(reel: Spool | Capacity): Sourced {
  if ('line' in reel) {
    const volume = capacityVolume_m3(reel)
    // Makers' capacities are round figures for one line of theirs.
    return sourced(volume, volume * 0.9, volume * 1.1, 'from the capacity on the reel: estimate')
  }
  const volume = spoolVolume_m3(reel)
  const { value, low, high, source } = PACKING
  return sourced(
    volume * value,
    volume * low,
    volume * high,
    `spool volume; share of strand: ${source}`,
  )
}

/** Line taken in by one turn of the handle, m: full, with the fly line out, and at the bare arbor. */
export interface Retrieve {
  readonly full_m: number
  readonly lineOut_m: number
  readonly arbor_m: number
}

/** One turn takes in the girth of what is wound: pi times its diameter. */
export function retrievePerTurn(
  spool: Spool,
  backing_m: number,
  backingDiameter_m: number,
  line: FlyLine,
): Retrieve {
  const backing = woundDiameter_m(spool, (backing_m * area(backingDiameter_m)) / PACKING.value)
  const all = woundDiameter_m(
    spool,
    (backing_m * area(backingDiameter_m) + lineVolume_m3(line)) / PACKING.value,
  )
  return { full_m: Math.PI * all, lineOut_m: Math.PI * backing, arbor_m: Math.PI * spool.arbor_m }
}

/** Diameter (m) of a winding of a volume (m3) on a spool; never beyond its rim. */
export function woundDiameter_m({ arbor_m, width_m, rim_m }: Spool, volume_m3: number): number {
  return Math.min(rim_m, Math.sqrt(arbor_m ** 2 + (4 * volume_m3) / (Math.PI * width_m)))
}

/** How far a fish can run before the spool is bare, m, with so much leader beyond the line. */
export function longestRun_m(line: FlyLine, backing_m: number, leader_m = 0): number {
  return shapeOf(line).total_m + backing_m + leader_m
}
