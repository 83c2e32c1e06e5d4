import type { Air, AxialFrictionName, CylinderDragName } from './drag'
import type { CaseSpreads, StrandSpreads } from './spreads'
import { STANDARD_GRAVITY_M_S2 } from '../units'
import type { Body } from '../tackle'
import { CASTERS } from '../tackle'
import { STANDARD_AIR } from './drag'
import { STATED_CASE } from './spreads'
import { STANDARD_CAST } from './turnover'

/** A stretch of strand, level or tapering evenly; SI. */
export interface Strand {
  readonly length_m: number
  readonly diameterFrom_m: number
  readonly diameterTo_m: number
  readonly density_kg_m3: number
  readonly modulus_Pa: number
  /** Natural curvature off the spool, 1/m; 0 is straight. */
  readonly curl_1_m?: number
}

/** A piece of the leader, with what is known of it. */
export interface LeaderStrand extends Strand {
  readonly spreads: StrandSpreads
}

/** A small mass on the strand, such as a knot: at a joint between leader segments (0 is at the line). */
export interface JointMass {
  readonly joint: number
  readonly mass_kg: number
}

/** A dropper, an indicator or a weight: a body so far down the leader from its butt. */
export interface HungBody extends Body {
  readonly at_m: number
}

export interface CastSettings {
  /** Speed of the fly leg at the start, m/s. */
  readonly lineSpeed_m_s: number
  readonly loopHeight_m: number
  /** Length of the rod leg at the start, rod tip to the loop's lower end. */
  readonly loopStart_m: number
  readonly launchAngle_deg: number
  readonly tipHeight_m: number
}

/**
 * `quick` is for the many casts of one delivery: how they lie as `usual` does, at two thirds of the work. `reference`
 * is for judging the others: several times the work of `fine`.
 */
export type MeshName = 'coarse' | 'quick' | 'usual' | 'fine' | 'reference'

/** Everything a flight needs. The rod tip stands still; a head wind is negative. */
export interface CastCase {
  /** From rod tip to line end. */
  readonly line: readonly Strand[]
  /** From butt to tippet. */
  readonly segments: readonly LeaderStrand[]
  readonly fly: Body
  /** What else hangs on the leader. */
  readonly hung?: readonly HungBody[]
  readonly cast: CastSettings
  readonly air: Air
  readonly gravity_m_s2: number
  readonly wind_m_s: number
  /** A constant coefficient on the wetted surface, or the name of a law. */
  readonly axialFriction:
    | number
    | AxialFrictionName
    | { readonly law: AxialFrictionName; readonly factor: number }
  readonly cylinderDrag: CylinderDragName
  /** The bending moment is K (change of angle + this time its rate). */
  readonly bendingDamping_s: number
  readonly knots: readonly JointMass[]
  readonly endTime_s: number
  readonly mesh: MeshName
  /** How well each figure of it is known: what a band is drawn from. */
  readonly spreads: CaseSpreads
}

/** The standard cast as a case: see STANDARD_CAST; an ordinary caster throws it. */
export const STANDARD_SETTINGS: CastSettings = {
  ...CASTERS.ordinary,
  loopStart_m: STANDARD_CAST.rodLeg_m,
  launchAngle_deg: STANDARD_CAST.launchAngle_deg,
  tipHeight_m: STANDARD_CAST.tipHeight_m,
}

export const STANDARD_SURROUNDINGS = {
  air: STANDARD_AIR,
  gravity_m_s2: STANDARD_GRAVITY_M_S2,
  wind_m_s: 0,
  axialFriction: 'matsui',
  cylinderDrag: 'cheng',
  /** A coated line's damping is a few milliseconds, estimate. */
  bendingDamping_s: 0.003,
  knots: [],
  endTime_s: 2.5,
  mesh: 'usual',
  spreads: STATED_CASE,
} as const satisfies Partial<CastCase>
