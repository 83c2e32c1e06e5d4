import type { JointProfile } from '../profile'
import type { Check, CheckInput, FindingOf, Remedy } from './finding'
import type { StepPlace } from '../leader'
import { quantityOf } from '../units'
import { STEP_RATIOS, STEP_SIZE, diameter_m, ONE_SIZE, roundedDiameter, stepPlace } from '../leader'
import { knot } from '../materials'
import { SHORTEST_PIECE, define, sourceOf } from './limits'

const RATIOS =
  'estimate, our reading: stiffness falls with the fourth power of diameter; rules by thousandths (.002 in; 35 % thinner) from Borger, 2009 article, and common practice'
const ofPlace = ({ usual, byPurpose }: (typeof STEP_RATIOS)[StepPlace]) =>
  define('ratio', usual, RATIOS, byPurpose)
const LIMITS = {
  stepRatioButt: ofPlace(STEP_RATIOS.butt),
  stepRatioMiddle: ofPlace(STEP_RATIOS.middle),
  stepRatioTip: ofPlace(STEP_RATIOS.tip),
  stepRatioStrong: define('ratio', 0.65, RATIOS, {
    streamer: 0.55,
    'salt-water': 0.55,
    'sinking-line': 0.45,
    'bite-tippet': 0.55,
    'tight-line-nymph': 0.45,
  }),
  stepSize: define(
    'diameter',
    STEP_SIZE.usual,
    '.002 in (Borger, 2009 article) to .004 in tolerated (common practice)',
    STEP_SIZE.byPurpose,
  ),
  shortestPiece: SHORTEST_PIECE,
}

const LIMIT_AT = {
  butt: 'stepRatioButt',
  middle: 'stepRatioMiddle',
  tip: 'stepRatioTip',
} as const satisfies Record<StepPlace, keyof typeof LIMITS>

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
    diameterRatio > ONE_SIZE
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
  const [above, below] = [leader.segments[index - 1], leader.segments[index]]
  return above && below ? LIMIT_AT[stepPlace(above, below)] : 'stepRatioMiddle'
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
