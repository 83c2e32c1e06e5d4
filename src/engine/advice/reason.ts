import type { Water } from '../leader'
import type { KnotId } from '../materials'

type ByHook = { hook: number; stoutX: number; fineX: number }
/** Casts that come over, recoil forgiven, of the leader by the rules and of the one that is taken, as shares; and what differs. */
type Thrown = {
  firstRoom: number
  room: number
  x: number
  toX: number
  length_m: number
  toLength_m: number
  tippet_m: number
  toTippet_m: number
}
type Densities = { density_kg_m3: number; other_kg_m3: number }

/** Figures, in SI, of the reasons that have any; words are made of them elsewhere. */
interface WithFigures {
  'rule-by-hook': ByHook & { by4: number; by3: number }
  'rule-not-for-style': ByHook
  'rule-not-for-hook': ByHook
  'light-fly': { dragRatio: number }
  'heavy-fly': { massRatio: number; dragRatio: number }
  'fish-stouter': { fromX: number; toX: number; strand_N: number }
  'rule-bounds': { toX: number; hook: number }
  'fish-beyond': { hook: number; heldX: number; toX: number; biggerHook?: number }
  'thrown-holds': Thrown
  'thrown-best': Thrown
  'thrown-changed': Thrown
  'thrown-in-vain': Thrown
  'length-rod': { rod_m: number; isGiven: boolean }
  'length-water': { rods: number; water: Water }
  'length-line': { line: string; length_m: number }
  'length-bound': { wanted_m: number }
  'tippet-length': { length_m: number }
  'material-floats': Densities & { water_kg_m3: number }
  'material-sinks': Densities
  'material-stiffness': { wet_Pa: number; other_Pa: number }
  'bite-teeth': { length_m: number }
  'bite-knot': { knot: KnotId }
  'strength-weight': { fish_kg: number; share: number; pull_N: number }
  'strength-current': { current_m_s: number; pull_N: number }
  'strength-knots': { efficiency: number; strand_N: number; diameter_m: number }
  'strength-unknown': { fish_kg: number }
}
type Scaled =
  | `length-${'pressured' | 'easy' | 'far' | 'near' | 'wind' | 'bulky'}`
  | `strength-${'shock' | 'snags'}`
type Bare =
  | 'rule-not-for-water'
  | 'ordinary-fly'
  | 'unruled-middle'
  | 'sinking-stouter'
  | `wary-${'longer-first' | 'finer'}`
  | `${'wind' | 'warm'}-stouter`
  | 'not-thrown'
  | 'length-streamer'
  | `material-${'film' | 'abrasion' | 'knots' | 'cost'}`

export interface ReasonFigures
  extends WithFigures, Readonly<Record<Scaled, { factor: number }> & Record<Bare, object>> {}

/** Everything that advice can rest on. */
export type ReasonCode = keyof ReasonFigures

/** Why something is advised: a code, its figures in SI, and where it comes from. */
export interface ReasonFor<Code extends ReasonCode> {
  readonly code: Code
  readonly figures: Readonly<ReasonFigures[Code]>
  readonly source: string
}
export type Reason = { [Code in ReasonCode]: ReasonFor<Code> }[ReasonCode]

export const CP = 'common practice'
export const ESTIMATE = 'estimate'

export function reason<Code extends ReasonCode>(
  code: Code,
  figures: ReasonFigures[Code],
  source: string = CP,
): ReasonFor<Code> {
  return { code, figures, source }
}
