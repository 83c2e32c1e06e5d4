import type { CastCase, Strand } from './castCase'
import type { Ledger } from './runCast'
import { buildChain } from './chain'
import { leastLineSpeed } from './leastSpeed'
import { STRAIGHT_EXTENSION } from './simulated'

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

/** Sums a ledger's links by leader segment. */
export function attribute(input: CastCase, ledger: Ledger): Attribution {
  const { segmentOf, links } = buildChain(input)
  const pieces = Array.from({ length: input.segments.length + 1 }, (_, i) => ({
    segment: i - 1,
    cross_J: 0,
    axial_J: 0,
    bending_J: 0,
  }))
  for (let k = 1; k <= links; k++) {
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

const THOU_M = 2.54e-5
const FINE_M_S = 0.02

/** Derivatives by differences either way, on the mesh of the case. */
export function sensitivityOf(
  input: CastCase,
  segment: number,
  from_m_s: number,
  target = STRAIGHT_EXTENSION,
): Sensitivity {
  const least = (change: (s: Strand) => Strand) =>
    leastLineSpeed(
      { ...input, segments: input.segments.map((s, i) => (i === segment ? change(s) : s)) },
      { target, from_m_s, tolerance_m_s: FINE_M_S },
    )
  const half =
    (sign: number) =>
    (s: Strand): Strand => ({ ...s, length_m: s.length_m * (1 + sign * 0.1) })
  const thou =
    (sign: number) =>
    (s: Strand): Strand => ({
      ...s,
      diameterFrom_m: s.diameterFrom_m + (sign * THOU_M) / 2,
      diameterTo_m: s.diameterTo_m + (sign * THOU_M) / 2,
    })
  return {
    segment,
    perTenthLength_m_s: difference(least(half(1)), least(half(-1)), 2),
    perThousandth_m_s: difference(least(thou(1)), least(thou(-1)), 1),
  }
}

function difference(more: number | null, less: number | null, steps: number): number | null {
  return more === null || less === null ? null : (more - less) / steps
}
