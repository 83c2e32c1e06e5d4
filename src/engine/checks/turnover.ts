import type { Turnover } from '../cast'
import type { Check, CheckInput, Remedy } from './finding'
import { diameterOfX, quantityOf, xOfDiameter } from '../units'
import { diameter_m, tippetIndex } from '../leader'
import { SMALLEST_HOOK } from '../tackle'

/** Whether the tip carries the fly round, by the energy model: an estimate until a cast is simulated. */
export const turnover: Check = {
  id: 'turnover',
  run: (input) => {
    const { turnover: t } = input
    if (typeof t === 'string') return t
    // A tight-line rig is lobbed or swung, not looped overhead.
    if (input.leader.purpose === 'tight-line-nymph') return 'not-for-this-purpose'
    if (t.verdict === 'straight') return []
    return [
      {
        id: 'turnover',
        variant: t.verdict,
        severity: isMeantSlack(input, t) || isWithinReach(t) ? 'note' : 'caution',
        place: { kind: 'segment', index: worstSegment(t) },
        measured: {
          needed_m_s: t.neededSpeed_m_s.value,
          flyShare: t.lossShares.fly,
          extension: t.extension,
        },
        limit: { speed_m_s: t.caster.lineSpeed_m_s },
        source: 'energy model of the loop, an estimate within about 30 % (derived)',
        remedies: remedies(input),
      },
    ]
  },
}

/** A slack-line leader is meant to fall short of straight. */
function isMeantSlack({ leader }: CheckInput, { verdict }: Turnover): boolean {
  return (
    leader.purpose === 'teaching' || (leader.purpose === 'slack-line-dry' && verdict === 'lazy')
  )
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

function remedies(input: CheckInput): Remedy[] {
  return [shorterTippet(input), stouterTippet(input), smallerFly(input)].filter(
    (r) => r !== undefined,
  )
}

function shorterTippet({ leader, limits }: CheckInput): Remedy | undefined {
  const at = tippetIndex(leader)
  const tippet = leader.segments[at]
  const shortest = limits.tippetShortest ?? 0.3
  if (!tippet || tippet.length.si < shortest * 1.1) return undefined
  const length = quantityOf(
    Math.max(shortest, tippet.length.si * 0.75),
    'length',
    tippet.length.unit,
  )
  return { id: 'shorten', figures: { length_m: length.si }, edit: { kind: 'length', at, length } }
}

function stouterTippet({ leader }: CheckInput): Remedy | undefined {
  const at = tippetIndex(leader)
  const tippet = leader.segments[at]
  const butt = leader.segments[0]
  if (!tippet || !butt) return undefined
  const x = Math.round(xOfDiameter(diameter_m(tippet))) - 1
  const size = diameterOfX(x)
  if (size >= diameter_m(butt) * 0.8) return undefined
  const diameter = quantityOf(size, 'diameter', tippet.diameter.unit)
  return {
    id: 'restep',
    figures: { diameter_m: diameter.si },
    edit: { kind: 'restep', tippet: diameter },
  }
}

function smallerFly({ leader }: CheckInput): Remedy | undefined {
  const fly = leader.tip.fly?.fly
  if (!fly || fly.hook + 2 > SMALLEST_HOOK) return undefined
  return {
    id: 'smaller-fly',
    figures: { hook: fly.hook + 2 },
    edit: { kind: 'hook', hook: fly.hook + 2 },
  }
}
