import type { Knot, KnotId } from '../materials'
import type { JointProfile } from '../profile'
import type { Check, CheckInput, FindingOf } from './finding'
import { knot, knotsFor, seatingFault } from '../materials'
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
  const objection = misplaced(k, joint) ?? badFit(k, strandsAt(input, joint))
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

function badFit(k: Knot, strands: readonly number[]): Objection | undefined {
  const [thin, stout] = [Math.min(...strands), Math.max(...strands)]
  const found = strands.length === 2 ? seatingFault(k, thin, stout) : undefined
  if (!found) return undefined
  const { source, value } = found.rule
  const measured = { knot: k.id, step_m: stout - thin, reduction: 1 - thin / stout }
  switch (found.fault) {
    case 'reduction':
      return {
        variant: 'reduction',
        severity: 'caution',
        measured,
        limit: { reduction: value },
        source,
      }
    case 'step':
      return { variant: 'step', severity: 'note', measured, limit: { step_m: value }, source }
    case 'fine':
      return {
        variant: 'fine',
        severity: 'note',
        measured: { knot: k.id, diameter_m: thin },
        limit: { diameter_m: value },
        source,
      }
  }
}

/** Diameters (m) of the pieces on either side of a joint. */
function strandsAt({ pieces }: CheckInput, { index }: JointProfile): number[] {
  const pair = pieces.slice(Math.max(0, index - 1), index + 1)
  return pair.map(({ profile }) => profile.diameter_m)
}

/** The knot that serves: three passes, an Albright on very unequal strands, a loop or a clinch at the ends. */
function substitute({ place, diameterRatio }: JointProfile): KnotId {
  if (place === 'line') return 'loop-to-loop'
  if (place === 'fly') return 'improved-clinch'
  return diameterRatio !== null && Math.min(diameterRatio, 1 / diameterRatio) < VERY_UNEQUAL
    ? 'albright'
    : 'surgeons-triple'
}
