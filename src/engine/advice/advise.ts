import type { Candidate, Target } from './adapt'
import type { BiteAdvice } from './bite'
import type { Brief } from './brief'
import type { LengthAdvice } from './length'
import type { MaterialAdvice } from './material'
import type { StrengthAdvice } from './strength'
import type { TippetAdvice } from './tippet'
import type { Made } from './tries'
import type { FlyChoice, Leader, Purpose } from '../leader'
import { nearest } from './adapt'
import { biteAdvice } from './bite'
import { purposeFor } from './brief'
import { lengthAdvice } from './length'
import { materialAdvice } from './material'
import { strengthAdvice } from './strength'
import { tippetAdvice } from './tippet'
import { madeOf, triesFor } from './tries'

/** Everything a brief leads to by the rules of practice; which of the tries is taken is seen by throwing them. */
export interface Advice {
  readonly purpose: Purpose
  readonly tippet: TippetAdvice
  readonly strength: StrengthAdvice
  readonly length: LengthAdvice
  readonly material: MaterialAdvice
  /** Against teeth; undefined where there are none. */
  readonly bite: BiteAdvice | undefined
  /** The leader by the rules, then what practice allows beside it; none where there is no formula to start from. */
  readonly tries: readonly Made[]
  /** A plain leader for the same fly, to see what length and tippet cost. */
  readonly plain: Plain | null
}

/** A leader of plain length and tippet. */
export interface Plain {
  readonly leader: Leader
  readonly length_m: number
  readonly x: number
}

export interface AdviseOptions {
  readonly candidates: readonly Candidate[]
  readonly name: string
  /** The fly with what was typed of it. */
  readonly choice?: FlyChoice
}

/** From a brief to a tippet, a length, a material and a leader, weighed in this order: fly, fish's eye, fish's strength. */
export function advise(brief: Brief, options: AdviseOptions): Advice {
  const { candidates, name, choice } = options
  const material = materialAdvice(brief)
  const strength = strengthAdvice(brief, material.material)
  const tippet = tippetAdvice(brief, strength)
  const length = lengthAdvice(brief)
  const purpose = purposeFor(brief)
  const bite = biteAdvice(brief)
  const target: Target = {
    name,
    purpose,
    length_m: length.length_m,
    tippetX: tippet.recommendedX,
    tippet_m: length.tippet_m,
    material: material.material,
    bite,
    outfit: brief.outfit,
    conditions: brief.conditions,
    fly: choice ?? { fly: brief.fly },
  }
  const from = nearest(candidates, target)
  const common = { purpose, tippet, strength, length, material, bite }
  if (!from) return { ...common, tries: [], plain: null }
  const tries = triesFor(from, target, tippet, length)
  return { ...common, tries, plain: plainOf(from, target, tippet, length) }
}

function plainOf(
  from: Candidate,
  target: Target,
  { rule, interval }: TippetAdvice,
  { plain_m }: LengthAdvice,
): Plain {
  const middle = rule ?? interval
  const x = Math.round((middle.stoutX + middle.fineX) / 2)
  const { leader } = madeOf(from, { ...target, length_m: plain_m, tippetX: x })
  return { leader, length_m: plain_m, x }
}
