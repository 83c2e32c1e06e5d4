import type { Check, CheckInput, FindingOf, Remedy } from './finding'
import { lineFigures } from '../tackle'
import { ROUNDING_M, roundedDiameter } from '../leader'
import { define, sourceOf } from './limits'

const BUTTS = 'two thirds of the line tip, 60 to 75 %; about half fails (common practice)'
const LIMITS = {
  buttRatioLow: define('ratio', 0.6, BUTTS, {
    'slack-line-dry': 0.45,
    'tight-line-nymph': null,
    'sinking-line': null,
    'still-water': 0.33,
    'salt-water': 0.5,
    'bite-tippet': 0.5,
  }),
  buttRatioHigh: define('ratio', 0.75, BUTTS, {
    'tight-line-nymph': null,
    'sinking-line': null,
    streamer: 0.85,
    'salt-water': 0.9,
    'bite-tippet': 0.95,
  }),
}

const FAILS = 0.5 // about half the line tip fails (common practice)

type ButtAndLine = FindingOf<
  'butt-and-line',
  'thin' | 'stout',
  { ratio: number; massRatio: number; stiffnessRatio: number; line: string },
  { low: number; high: number }
>

/** The butt against the line's tip: too thin it folds at the joint, too stout it outweighs the line. */
export const buttAndLine: Check<ButtAndLine, 'not-for-this-purpose' | 'no-line', typeof LIMITS> = {
  id: 'butt-and-line',
  oneFor: 'leader',
  bounds: [{ measured: 'ratio', atLeast: 'low', atMost: 'high' }],
  limits: LIMITS,
  run: (input) => {
    const { leader, limits } = input
    const [low, high] = [limits.buttRatioLow, limits.buttRatioHigh]
    if (low === null || high === null) return 'not-for-this-purpose'
    if (!leader.outfit.line) return 'no-line'
    const joint = input.pieces[0]?.above
    const ratio = joint?.diameterRatio ?? null
    if (ratio === null || (ratio >= low - 0.005 && ratio <= high + 0.005)) return []
    const thin = ratio < low
    return [
      {
        id: 'butt-and-line',
        variant: thin ? 'thin' : 'stout',
        severity: thin && ratio < Math.min(FAILS, low) ? 'caution' : 'note',
        place: { kind: 'joint', index: 0 },
        measured: {
          ratio,
          massRatio: joint?.massRatio ?? 0,
          stiffnessRatio: joint?.stiffnessRatio ?? 0,
          line: leader.outfit.line.designation,
        },
        limit: { low, high },
        source: sourceOf(LIMITS, thin ? 'buttRatioLow' : 'buttRatioHigh', input),
        remedies: [fit(input, thin ? low : high, thin ? 1 : -1)].filter((r) => r !== undefined),
      },
    ]
  },
}

/** The butt at the near end of what practice takes, rounded inward, and the taper stepped anew below it. */
function fit(
  { leader }: Pick<CheckInput, 'leader'>,
  ratio: number,
  inward: 1 | -1,
): Remedy | undefined {
  const butt = leader.segments[0]
  const line = leader.outfit.line
  if (!butt || !line) return undefined
  const size = lineFigures(line).tipDiameter_m * ratio
  const wanted = roundedDiameter(size + inward * ROUNDING_M, butt.diameter.unit)
  return { id: 'fit-butt', edit: { kind: 'butt', butt: wanted } }
}
