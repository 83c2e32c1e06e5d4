import type { Check, CheckInput, FindingOf, Flown } from './finding'
import type { Delivery } from '../delivery'
import { goesOver, JUST_ENOUGH_ROOM, kicksBack } from '../delivery'

type Failing = 'falls-short' | 'kicks-back' | 'lands-hard' | 'lies-straight' | 'will-not-go-over'
type TurnoverFinding = FindingOf<
  'turnover',
  Failing,
  { room: number; roomRecoilForgiven: number; lay: number; lineSpeed_m_s: number },
  { roomRecoilForgiven: number }
>
type Unchecked = 'no-fly' | 'no-line' | 'not-for-this-purpose' | 'not-flown'

/** Whether this caster gets line, leader and fly over, by deliveries that were flown; nothing is said without. */
export const turnover: Check<TurnoverFinding, Unchecked> = {
  id: 'turnover',
  oneFor: 'leader',
  // A leader that still fails is not mended, however much nearer it is.
  bounds: [],
  limits: {},
  run: ({ leader, flown }) => unasked(leader) ?? (flown ? judge(flown) : 'not-flown'),
}

function unasked({ purpose, tip, outfit }: CheckInput['leader']): Unchecked | undefined {
  // A tight-line rig is lobbed or swung, not looped overhead.
  if (purpose === 'tight-line-nymph') return 'not-for-this-purpose'
  if (!tip.fly) return 'no-fly'
  return outfit.line ? undefined : 'no-line'
}

function judge({ delivery, remedies }: Flown): TurnoverFinding[] {
  const { state, best } = delivery
  if (goesOver(state)) return []
  const { room, roomRecoilForgiven, lay, lineSpeed_m_s } = best
  return [
    {
      id: 'turnover',
      variant: state === 'falls short' ? wayOfFailing(delivery) : 'will-not-go-over',
      severity: state === 'falls short' ? 'caution' : 'fault',
      place: { kind: 'leader', index: 0 },
      measured: { room, roomRecoilForgiven, lay, lineSpeed_m_s },
      limit: { roomRecoilForgiven: JUST_ENOUGH_ROOM },
      source:
        'casts of this leader flown by the model: rankings of leaders are safe, speeds within about 30 %; the limit is an estimate',
      remedies,
    },
  ]
}

function wayOfFailing({ best, greatest_m_s, wanted }: Delivery): Failing {
  if (wanted.by === 'lay' && best.lay > wanted.most) return 'lies-straight'
  if (kicksBack(best, greatest_m_s)) return 'kicks-back'
  return best.touch === 'hard' ? 'lands-hard' : 'falls-short'
}
