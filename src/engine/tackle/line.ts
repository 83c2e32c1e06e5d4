import { GRAIN_KG, FOOT_M, INCH_M } from '../units'
import { bendingStiffness_N_m2, linearDensity_kg_m } from '../materials/material'
import { sourced } from '../materials/sourced'
import type { Sourced } from '../materials/sourced'

export const LINE_TAPERS = ['WF', 'DT', 'ST', 'L', 'SH'] as const
export type LineTaper = (typeof LINE_TAPERS)[number]
export const LINE_BUOYANCIES = ['F', 'I', 'S', 'F/S'] as const
export type LineBuoyancy = (typeof LINE_BUOYANCIES)[number]

/** A fly line as designated by the trade (`WF5F`), with the user's own tip diameter where measured. */
export interface FlyLine {
  readonly designation: string
  readonly taper: LineTaper
  readonly weight: number
  readonly buoyancy: LineBuoyancy
  readonly tipDiameter_m?: number
}

/** Reads `WF5F`, `DT 4 F`, `wf7f/s`; undefined when it is no designation of a 1- to 15-weight. */
export function parseDesignation(text: string): Omit<FlyLine, 'tipDiameter_m'> | undefined {
  const match = /^(WF|DT|ST|SH|L) ?-?(\d{1,2}) ?-?(F\/S|F|I|S)?$/.exec(text.trim().toUpperCase())
  const weight = Number(match?.[2])
  if (!match || !(weight in GRAINS)) return undefined
  return {
    designation: text.trim(),
    taper: match[1] as LineTaper,
    weight,
    buoyancy: (match[3] ?? 'F') as LineBuoyancy,
  }
}

/** Grains in the first 30 ft less level tip, and tolerance: AFFTA fly line weight specification. */
const GRAINS: Readonly<Record<number, readonly [grains: number, tolerance: number]>> = {
  1: [60, 6],
  2: [80, 6],
  3: [100, 6],
  4: [120, 6],
  5: [140, 6],
  6: [160, 8],
  7: [185, 8],
  8: [210, 8],
  9: [240, 10],
  10: [280, 10],
  11: [330, 12],
  12: [380, 12],
  13: [450, 15],
  14: [500, 15],
  15: [550, 15],
}

const WEIGHT_SOURCE = 'AFFTA fly line weight specification'
const HEAD_M = 30 * FOOT_M
const LINE_DENSITY = sourced(
  850,
  750,
  950,
  'estimate: a floating line floats with a third above water',
)

/** Mass (kg) of the first 30 ft of a line of this weight class, with the tolerance of the standard. */
export function headMass_kg(weight: number): Sourced {
  const entry = GRAINS[weight]
  if (!entry) throw new RangeError(`No line weight ${weight}: the standard runs from 1 to 15.`)
  const [grains, tolerance] = entry
  const low = (grains - tolerance) * GRAIN_KG
  const high = (grains + tolerance) * GRAIN_KG
  return sourced(grains * GRAIN_KG, low, high, WEIGHT_SOURCE)
}

/** What the leader is tied to: the tip of the line, and the mean of the line that carries it. */
export interface LineFigures {
  readonly tipDiameter_m: number
  readonly tipLinearDensity_kg_m: number
  /** Bending stiffness of the tip, N m2, with its band. */
  readonly tipStiffness: Sourced
  /** Mean linear density of the first 30 ft, kg/m. */
  readonly headLinearDensity_kg_m: number
  readonly density_kg_m3: number
  readonly tipSource: string
}

/**
 * Effective modulus of a coated line in bending, Pa: soft coating round a braid whose filaments slip.
 * Estimate, uncertain by ten: plasticised vinyl alone is 1.5 to 15 MPa, the core adds what its coating
 * lets it; a two-hand bend test against the butt tells more.
 */
const LINE_MODULUS = sourced(1e8, 1.5e7, 4.5e8, 'estimate: plasticised coating over a braided core')

/** Figures at the line's tip; tip diameter .022 + .002 x weight in (fit to trade figures) unless measured. */
export function lineFigures(line: FlyLine): LineFigures {
  const tip_m = line.tipDiameter_m ?? (0.022 + 0.002 * line.weight) * INCH_M
  const { low, value, high, source } = LINE_MODULUS
  const stiffness = (modulus_Pa: number) => bendingStiffness_N_m2(modulus_Pa, tip_m)
  return {
    tipDiameter_m: tip_m,
    tipLinearDensity_kg_m: linearDensity_kg_m(LINE_DENSITY.value, tip_m),
    tipStiffness: sourced(stiffness(value), stiffness(low), stiffness(high), source),
    headLinearDensity_kg_m: headMass_kg(line.weight).value / HEAD_M,
    density_kg_m3: LINE_DENSITY.value,
    tipSource:
      line.tipDiameter_m === undefined ? 'fit to trade figures (common practice)' : 'as measured',
  }
}

const FRONT_TAPER_M = 2 // estimate; makers range from 1 to 4 m

/** A stretch of round strand of constant or linearly changing diameter, from the line's tip backwards. */
export interface LinePiece {
  readonly length_m: number
  readonly linearDensity_kg_m: number
  readonly diameter_m: number
}

/**
 * The line from its tip back over `length_m`, cut into level pieces: a front taper of 2 m from the tip's
 * diameter to a belly such that the first 30 ft weigh what the standard says.
 */
export function linePieces(line: FlyLine, length_m: number): LinePiece[] {
  const tip = lineFigures(line).tipDiameter_m
  const belly = bellyDiameter_m(tip, headMass_kg(line.weight).value)
  const steps = 4
  const taper = Array.from({ length: steps }, (_, k) =>
    levelPiece(tip + ((belly - tip) * (k + 0.5)) / steps, FRONT_TAPER_M / steps),
  )
  return clipped([...taper, levelPiece(belly, Math.max(0, length_m - FRONT_TAPER_M))], length_m)
}

function levelPiece(diameter_m: number, length_m: number): LinePiece {
  return {
    length_m,
    diameter_m,
    linearDensity_kg_m: linearDensity_kg_m(LINE_DENSITY.value, diameter_m),
  }
}

function clipped(pieces: readonly LinePiece[], length_m: number): LinePiece[] {
  let left = length_m
  return pieces.flatMap((piece) => {
    const take = Math.min(piece.length_m, left)
    left -= take
    return take > 0 ? [{ ...piece, length_m: take }] : []
  })
}

/** Root of belly length x d^2 + taper length x (tip^2 + tip d + d^2)/3 = head volume x 4/pi. */
function bellyDiameter_m(tip: number, mass_kg: number): number {
  const volume = mass_kg / (LINE_DENSITY.value * (Math.PI / 4))
  const third = FRONT_TAPER_M / 3
  const a = HEAD_M - FRONT_TAPER_M + third
  const b = third * tip
  const c = third * tip * tip - volume
  return (-b + Math.sqrt(b * b - 4 * a * c)) / (2 * a)
}
