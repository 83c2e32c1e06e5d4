import type { JointProfile } from '../profile'
import type { Check, CheckInput, Finding, Remedy } from './finding'
import type { LimitId } from './limits'
import { quantityOf } from '../units'
import { diameter_m, roundedDiameter } from '../leader'
import { knot } from '../materials'
import { limitSource } from './limits'

const SAME = 0.98 // spools of one size differ by 2 to 3 %, estimate
const INSERTED_M = 0.15 // about six inches (common practice), where no shortest piece is set

/** Steps down that lose more diameter than their place in the leader allows, by ratio and by thousandths. */
export const stepTooBig: Check = {
  id: 'step-too-big',
  run: (input) => input.joints.flatMap((joint) => judge(input, joint)),
}

function judge(input: CheckInput, joint: JointProfile): Finding[] {
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
      source: limitSource(overRatio ? id : 'stepSize', input.limits, input.leader.purpose),
      remedies: [insertBetween(input, joint.index)].filter((r) => r !== undefined),
    },
  ]
}

/** A step from or to a sighter or a bite piece is there for another reason than the taper. */
function isBetweenOutfitParts({ leader }: CheckInput, index: number): boolean {
  const parts = [leader.segments[index - 1]?.part, leader.segments[index]?.part]
  return parts.some((part) => part === 'sighter' || part === 'bite' || part === 'shock')
}

function limitIdFor({ leader }: CheckInput, index: number): LimitId {
  if (leader.segments[index - 1]?.part === 'butt') return 'stepRatioButt'
  return leader.segments[index]?.part === 'tippet' ? 'stepRatioTip' : 'stepRatioMiddle'
}

/**
 * The in-between piece of the middle diameter; the longer neighbour gives its length where it can spare
 * it, so that the total stays.
 */
function insertBetween({ leader, limits }: CheckInput, index: number): Remedy | undefined {
  const [above, below] = [leader.segments[index - 1], leader.segments[index]]
  if (!above || !below) return undefined
  const size = Math.sqrt(diameter_m(above) * diameter_m(below))
  const diameter = roundedDiameter(size, below.diameter.unit)
  const length = quantityOf(limits.shortestPiece ?? INSERTED_M, 'length', below.length.unit)
  if (diameter.si >= diameter_m(above) || diameter.si <= diameter_m(below)) return undefined
  return {
    id: 'insert-between',
    figures: { diameter_m: diameter.si, length_m: length.si },
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
