import type { Leader } from '../leader'
import type { Brief } from './brief'
import { diameter_m, materialOf, tippetIndex, totalLength_m } from '../leader'
import { strengthOf } from '../strength'
import { THOU_M, diameterOfX } from '../units'
import { briefOf } from './brief'
import { lengthAdvice } from './length'
import { materialAdvice } from './material'
import { withoutRig } from './rig'
import { biteAdvice } from './bite'
import { strengthAdvice } from './strength'
import { tippetAdvice } from './tippet'

interface Judged<What extends string, Figure> {
  readonly what: What
  readonly ok: boolean
  readonly measured: Figure
  readonly low: Figure
  readonly high: Figure
}

/** One thing that the brief asks for, against what the leader has; SI. */
export type Judgement =
  | Judged<'tippet' | 'length' | 'strength', number>
  | Judged<'material', string>
  | Judged<'bite', number>

const SLACK_X_M = 0.6 * THOU_M // half a size and the gauge of the spool, estimate

/** The leader as it stands against the brief it carries; undefined where it carries none. */
export function judgeAgainstBrief(leader: Leader): readonly Judgement[] | undefined {
  // The brief asks for a leader with one fly; a rig beyond it is judged by itself.
  const single = withoutRig(leader)
  const brief = briefOf(single)
  return brief && judge(single, brief)
}

function judge(leader: Leader, brief: Brief): Judgement[] {
  const tippet = leader.segments[tippetIndex(leader)]
  const length = lengthAdvice(brief)
  const total = totalLength_m(leader)
  const ofLength = {
    what: 'length' as const,
    ok: total >= length.low_m && total <= length.high_m,
    measured: total,
    low: length.low_m,
    high: length.high_m,
  }
  if (!tippet) return [ofLength, ...ofBite(leader, brief)]
  const material = materialOf(leader, tippet.material)
  const advised = materialAdvice(brief).material
  const strength = strengthAdvice(brief, material)
  const { interval } = tippetAdvice(brief, strength)
  const [low, high] = [diameterOfX(interval.fineX), diameterOfX(interval.stoutX)]
  const size = diameter_m(tippet)
  const holds = strengthOf(leader).weakest.strength.wet.value
  return [
    {
      what: 'tippet',
      ok: size >= low - SLACK_X_M && size <= high + SLACK_X_M,
      measured: size,
      low,
      high,
    },
    ofLength,
    {
      what: 'material',
      ok:
        material.family === advised.family || (isNylon(material.family) && isNylon(advised.family)),
      measured: material.name,
      low: advised.name,
      high: advised.name,
    },
    {
      what: 'strength',
      ok: holds >= strength.pull.value * 0.9,
      measured: holds,
      low: strength.pull.value,
      high: strength.pull.high,
    },
    ...ofBite(leader, brief),
  ]
}

/** Whether something stands between the tippet and teeth, where there are any. */
function ofBite({ segments }: Leader, brief: Brief): Judgement[] {
  const asked = biteAdvice(brief)
  if (!asked) return []
  const pieces = segments.filter(({ part }) => part === 'bite' || part === 'shock')
  const measured = pieces.reduce((sum, { length }) => sum + length.si, 0)
  const { length_m } = asked
  return [{ what: 'bite', ok: pieces.length > 0, measured, low: length_m, high: length_m }]
}

const isNylon = (family: string) => family === 'nylon' || family === 'copolymer'
