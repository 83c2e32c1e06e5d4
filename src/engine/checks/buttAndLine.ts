import type { Check, CheckInput, Remedy } from './finding'
import { lineFigures } from '../tackle'
import { ROUNDING_M, roundedDiameter } from '../leader'
import { limitSource } from './limits'

const FAILS = 0.5 // about half the line tip fails (common practice)

/** The butt against the line's tip: too thin it folds at the joint, too stout it outweighs the line. */
export const buttAndLine: Check = {
  id: 'butt-and-line',
  run: (input) => {
    const { leader, limits } = input
    const [low, high] = [limits.buttRatioLow, limits.buttRatioHigh]
    if (low === null || high === null) return 'not-for-this-purpose'
    if (!leader.outfit.line) return 'no-line'
    const ratio = input.joints[0]?.diameterRatio ?? null
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
          massRatio: input.joints[0]?.massRatio ?? 0,
          stiffnessRatio: input.joints[0]?.stiffnessRatio ?? 0,
          line: leader.outfit.line.designation,
        },
        limit: { low, high },
        source: limitSource(thin ? 'buttRatioLow' : 'buttRatioHigh', limits, leader.purpose),
        remedies: [fit(input, thin ? low : high, thin ? 1 : -1)].filter((r) => r !== undefined),
      },
    ]
  },
}

/** The butt at the near end of what practice takes, rounded inward. */
function fit({ leader }: CheckInput, ratio: number, inward: 1 | -1): Remedy | undefined {
  const butt = leader.segments[0]
  const line = leader.outfit.line
  if (!butt || !line) return undefined
  const size = lineFigures(line).tipDiameter_m * ratio
  const diameter = roundedDiameter(size + inward * ROUNDING_M, butt.diameter.unit)
  return {
    id: 'set-diameter',
    figures: { diameter_m: diameter.si, piece: 1 },
    edit: { kind: 'diameter', at: 0, diameter },
  }
}
