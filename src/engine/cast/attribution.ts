import type { FlightResult } from './runCast'

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
