import type { Sourced } from '../materials/sourced'
import type { Designation } from './designation'
import type { LineShape } from './lineShape'
import { bendingStiffness_N_m2, linearDensity_kg_m } from '../materials/material'
import { sourced } from '../materials/sourced'
import { FOOT_M, GRAIN_KG, INCH_M } from '../units'
import { lineDensity } from './lineDensity'
import { bellyDiameter_m, shapeOf, stretches } from './lineShape'

/** A fly line by its designation, with the user's own measurements where there are any. */
export interface FlyLine extends Designation {
  readonly tipDiameter_m?: number
  /** Own measurements in place of the usual shape of its taper. */
  readonly shape?: Partial<LineShape>
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
  /** Of the tip, kg/m3. */
  readonly density_kg_m3: number
  readonly tipSource: string
}

/**
 * Effective modulus of a coated line in bending, Pa: soft coating round a braid whose filaments slip.
 * Estimate, uncertain by ten: plasticised vinyl alone is 1.5 to 15 MPa, the core adds what its coating
 * lets it; a two-hand bend test against the butt tells more.
 */
const LINE_MODULUS = sourced(1e8, 1.5e7, 4.5e8, 'estimate: plasticised coating over a braided core')

const FLOATING_KG_M3 = 850 // what the fit below was made on, estimate

/** Tip diameter (m) of a 5-weight, where no line is chosen: fit to trade figures (common practice). */
export const USUAL_LINE_TIP_M = 0.8e-3

/** Mean mass per length (kg/m) of the first 30 ft. */
const headDensity_kg_m = (weight: number) => headMass_kg(weight).value / HEAD_M

/**
 * Figures at the line's tip. Tip diameter: as measured, else .022 + .002 x weight in (fit to trade figures
 * of floating lines), thinner where the line is denser; of a level line that of its whole length.
 */
export function lineFigures(line: FlyLine): LineFigures {
  const density = lineDensity(line, headDensity_kg_m(line.weight)).value
  const tip_m = line.tipDiameter_m ?? usualTip_m(line, density)
  const { low, value, high, source } = LINE_MODULUS
  const stiffness = (modulus_Pa: number) => bendingStiffness_N_m2(modulus_Pa, tip_m)
  return {
    tipDiameter_m: tip_m,
    tipLinearDensity_kg_m: linearDensity_kg_m(density, tip_m),
    tipStiffness: sourced(stiffness(value), stiffness(low), stiffness(high), source),
    headLinearDensity_kg_m: headDensity_kg_m(line.weight),
    density_kg_m3: density,
    tipSource:
      line.tipDiameter_m === undefined ? 'fit to trade figures (common practice)' : 'as measured',
  }
}

function usualTip_m({ taper, weight }: FlyLine, density_kg_m3: number): number {
  if (taper === 'L') return diameterOf_m(headDensity_kg_m(weight), density_kg_m3)
  return (0.022 + 0.002 * weight) * INCH_M * Math.sqrt(FLOATING_KG_M3 / density_kg_m3)
}

function diameterOf_m(perMetre_kg_m: number, density_kg_m3: number): number {
  return Math.sqrt((4 * perMetre_kg_m) / (Math.PI * density_kg_m3))
}

/** A stretch of round strand of constant diameter, from the line's tip backwards. */
export interface LinePiece {
  readonly length_m: number
  readonly linearDensity_kg_m: number
  readonly diameter_m: number
  readonly density_kg_m3: number
}

/** Diameter (m) of the belly such that the first 30 ft weigh what the standard says. */
function lineBelly_m(line: FlyLine): number {
  const { tipDiameter_m, density_kg_m3 } = lineFigures(line)
  const volume = headMass_kg(line.weight).value / (density_kg_m3 * (Math.PI / 4))
  return bellyDiameter_m(shapeOf(line), line.taper, tipDiameter_m, volume, HEAD_M)
}

/**
 * The line from its tip back over `length_m`, cut into level pieces after the shape of its taper. What is
 * behind the sinking tip of a sink-tip line floats, and is thicker for the same mass.
 */
export function linePieces(line: FlyLine, length_m: number): LinePiece[] {
  const { tipDiameter_m, density_kg_m3 } = lineFigures(line)
  const shape = shapeOf(line)
  const pieces = stretches(shape, line.taper, tipDiameter_m, lineBelly_m(line), length_m)
  let start = 0
  return pieces.map(({ length_m: piece, diameter_m }) => {
    const floats = start >= shape.sinkTip_m - 1e-9
    start += piece
    const perMetre = linearDensity_kg_m(density_kg_m3, diameter_m)
    const density = floats ? FLOATING_KG_M3 : density_kg_m3
    return {
      length_m: piece,
      diameter_m: floats ? diameterOf_m(perMetre, density) : diameter_m,
      linearDensity_kg_m: perMetre,
      density_kg_m3: density,
    }
  })
}

/** Mass (kg) of the line beyond the rod tip with so much of it (m) out. */
export function lineMassOut_kg(line: FlyLine, out_m: number): number {
  return linePieces(line, out_m).reduce((sum, p) => sum + p.length_m * p.linearDensity_kg_m, 0)
}
