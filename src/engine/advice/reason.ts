import type { Figures } from '../checks'

/** Everything that advice can rest on; words are made of it elsewhere. */
export const REASON_CODES = [
  'rule-by-hook',
  'rule-not-for-style',
  'rule-not-for-hook',
  'rule-not-for-water',
  'light-fly',
  'ordinary-fly',
  'heavy-fly',
  'wary-longer-first',
  'wary-finer',
  'wind-stouter',
  'warm-stouter',
  'fish-stouter',
  'fish-beyond',
  'turnover-agrees',
  'turnover-stouter',
  'turnover-never',
  'turnover-not-computed',
  'flown-agrees',
  'flown-stouter',
  'flown-never',
  'length-rod',
  'length-water',
  'length-line',
  'length-streamer',
  'length-pressured',
  'length-easy',
  'length-far',
  'length-near',
  'length-wind',
  'length-bulky',
  'length-bound',
  'tippet-length',
  'material-floats',
  'material-sinks',
  'material-film',
  'material-stiffness',
  'material-abrasion',
  'material-knots',
  'material-cost',
  'strength-weight',
  'strength-current',
  'strength-shock',
  'strength-snags',
  'strength-knots',
  'strength-unknown',
] as const
export type ReasonCode = (typeof REASON_CODES)[number]

/** Why something is advised: a code, its figures in SI, and where it comes from. */
export interface Reason {
  readonly code: ReasonCode
  readonly figures: Figures
  readonly source: string
}

export const CP = 'common practice'
export const ESTIMATE = 'estimate'

export function reason(code: ReasonCode, figures: Figures = {}, source: string = CP): Reason {
  return { code, figures, source }
}
