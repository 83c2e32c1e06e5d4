import type { Leader, Segment } from '../leader'
import type { FlyFigures, FlyLine } from '../tackle'
import type { CastCase, CastSettings, JointMass, LeaderStrand, Strand } from './castCase'
import type { CaseSpreads, StrandSpreads } from './spreads'
import { cutList } from '../tying'
import { casterOf, casterSpreads, diameter_m, diameterSpread, materialOf } from '../leader'
import { bendingStiffness_N_m2, linearDensity_kg_m, spreadOf } from '../materials'
import {
  bodyOf,
  flyFigures,
  headMass_kg,
  lineFigures,
  linePieces,
  parseDesignation,
} from '../tackle'
import { COMMON_SPREADS, either, KNOT_MASS, TIED_LENGTH } from './spreads'
import { STANDARD_SETTINGS, STANDARD_SURROUNDINGS } from './castCase'
import { STANDARD_CAST } from './turnover'

/** What a person can change about a cast, over what the leader's outfit says. */
export interface CastChoices {
  readonly cast?: Partial<CastSettings>
  readonly lineOut_m?: number
  readonly wind_m_s?: number
  readonly mesh?: CastCase['mesh']
  /** Wet strands are limper; what the outfit says unless given. */
  readonly wet?: boolean
  /** As weighed and measured, in place of what the style and hook say. */
  readonly fly?: { readonly mass_kg?: number; readonly dragArea_m2?: number }
  /** Natural curvature of the leader off the spool, 1/m. */
  readonly curl_1_m?: number
}

/** The case of a leader with its line, fly and caster, or the name of what is missing. */
export function caseOf(leader: Leader, choices: CastChoices = {}): CastCase | 'no-fly' | 'no-line' {
  const { line, wet } = leader.outfit
  const choice = leader.tip.fly
  if (!choice) return 'no-fly'
  if (!line) return 'no-line'
  const caster = casterOf(leader.outfit)
  const figures = flyFigures({ ...choice.fly, ...choices.fly })
  const out_m = choices.lineOut_m ?? STANDARD_CAST.lineOut_m
  return {
    ...STANDARD_SURROUNDINGS,
    line: lineStrands(line, out_m),
    segments: leader.segments.map((s) =>
      strandOf(leader, s, choices.wet ?? wet ?? false, choices.curl_1_m ?? 0),
    ),
    fly: bodyOf(figures),
    cast: {
      ...STANDARD_SETTINGS,
      lineSpeed_m_s: caster.lineSpeed_m_s,
      loopHeight_m: caster.loopHeight_m,
      ...choices.cast,
    },
    knots: knotMasses(leader),
    wind_m_s: choices.wind_m_s ?? 0,
    mesh: choices.mesh ?? STANDARD_SURROUNDINGS.mesh,
    spreads: spreadsOf(leader, line, figures),
  }
}

function spreadsOf(
  leader: Leader,
  line: FlyLine,
  { mass, dragArea, dragExponent }: FlyFigures,
): CaseSpreads {
  return {
    ...COMMON_SPREADS,
    ...casterSpreads(leader.outfit),
    flyMass: spreadOf(mass),
    flyDrag: spreadOf(dragArea),
    flyDragExponent: either((dragExponent.high - dragExponent.low) / 2),
    knotMass: KNOT_MASS,
    lineMass: spreadOf(headMass_kg(line.weight)),
    lineStiffness: spreadOf(lineFigures(line).tipStiffness),
  }
}

/** The line in the air, from rod tip to line end. */
function lineStrands(line: FlyLine, out_m: number): Strand[] {
  const { tipDiameter_m, tipStiffness } = lineFigures(line)
  const modulus_Pa = tipStiffness.value / bendingStiffness_N_m2(1, tipDiameter_m)
  const pieces = linePieces(line, out_m).reverse()
  return pieces.map((p) => level(p.length_m, p.diameter_m, p.density_kg_m3, modulus_Pa))
}

function level(
  length_m: number,
  diameter: number,
  density_kg_m3: number,
  modulus_Pa: number,
): Strand {
  return { length_m, diameterFrom_m: diameter, diameterTo_m: diameter, density_kg_m3, modulus_Pa }
}

function strandOf(leader: Leader, segment: Segment, wet: boolean, curl_1_m: number): LeaderStrand {
  const { density, modulus, wetModulus } = materialOf(leader, segment.material)
  const stiffness = modulus.value * (wet ? wetModulus.value : 1)
  const dry = spreadOf(modulus)
  const spreads: StrandSpreads = {
    diameter: diameterSpread(segment),
    density: spreadOf(density),
    modulus: wet ? { ...dry, sd: Math.hypot(dry.sd, spreadOf(wetModulus).sd) } : dry,
    length_m: TIED_LENGTH,
  }
  const strand = level(segment.length.si, diameter_m(segment), density.value, stiffness)
  return { ...strand, curl_1_m, spreads }
}

/** What the turns of each knot weigh: the strand wound into it, half of a piece's share at each end. */
function knotMasses(leader: Leader): JointMass[] {
  const wound = cutList(leader).map((piece, i) => {
    const segment = leader.segments[i]
    if (!segment) return 0
    const { density } = materialOf(leader, segment.material)
    return (piece.inKnots_m / 2) * linearDensity_kg_m(density.value, diameter_m(segment))
  })
  return Array.from({ length: wound.length + 1 }, (_, joint) => ({
    joint,
    mass_kg: (wound[joint - 1] ?? 0) + (wound[joint] ?? 0),
  }))
}

/** The line of the standard cast: a floating weight-forward 5-weight, 9 m of it out. */
export function standardLine(): Strand[] {
  const line = parseDesignation('WF5F')
  return line ? lineStrands(line, STANDARD_CAST.lineOut_m) : []
}
