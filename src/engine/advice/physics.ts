import type { Leader } from '../leader'
import { estimateTurnover } from '../cast'
import { diameter_m, setDiameter, tippetIndex } from '../leader'
import { profileOf } from '../profile'
import { FINEST_X, diameterOfX, quantityOf, xOfDiameter } from '../units'

/** What the estimate says of the finest tippet that still turns this fly over; X sizes, null where none does. */
export interface PhysicsAdvice {
  readonly finestX: number | null
  /** Still within what the estimate may be wrong by; and sure even so. */
  readonly possiblyX: number | null
  readonly surelyX: number | null
  /** Line speed (m/s) that the leader as it is needs, and the caster's. */
  readonly needed_m_s: number
  readonly caster_m_s: number
  /** Share of what the air takes that goes to the fly. */
  readonly flyShare: number
  readonly source: string
}

export const ESTIMATE_SOURCE =
  'energy model of the loop, an estimate within about 30 % and poor for very light and bulky flies (derived)'
const HALF_SIZES = 0.5

/** Tippets of every half size from as stout as the piece above to the finest, estimated one by one. */
export function physicsAdvice(leader: Leader): PhysicsAdvice | 'no-fly' | 'no-line' {
  const now = estimateTurnover(leader, profileOf(leader))
  if (typeof now === 'string') return now
  const at = tippetIndex(leader)
  const above = leader.segments[at - 1] ?? leader.segments[at]
  const stoutest = Math.ceil(xOfDiameter(above ? diameter_m(above) : 0) / HALF_SIZES) * HALF_SIZES
  const count = Math.max(0, Math.floor((FINEST_X - stoutest) / HALF_SIZES) + 1)
  const needs = Array.from({ length: count }, (_, k) => {
    const x = stoutest + k * HALF_SIZES
    return { x, needed: neededWith(leader, at, x) }
  })
  const { lineSpeed_m_s } = now.caster
  const finest = (speed: 'low' | 'value' | 'high') =>
    needs.reduce<number | null>(
      (best, { x, needed }) => (needed && needed[speed] <= lineSpeed_m_s ? x : best),
      null,
    )
  return {
    finestX: finest('value'),
    possiblyX: finest('low'),
    surelyX: finest('high'),
    needed_m_s: now.neededSpeed_m_s.value,
    caster_m_s: lineSpeed_m_s,
    flyShare: now.lossShares.fly,
    source: ESTIMATE_SOURCE,
  }
}

function neededWith(leader: Leader, at: number, x: number) {
  const candidate = setDiameter(leader, at, quantityOf(diameterOfX(x), 'diameter', 'in'))
  const turnover = estimateTurnover(candidate, profileOf(candidate))
  return typeof turnover === 'string' ? undefined : turnover.neededSpeed_m_s
}

/** Line speed (m/s) that a leader needs by the estimate; null where fly or line is missing. */
export function neededSpeed_m_s(leader: Leader): number | null {
  const turnover = estimateTurnover(leader, profileOf(leader))
  return typeof turnover === 'string' ? null : turnover.neededSpeed_m_s.value
}
