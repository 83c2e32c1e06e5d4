import type { Change, Candidate, Target } from './adapt'
import type { BiteAdvice } from './bite'
import type { Brief } from './brief'
import type { LengthAdvice } from './length'
import type { MaterialAdvice } from './material'
import type { PhysicsAdvice } from './physics'
import type { Reason } from './reason'
import type { StrengthAdvice } from './strength'
import type { TippetAdvice } from './tippet'
import type { FlyChoice, Leader, Purpose } from '../leader'
import { adapt, nearest } from './adapt'
import { biteAdvice } from './bite'
import { purposeFor } from './brief'
import { lengthAdvice } from './length'
import { materialAdvice } from './material'
import { neededSpeed_m_s, physicsAdvice } from './physics'
import { ESTIMATE_SOURCE } from './physics'
import { reason } from './reason'
import { strengthAdvice } from './strength'
import { tippetAdvice } from './tippet'

/** Everything a brief leads to. */
export interface Advice {
  readonly purpose: Purpose
  readonly tippet: TippetAdvice
  /** The tippet of the leader, with what physics had to say; its reasons are among the tippet's. */
  readonly tippetX: number
  readonly strength: StrengthAdvice
  readonly length: LengthAdvice
  readonly material: MaterialAdvice
  /** Against teeth; undefined where there are none. */
  readonly bite: BiteAdvice | undefined
  readonly physics: PhysicsAdvice | 'no-fly' | 'no-line'
  readonly reasons: readonly Reason[]
  /** The leader and where it comes from; null where there is no formula to start from. */
  readonly made: Made | null
}

export interface Made {
  readonly from: Candidate
  readonly leader: Leader
  readonly changes: readonly Change[]
  readonly costs: Costs
}

/** Line speed (m/s) that this leader needs, and one of plain length and tippet, for the same fly. */
export interface Costs {
  readonly needed_m_s: number | null
  readonly plain_m_s: number | null
  readonly plainLength_m: number
  readonly plainX: number
  /** Of the plain leader when only its length is that of the advice. */
  readonly lengthOnly_m_s: number | null
}

export interface AdviseOptions {
  readonly candidates: readonly Candidate[]
  readonly name: string
  /** The fly with what was typed of it. */
  readonly choice?: FlyChoice
  /** What simulated casts of the leader made without it said; taken in place of the estimate. */
  readonly reach?: TippetReach | undefined
}

/** Finest tippet (X size) that a simulated cast still turns over; null where none does. */
export interface TippetReach {
  readonly finestX: number | null
}

/** From a brief to a tippet, a length, a material and a leader, weighed in this order: fly, fish's eye, fish's strength. */
export function advise(brief: Brief, options: AdviseOptions): Advice {
  const { candidates, name, choice, reach } = options
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
  if (!from)
    return { ...common, tippetX: tippet.recommendedX, physics: 'no-line', reasons: [], made: null }
  const first = adapt(from.leader, target)
  const physics = physicsAdvice(first.leader)
  const said = reach ? weighFlown(tippet, reach) : weighPhysics(tippet, physics)
  const last =
    said.x === target.tippetX ? first : adapt(from.leader, { ...target, tippetX: said.x })
  return {
    ...common,
    tippetX: said.x,
    physics,
    reasons: [said.reason],
    made: { from, ...last, costs: costsOf(from, last.leader, target, tippet, length) },
  }
}

/**
 * Where the estimate leaves no hope for the recommended tippet, the stouter end of practice is taken; never
 * beyond it, since the estimate is the less certain of the two.
 */
function weighPhysics(tippet: TippetAdvice, physics: PhysicsAdvice | 'no-fly' | 'no-line') {
  const x = tippet.recommendedX
  if (typeof physics === 'string')
    return { x, reason: reason('turnover-not-computed', {}, ESTIMATE_SOURCE) }
  const { finestX, possiblyX, needed_m_s, caster_m_s, flyShare } = physics
  const figures = { needed_m_s, caster_m_s }
  if (finestX !== null && finestX >= x)
    return { x, reason: reason('turnover-agrees', { finestX }, ESTIMATE_SOURCE) }
  if (possiblyX === null)
    return {
      x: Math.min(x, tippet.interval.stoutX),
      reason: reason('turnover-never', figures, ESTIMATE_SOURCE),
    }
  const stouter = possiblyX >= x ? x : Math.max(tippet.interval.stoutX, Math.floor(possiblyX))
  const to = Math.min(x, stouter)
  return {
    x: to,
    reason: reason('turnover-stouter', { ...figures, x, toX: to, flyShare }, ESTIMATE_SOURCE),
  }
}

const FLOWN_SOURCE =
  'chain simulation of the standard cast: rankings are safe, speeds within about 30 %, and a fly’s drag is known within a factor of two'

/** The same from simulated casts. */
function weighFlown(tippet: TippetAdvice, { finestX }: TippetReach) {
  const x = tippet.recommendedX
  const stoutest = Math.min(x, tippet.interval.stoutX)
  if (finestX === null) return { x: stoutest, reason: reason('flown-never', {}, FLOWN_SOURCE) }
  if (finestX >= x) return { x, reason: reason('flown-agrees', { finestX }, FLOWN_SOURCE) }
  const toX = Math.max(stoutest, Math.floor(finestX))
  return { x: toX, reason: reason('flown-stouter', { x, finestX, toX }, FLOWN_SOURCE) }
}

function costsOf(
  from: Candidate,
  leader: Leader,
  target: Target,
  { rule, interval }: TippetAdvice,
  { plain_m }: LengthAdvice,
): Costs {
  const middle = rule ?? interval
  const plainX = Math.round((middle.stoutX + middle.fineX) / 2)
  const plain = { ...target, length_m: plain_m, tippetX: plainX }
  const needed = (t: Target) => neededSpeed_m_s(adapt(from.leader, t).leader)
  return {
    needed_m_s: neededSpeed_m_s(leader),
    plain_m_s: needed(plain),
    plainLength_m: plain_m,
    plainX,
    lengthOnly_m_s: needed({ ...plain, length_m: target.length_m }),
  }
}
