import type { Turnover } from '../cast'
import { SPEED_BAND, verdictOf } from '../cast'
import type { Leader, Segment } from '../leader'
import type { Check, CheckInput, FindingOf, Remedy, Simulation } from './finding'
import { diameterOfX, quantityOf, xOfDiameter } from '../units'
import { diameter_m, tippetIndex } from '../leader'
import { SMALLEST_HOOK } from '../tackle'
import { TIPPET_LIMITS } from './tippetLength'

const { tippetShortest } = TIPPET_LIMITS
const LIMITS = { tippetShortest }
type Limits = CheckInput<keyof typeof LIMITS>['limits']

type Failing = Exclude<Turnover['verdict'], 'straight'>
type TurnoverFinding = FindingOf<
  'turnover',
  Failing | `flown-${Failing}`,
  { needed_m_s: number; flyShare: number; extension: number },
  { speed_m_s: number }
>
type Unchecked = 'no-fly' | 'no-line' | 'not-for-this-purpose'

/** Whether the tip carries the fly round, by the energy model: an estimate until a cast is simulated. */
export const turnover: Check<TurnoverFinding, Unchecked, typeof LIMITS> = {
  id: 'turnover',
  oneFor: 'leader',
  // A turnover that still fails is no cure, however much nearer it is.
  bounds: [],
  limits: LIMITS,
  run: (input) => {
    const { turnover: t } = input
    if (typeof t === 'string') return t
    // A tight-line rig is lobbed or swung, not looped overhead.
    if (input.leader.purpose === 'tight-line-nymph') return 'not-for-this-purpose'
    if (input.simulated) return judgeFlight(input, input.simulated, t)
    if (t.verdict === 'straight') return []
    return [
      {
        id: 'turnover',
        variant: t.verdict,
        severity:
          isMeantSlack(input.leader, t.verdict === 'lazy') || isWithinReach(t) ? 'note' : 'caution',
        place: { kind: 'segment', index: worstSegment(t) },
        measured: {
          needed_m_s: t.neededSpeed_m_s.value,
          flyShare: t.lossShares.fly,
          extension: t.extension,
        },
        limit: { speed_m_s: t.caster.lineSpeed_m_s },
        source: 'energy model of the loop, an estimate within about 30 % (derived)',
        remedies: turnoverCandidates(input.leader, input.limits),
      },
    ]
  },
}

const BEYOND_ANY_ARM_M_S = 41

/** The same finding from a simulated cast, with the remedies that were simulated too. */
function judgeFlight(
  { leader }: CheckInput,
  { turnover: flown, cures }: Simulation,
  estimate: Turnover,
): TurnoverFinding[] {
  const verdict = verdictOf(flown.extension)
  if (verdict === 'straight') return []
  const needed = flown.leastSpeed_m_s ?? BEYOND_ANY_ARM_M_S
  const isLazy = verdict === 'lazy'
  const likely = flown.band
    ? flown.band.probability > UNLIKELY
    : needed * SPEED_BAND.low <= flown.lineSpeed_m_s
  return [
    {
      id: 'turnover',
      variant: `flown-${verdict}`,
      severity: likely || isMeantSlack(leader, isLazy) ? 'note' : 'caution',
      place: { kind: 'segment', index: worstSegment(estimate) },
      measured: {
        needed_m_s: needed,
        flyShare: estimate.lossShares.fly,
        extension: flown.extension,
      },
      limit: { speed_m_s: flown.lineSpeed_m_s },
      source: 'chain simulation of the standard cast: rankings are safe, speeds within about 30 %',
      remedies: cures,
    },
  ]
}

/** Chances below one in five count as unlikely; estimate. */
const UNLIKELY = 0.2

/** A slack-line leader is meant to fall short of straight. */
function isMeantSlack({ purpose }: Leader, isLazy: boolean): boolean {
  return purpose === 'teaching' || (purpose === 'slack-line-dry' && isLazy)
}

/** Within its own uncertainty the estimate may be wrong, so it warns only mildly. */
function isWithinReach({ neededSpeed_m_s, caster }: Turnover): boolean {
  return neededSpeed_m_s.low <= caster.lineSpeed_m_s
}

/** The segment in which the leg loses most of its speed. */
function worstSegment({ segments }: Turnover): number {
  const loss = segments.map((s) => s.flyDrag + s.legDrag + s.loopDrag)
  return loss.indexOf(Math.max(...loss))
}

/** From mild to drastic; of each kind only the mildest that cures is offered. */
export function turnoverCandidates(leader: Leader, limits: Limits): Remedy[] {
  const at = tippetIndex(leader)
  const tippet = leader.segments[at]
  const shortest = limits.tippetShortest ?? 0.3
  return [
    ...(tippet
      ? [0.85, 0.7, 0.55, 0.4].flatMap((share) => shorter(tippet, at, share, shortest))
      : []),
    ...(tippet ? [1, 2].flatMap((sizes) => stouter(tippet, sizes)) : []),
    ...(tippet ? [0.15, 0.3, 0.45].flatMap((share) => movedUp(tippet, at, share, shortest)) : []),
    ...[2, 4].flatMap((sizes) => smallerFly(leader, sizes)),
  ]
}

function shorter(tippet: Segment, at: number, share: number, shortest_m: number): Remedy[] {
  const length = quantityOf(tippet.length.si * share, 'length', tippet.length.unit)
  if (length.si < shortest_m) return []
  return [{ id: 'shorten', edit: { kind: 'length', at, length } }]
}

/** Length from the tippet to the piece above it, the total kept. */
function movedUp(tippet: Segment, at: number, share: number, shortest_m: number): Remedy[] {
  const amount_m = tippet.length.si * share
  if (at < 1 || tippet.length.si - amount_m < shortest_m) return []
  return [
    {
      id: 'move-length',
      edit: { kind: 'move-length', from: at, to: at - 1, amount_m },
    },
  ]
}

function stouter(tippet: Segment, sizes: number): Remedy[] {
  const x = Math.round(xOfDiameter(diameter_m(tippet))) - sizes
  const diameter = quantityOf(diameterOfX(x), 'diameter', tippet.diameter.unit)
  return [
    {
      id: 'restep',
      edit: { kind: 'restep', tippet: diameter },
    },
  ]
}

function smallerFly(leader: Leader, sizes: number): Remedy[] {
  const hook = (leader.tip.fly?.fly.hook ?? SMALLEST_HOOK) + sizes
  return hook > SMALLEST_HOOK ? [] : [{ id: 'smaller-fly', edit: { kind: 'hook', hook } }]
}
