import type { Water } from '../leader'

interface ByHook {
  readonly hook: number
  readonly stoutX: number
  readonly fineX: number
}
interface Physics {
  readonly needed_m_s: number
  readonly caster_m_s: number
}
interface Densities {
  readonly density_kg_m3: number
  readonly other_kg_m3: number
}

/** Figures, in SI, of the reasons that have any; words are made of them elsewhere. */
interface WithFigures {
  readonly 'rule-by-hook': ByHook & { readonly by4: number; readonly by3: number }
  readonly 'rule-not-for-style': ByHook
  readonly 'rule-not-for-hook': ByHook
  readonly 'light-fly': { readonly dragRatio: number }
  readonly 'heavy-fly': { readonly massRatio: number; readonly dragRatio: number }
  readonly 'fish-stouter': {
    readonly fromX: number
    readonly toX: number
    readonly strand_N: number
  }
  readonly 'fish-beyond': { readonly heldX: number }
  readonly 'turnover-agrees': { readonly finestX: number }
  readonly 'turnover-stouter': Physics & {
    readonly x: number
    readonly toX: number
    readonly flyShare: number
  }
  readonly 'turnover-never': Physics
  readonly 'flown-agrees': { readonly finestX: number }
  readonly 'flown-stouter': { readonly x: number; readonly finestX: number; readonly toX: number }
  readonly 'length-rod': { readonly rod_m: number; readonly isGiven: boolean }
  readonly 'length-water': { readonly rods: number; readonly water: Water }
  readonly 'length-line': { readonly line: string; readonly length_m: number }
  readonly 'length-bound': { readonly wanted_m: number }
  readonly 'tippet-length': { readonly length_m: number }
  readonly 'material-floats': Densities & { readonly water_kg_m3: number }
  readonly 'material-sinks': Densities
  readonly 'material-stiffness': { readonly wet_Pa: number; readonly other_Pa: number }
  readonly 'strength-weight': {
    readonly fish_kg: number
    readonly share: number
    readonly pull_N: number
  }
  readonly 'strength-current': { readonly current_m_s: number; readonly pull_N: number }
  readonly 'strength-knots': {
    readonly efficiency: number
    readonly strand_N: number
    readonly diameter_m: number
  }
  readonly 'strength-unknown': { readonly fish_kg: number }
}
type Scaled =
  | `length-${'pressured' | 'easy' | 'far' | 'near' | 'wind' | 'bulky'}`
  | `strength-${'shock' | 'snags'}`
type Bare =
  | 'rule-not-for-water'
  | 'ordinary-fly'
  | `wary-${'longer-first' | 'finer'}`
  | `${'wind' | 'warm'}-stouter`
  | 'turnover-not-computed'
  | 'flown-never'
  | 'length-streamer'
  | `material-${'film' | 'abrasion' | 'knots' | 'cost'}`

export interface ReasonFigures
  extends
    WithFigures,
    Readonly<Record<Scaled, { readonly factor: number }> & Record<Bare, object>> {}

/** Everything that advice can rest on. */
export type ReasonCode = keyof ReasonFigures

/** Why something is advised: a code, its figures in SI, and where it comes from. */
export interface ReasonFor<Code extends ReasonCode> {
  readonly code: Code
  readonly figures: ReasonFigures[Code]
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
