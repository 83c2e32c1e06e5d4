import type { LineTaper } from './designation'
import type { FlyLine } from './line'
import { headMass_kg, lineMassOut_kg } from './line'

/** Lengths of line beyond the rod tip at which loading is compared, m: a short, a usual, a long cast. */
const LOADING_AT_M = [6, 9, 14] as const

export interface Loading {
  readonly out_m: number
  readonly mass_kg: number
  /** Mass out over the mass that the rod's class is built for. */
  readonly share: number
}

/** What a line does to a rod: its mass out at three lengths against the rod's class at 30 ft. */
export interface RodAndLine {
  /** Classes the line is heavier than the rod; negative where it is lighter. */
  readonly classes: number
  readonly rated_kg: number
  readonly loadings: readonly Loading[]
  /** Length out (m) at which the line weighs what the rod is built for; null where it never does in 20 m. */
  readonly fullLoad_m: number | null
}

const LONGEST_CARRY_M = 20 // what the best carry in the air (from memory)

/**
 * Rod and line compared by mass: a rod of class n is built for the mass that the standard gives the first
 * 30 ft of an n-weight line (AFFTA fly line weight specification; that rods follow it, common practice).
 */
export function rodAndLine(rodClass: number, line: FlyLine): RodAndLine {
  const rated_kg = headMass_kg(rodClass).value
  const loadings = LOADING_AT_M.map((out_m) => {
    const mass_kg = lineMassOut_kg(line, out_m)
    return { out_m, mass_kg, share: mass_kg / rated_kg }
  })
  return {
    classes: line.weight - rodClass,
    rated_kg,
    loadings,
    fullLoad_m: lengthWeighing(line, rated_kg),
  }
}

function lengthWeighing(line: FlyLine, mass_kg: number): number | null {
  if (lineMassOut_kg(line, LONGEST_CARRY_M) < mass_kg) return null
  let [low, high] = [0, LONGEST_CARRY_M]
  for (let k = 0; k < 40; k++) {
    const middle = (low + high) / 2
    if (lineMassOut_kg(line, middle) < mass_kg) low = middle
    else high = middle
  }
  return (low + high) / 2
}

export const LINE_USES = ['delicacy', 'roll-cast', 'wind', 'distance', 'big-flies'] as const
export type LineUse = (typeof LINE_USES)[number]

/** Which taper suits what, as the trade teaches it: 2 well, 1 passably, 0 poorly (common practice). */
export const LINE_SUITS: Readonly<Record<LineTaper, Readonly<Record<LineUse, 0 | 1 | 2>>>> = {
  WF: { delicacy: 1, 'roll-cast': 1, wind: 2, distance: 2, 'big-flies': 2 },
  DT: { delicacy: 2, 'roll-cast': 2, wind: 1, distance: 0, 'big-flies': 1 },
  ST: { delicacy: 2, 'roll-cast': 1, wind: 0, distance: 0, 'big-flies': 0 },
  L: { delicacy: 0, 'roll-cast': 1, wind: 1, distance: 0, 'big-flies': 1 },
  SH: { delicacy: 0, 'roll-cast': 0, wind: 2, distance: 2, 'big-flies': 1 },
}
