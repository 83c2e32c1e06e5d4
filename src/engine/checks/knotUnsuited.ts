import type { Knot, KnotId } from '../materials'
import type { JointProfile } from '../profile'
import type { Check, CheckInput, FindingOf } from './finding'
import { knot, knotsFor } from '../materials'
import { jointsIn } from '../pieces'

type Id = 'knot-unsuited'
type KnotUnsuited =
  | FindingOf<Id, `not-at-${JointProfile['place']}`, { knot: KnotId }, { knots: string }>
  | FindingOf<
      Id,
      'reduction',
      { knot: KnotId; step_m: number; reduction: number },
      { reduction: number }
    >
  | FindingOf<Id, 'step', { knot: KnotId; step_m: number; reduction: number }, { step_m: number }>
  | FindingOf<Id, 'fine', { knot: KnotId; diameter_m: number }, { diameter_m: number }>

type OmitEach<T, K extends PropertyKey> = T extends unknown ? Omit<T, K> : never
type Objection = OmitEach<KnotUnsuited, 'id' | 'place' | 'remedies'>

const SMALL_REDUCTION = 0.25 // a blood knot seats on it whatever the size, estimate
/** Slack on a knot's largest step: .004 in passes where .003 in is the rule, as it is tolerated (common practice). */
const STEP_SLACK = 1.34
const VERY_UNEQUAL = 0.5 // below this ratio an Albright holds better than a surgeon's (common practice; estimate)

/** A knot that belongs elsewhere, or that does not seat on the diameters it joins. */
export const knotUnsuited: Check<KnotUnsuited> = {
  id: 'knot-unsuited',
  oneFor: 'place',
  bounds: [],
  limits: {},
  run: (input) => jointsIn(input).flatMap((joint) => judge(input, joint)),
}

function judge(input: CheckInput, joint: JointProfile): KnotUnsuited[] {
  const k = knot(joint.joint.knot)
  const objection = misplaced(k, joint) ?? badFit(k, joint, () => thinner_m(input, joint))
  if (!objection) return []
  return [
    {
      id: 'knot-unsuited',
      ...objection,
      place: { kind: 'joint', index: joint.index },
      remedies: [
        {
          id: 'change-knot',
          edit: { kind: 'knot', at: joint.index, knot: substitute(joint) },
        },
      ],
    },
  ]
}

function misplaced(k: Knot, joint: JointProfile): Objection | undefined {
  if (k.places.includes(joint.place)) return undefined
  return {
    variant: `not-at-${joint.place}`,
    severity: 'fault',
    measured: { knot: k.id },
    limit: {
      knots: knotsFor(joint.place)
        .map((other) => other.name)
        .join(', '),
    },
    source: 'what each knot joins (common practice)',
  }
}

function badFit(
  k: Knot,
  { step_m, diameterRatio }: JointProfile,
  thinnerOf: () => number,
): Objection | undefined {
  if (step_m === null || diameterRatio === null) return undefined
  const step = Math.abs(step_m)
  const reduction = 1 - Math.min(diameterRatio, 1 / diameterRatio)
  const measured = { knot: k.id, step_m: step, reduction }
  if (k.largestReduction && reduction > k.largestReduction.value + 1e-6) {
    const limit = { reduction: k.largestReduction.value }
    return {
      variant: 'reduction',
      severity: 'caution',
      measured,
      limit,
      source: k.largestReduction.source,
    }
  }
  // Thousandths are a rule for trout leaders: a stout strand takes a larger step at the same share.
  if (k.largestStep && step > k.largestStep.value * STEP_SLACK && reduction > SMALL_REDUCTION) {
    const limit = { step_m: k.largestStep.value }
    return { variant: 'step', severity: 'note', measured, limit, source: k.largestStep.source }
  }
  const thinner = k.smallestDiameter ? thinnerOf() : Infinity
  if (k.smallestDiameter && thinner < k.smallestDiameter.value) {
    const limit = { diameter_m: k.smallestDiameter.value }
    return {
      variant: 'fine',
      severity: 'note',
      measured: { knot: k.id, diameter_m: thinner },
      limit,
      source: k.smallestDiameter.source,
    }
  }
  return undefined
}

function thinner_m({ pieces }: CheckInput, { index }: JointProfile): number {
  const pair = pieces.slice(Math.max(0, index - 1), index + 1)
  return Math.min(...pair.map(({ profile }) => profile.diameter_m))
}

/** The knot that serves: three passes, an Albright on very unequal strands, a loop or a clinch at the ends. */
function substitute({ place, diameterRatio }: JointProfile): KnotId {
  if (place === 'line') return 'loop-to-loop'
  if (place === 'fly') return 'improved-clinch'
  return diameterRatio !== null && Math.min(diameterRatio, 1 / diameterRatio) < VERY_UNEQUAL
    ? 'albright'
    : 'surgeons-triple'
}
