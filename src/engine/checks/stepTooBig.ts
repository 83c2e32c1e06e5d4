import type { JointProfile } from '../profile'
import type { Check, CheckInput, FindingOf, Remedy } from './finding'
import { THOU_M, quantityOf } from '../units'
import { diameter_m, roundedDiameter } from '../leader'
import { knot } from '../materials'
import { SHORTEST_PIECE, define, sourceOf } from './limits'

const RATIOS =
  'estimate, our reading: stiffness falls with the fourth power of diameter; rules by thousandths (.002 in; 35 % thinner) from Borger, 2009 article, and common practice'
const LIMITS = {
  stepRatioButt: define('ratio', 0.83, RATIOS, {
    streamer: 0.7,
    'salt-water': 0.7,
    'sinking-line': 0.5,
    'bite-tippet': 0.7,
    'tight-line-nymph': 0.5,
  }),
  stepRatioMiddle: define('ratio', 0.76, RATIOS, {
    streamer: 0.65,
    'salt-water': 0.65,
    'sinking-line': 0.5,
    'bite-tippet': 0.65,
    'tight-line-nymph': 0.5,
  }),
  stepRatioTip: define('ratio', 0.7, RATIOS, {
    streamer: 0.6,
    'salt-water': 0.6,
    'sinking-line': 0.5,
    'bite-tippet': 0.6,
    'tight-line-nymph': 0.5,
  }),
  stepRatioStrong: define('ratio', 0.65, RATIOS, {
    streamer: 0.55,
    'salt-water': 0.55,
    'sinking-line': 0.45,
    'bite-tippet': 0.55,
    'tight-line-nymph': 0.45,
  }),
  stepSize: define(
    'diameter',
    4 * THOU_M,
    '.002 in (Borger, 2009 article) to .004 in tolerated (common practice)',
    {
      streamer: 8 * THOU_M,
      'salt-water': 8 * THOU_M,
      'sinking-line': null,
      'bite-tippet': 8 * THOU_M,
      'tight-line-nymph': null,
    },
  ),
  shortestPiece: SHORTEST_PIECE,
}

const SAME = 0.98 // spools of one size differ by 2 to 3 %, estimate

type LimitId = keyof typeof LIMITS
type Input = CheckInput<LimitId>
type StepTooBig = FindingOf<
  'step-too-big',
  'ratio' | 'size',
  { ratio: number; step_m: number; stiffnessRatio: number },
  { ratio?: number; step_m?: number }
>

/** Steps down that lose more diameter than their place in the leader allows, by ratio and by thousandths. */
export const stepTooBig: Check<StepTooBig, never, typeof LIMITS> = {
  id: 'step-too-big',
  oneFor: 'place',
  bounds: [
    { measured: 'ratio', atLeast: 'ratio' },
    { measured: 'step_m', atMost: 'step_m' },
  ],
  limits: LIMITS,
  run: (input) => input.pieces.flatMap(({ above }) => judge(input, above)),
}

function judge(input: Input, joint: JointProfile): StepTooBig[] {
  const { diameterRatio, step_m, stiffnessRatio } = joint
  if (
    joint.place !== 'between' ||
    diameterRatio === null ||
    step_m === null ||
    diameterRatio >= SAME
  )
    return []
  if (isBetweenOutfitParts(input, joint.index)) return []
  const id = limitIdFor(input, joint.index)
  const limit = input.limits[id]
  const largest = input.limits.stepSize
  const overRatio = limit !== null && diameterRatio < limit - 1e-6
  const overSize = largest !== null && step_m > largest * 1.001
  if (!overRatio && !overSize) return []
  const strong = diameterRatio < (input.limits.stepRatioStrong ?? 0) - 1e-6
  return [
    {
      id: 'step-too-big',
      variant: overRatio ? 'ratio' : 'size',
      severity: strong ? 'caution' : 'note',
      place: { kind: 'joint', index: joint.index },
      measured: { ratio: diameterRatio, step_m, stiffnessRatio: stiffnessRatio ?? 0 },
      limit: {
        ...(limit === null ? {} : { ratio: limit }),
        ...(largest === null ? {} : { step_m: largest }),
      },
      source: sourceOf(LIMITS, overRatio ? id : 'stepSize', input),
      remedies: [insertBetween(input, joint.index)].filter((r) => r !== undefined),
    },
  ]
}

/** A step from or to a sighter or a bite piece is there for another reason than the taper. */
function isBetweenOutfitParts({ leader }: Input, index: number): boolean {
  const parts = [leader.segments[index - 1]?.part, leader.segments[index]?.part]
  return parts.some((part) => part === 'sighter' || part === 'bite' || part === 'shock')
}

function limitIdFor({ leader }: Input, index: number): LimitId {
  if (leader.segments[index - 1]?.part === 'butt') return 'stepRatioButt'
  return leader.segments[index]?.part === 'tippet' ? 'stepRatioTip' : 'stepRatioMiddle'
}

/**
 * The in-between piece of the middle diameter; the longer neighbour gives its length where it can spare
 * it, so that the total stays.
 */
function insertBetween({ leader, limits }: Input, index: number): Remedy | undefined {
  const [above, below] = [leader.segments[index - 1], leader.segments[index]]
  if (!above || !below) return undefined
  const size = Math.sqrt(diameter_m(above) * diameter_m(below))
  const diameter = roundedDiameter(size, below.diameter.unit)
  const length = quantityOf(limits.shortestPiece ?? 0, 'length', below.length.unit)
  if (diameter.si >= diameter_m(above) || diameter.si <= diameter_m(below)) return undefined
  return {
    id: 'insert-between',
    edit: {
      kind: 'insert',
      at: index,
      ...giver(above.length.si, below.length.si, length.si, index),
      segment: {
        part: below.part === 'tippet' ? 'mid-section' : below.part,
        material: above.material,
        diameter,
        length,
        joint: { knot: knot('blood').id },
        attachments: [],
      },
    },
  }
}

/** A piece gives length only if it stays three times as long as what it gives, estimate. */
function giver(above_m: number, below_m: number, given_m: number, index: number) {
  const from = above_m >= below_m ? index - 1 : index
  return Math.max(above_m, below_m) >= 4 * given_m ? { from } : {}
}
