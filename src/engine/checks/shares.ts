import type { Leader } from '../leader'
import type { Check, CheckInput, Finding, Remedy } from './finding'
import type { LimitId } from './limits'
import { shareOf } from '../leader'
import { limitSource } from './limits'

type Share = 'butt' | 'mid' | 'tippet'

const BOUNDS: Readonly<Record<Share, readonly [LimitId, LimitId]>> = {
  butt: ['buttShareLow', 'buttShareHigh'],
  mid: ['midShareLow', 'midShareHigh'],
  tippet: ['tippetShareLow', 'tippetShareHigh'],
}

/** What a piece that gives length must keep, about six inches (common practice). */
const SHORTEST_GIVER_M = 0.15

/** Shares of butt, middle and tippet against what is taught for the declared purpose. */
export const shares: Check = {
  id: 'shares',
  run: (input) => {
    if (input.limits.buttShareLow === null) return 'not-for-this-purpose'
    return (Object.keys(BOUNDS) as Share[]).flatMap((share) => judge(input, share))
  },
}

function judge(input: CheckInput, share: Share): Finding[] {
  const [lowId, highId] = BOUNDS[share]
  const [low, high] = [input.limits[lowId], input.limits[highId]]
  const measured = input.profile.shares[share]
  if (low === null || high === null || (measured >= low - 0.005 && measured <= high + 0.005))
    return []
  const small = measured < low
  return [
    {
      id: 'shares',
      variant: `${share}-${small ? 'small' : 'large'}`,
      severity: 'note',
      place: { kind: 'segment', index: Math.max(0, longestOf(input.leader, share)) },
      measured: { share: measured },
      limit: { low, high },
      source: limitSource(small ? lowId : highId, input.limits, input.leader.purpose),
      remedies: [
        move(input, share, (small ? low - measured : measured - high) + 0.001, small),
      ].filter((r) => r !== undefined),
    },
  ]
}

function longestOf(leader: Leader, share: Share): number {
  return leader.segments.reduce(
    (best, s, i) =>
      shareOf(s.part) === share && s.length.si > (leader.segments[best]?.length.si ?? 0) ? i : best,
    -1,
  )
}

/** Moves what is missing from the largest other share, or what is too much to the smallest one. */
function move(input: CheckInput, share: Share, amount: number, small: boolean): Remedy | undefined {
  const { leader, profile } = input
  const room = (s: Share) => profile.shares[s] - (input.limits[BOUNDS[s][small ? 0 : 1]] ?? 0)
  const others = (Object.keys(BOUNDS) as Share[]).filter(
    (s) => s !== share && longestOf(leader, s) >= 0,
  )
  const partner = others.sort((a, b) => (small ? room(b) - room(a) : room(a) - room(b)))[0]
  const own = longestOf(leader, share)
  if (!partner || own < 0) return undefined
  const other = longestOf(leader, partner)
  const [from, to] = small ? [other, own] : [own, other]
  const amount_m = amount * profile.total_m
  if ((leader.segments[from]?.length.si ?? 0) - amount_m < SHORTEST_GIVER_M) return undefined
  return {
    id: 'move-length',
    figures: { amount_m, from: from + 1, to: to + 1 },
    edit: { kind: 'move-length', from, to, amount_m },
  }
}
