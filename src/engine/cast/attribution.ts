import type { CastCase, LeaderStrand } from './castCase'
import type { FlightResult } from './runCast'
import type { Search } from './leastSpeed'
import { leastSpeedSteps, sought } from './leastSpeed'
import { STRAIGHT_EXTENSION } from './simulated'
import { THOU_M } from '../units'

/** Where the energy went, J: to the fly, and to each piece (-1 is the line) by what took it. */
export interface Attribution {
  readonly fly_J: number
  readonly pieces: readonly {
    readonly segment: number
    readonly cross_J: number
    readonly axial_J: number
    readonly bending_J: number
  }[]
}

/** Sums a flight's ledger by leader segment; null where no account was kept. */
export function attribute({ ledger, jointNodes }: FlightResult): Attribution | null {
  if (!ledger) return null
  const { segmentOf } = ledger
  const pieces = Array.from({ length: jointNodes.length + 1 }, (_, i) => ({
    segment: i - 1,
    cross_J: 0,
    axial_J: 0,
    bending_J: 0,
  }))
  for (let k = 1; k < segmentOf.length; k++) {
    const piece = pieces[segmentOf[k]! + 1]
    if (!piece) continue
    piece.cross_J += ledger.cross_J[k]!
    piece.axial_J += ledger.axial_J[k]!
    piece.bending_J += ledger.bending_J[k]!
  }
  return { fly_J: ledger.fly_J, pieces }
}

/** How least line speed answers to one segment, m/s: for a tenth more length, for a thousandth more diameter. */
export interface Sensitivity {
  readonly segment: number
  readonly perTenthLength_m_s: number | null
  readonly perThousandth_m_s: number | null
}

const FINE_M_S = 0.02
const ROUGH_M_S = 0.2

/** See `sensitivitySteps`. */
export function sensitivityOf(
  input: CastCase,
  segment: number,
  from_m_s?: number,
  target = STRAIGHT_EXTENSION,
): Sensitivity {
  return sought(sensitivitySteps(input, segment, from_m_s, target))
}

/** Derivatives by differences either way, on the mesh of the case; where to begin is sought on the coarse one. */
export function* sensitivitySteps(
  input: CastCase,
  segment: number,
  from_m_s?: number,
  target = STRAIGHT_EXTENSION,
): Search<Sensitivity> {
  const rough = {
    target,
    tolerance_m_s: ROUGH_M_S,
    ...(from_m_s === undefined ? {} : { from_m_s }),
  }
  const near = (yield* leastSpeedSteps({ ...input, mesh: 'coarse' }, rough)) ?? undefined
  const fine = {
    ...rough,
    tolerance_m_s: FINE_M_S,
    ...(near === undefined ? {} : { from_m_s: near }),
  }
  const least = (change: (s: LeaderStrand) => LeaderStrand) =>
    leastSpeedSteps(
      { ...input, segments: input.segments.map((s, i) => (i === segment ? change(s) : s)) },
      fine,
    )
  const longer = yield* least(lengthened(1))
  const shorter = yield* least(lengthened(-1))
  const stouter = yield* least(thickened(1))
  const finer = yield* least(thickened(-1))
  return {
    segment,
    perTenthLength_m_s: difference(longer, shorter, 2),
    perThousandth_m_s: difference(stouter, finer, 1),
  }
}

const lengthened =
  (sign: number) =>
  (s: LeaderStrand): LeaderStrand => ({ ...s, length_m: s.length_m * (1 + sign * 0.1) })

const thickened =
  (sign: number) =>
  (s: LeaderStrand): LeaderStrand => ({
    ...s,
    diameterFrom_m: s.diameterFrom_m + (sign * THOU_M) / 2,
    diameterTo_m: s.diameterTo_m + (sign * THOU_M) / 2,
  })

function difference(more: number | null, less: number | null, steps: number): number | null {
  return more === null || less === null ? null : (more - less) / steps
}
