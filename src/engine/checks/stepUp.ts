import type { JointProfile } from '../profile'
import type { Check, CheckInput, FindingOf } from './finding'

const SAME = 1.03 // spools of one size differ by about 3 %, estimate

const MANY = 3 // from here on it is the leader that is the wrong way round, not its joints, estimate

type Up = FindingOf<'step-up', 'up', { ratio: number; step_m: number }, { ratio: number }>
type Reversed = FindingOf<
  'step-up',
  'reversed',
  { joints: number; from_m: number; to_m: number },
  { joints: number }
>

/** Thin to thick on the way to the fly, except into a bite or shock piece or at a sighter. */
export const stepUp: Check<Up | Reversed> = {
  id: 'step-up',
  oneFor: 'place',
  bounds: [{ measured: 'ratio', atMost: 'ratio' }],
  limits: {},
  run: (input) => {
    const ups = input.pieces.flatMap(({ above }) => judge(input, above))
    return ups.length >= MANY && ups.length > stepsDown(input) ? [reversed(input, ups)] : ups
  },
}

function judge({ leader }: CheckInput, joint: JointProfile): Up[] {
  const [above, below] = [leader.segments[joint.index - 1], leader.segments[joint.index]]
  if (!above || !below || joint.diameterRatio === null || joint.diameterRatio <= SAME) return []
  if (isMeant(above.part, below.part)) return []
  return [
    {
      id: 'step-up',
      variant: 'up',
      severity:
        leader.purpose === 'teaching' || leader.purpose === 'tight-line-nymph' ? 'note' : 'caution',
      place: { kind: 'joint', index: joint.index },
      measured: { ratio: joint.diameterRatio, step_m: joint.step_m ?? 0 },
      limit: { ratio: 1 },
      source: 'a taper thins towards the fly (common practice)',
      remedies: [
        {
          id: 'match-above',
          edit: { kind: 'diameter', at: joint.index, diameter: above.measured ?? above.diameter },
        },
      ],
    },
  ]
}

function isMeant(above: string, below: string): boolean {
  return below === 'bite' || below === 'shock' || above === 'sighter' || below === 'sighter'
}

function stepsDown({ pieces }: CheckInput): number {
  return pieces.filter(({ above: { place, diameterRatio } }) => {
    return place === 'between' && (diameterRatio ?? 1) < 1 / SAME
  }).length
}

/** One finding for a leader that runs the wrong way, with the mend that turns it round. */
function reversed({ pieces }: CheckInput, ups: readonly Up[]): Reversed {
  const [first, last] = [pieces[0]?.profile, pieces.at(-1)?.profile]
  return {
    id: 'step-up',
    variant: 'reversed',
    severity: ups.some((f) => f.severity === 'caution') ? 'caution' : 'note',
    place: { kind: 'leader', index: 0 },
    measured: { joints: ups.length, from_m: first?.diameter_m ?? 0, to_m: last?.diameter_m ?? 0 },
    limit: { joints: 0 },
    source: 'a taper thins towards the fly (common practice)',
    remedies: [{ id: 'turn-round', edit: { kind: 'turn-round' } }],
  }
}
