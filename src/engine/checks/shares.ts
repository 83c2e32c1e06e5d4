import type { Leader, Segment } from '../leader'
import type { Check, CheckInput, FindingOf, Remedy } from './finding'
import { SHORTEST_PIECE_M, isShock, shareOf } from '../leader'
import { define, sourceOf } from './limits'

const SOURCE = 'from 60/20/20 to halves and thirds (common practice)'
const LIMITS = {
  buttShareLow: define('share', 0.33, SOURCE, {
    'slack-line-dry': 0.12,
    'tight-line-nymph': null,
    'sinking-line': null,
    'still-water': 0.25,
  }),
  buttShareHigh: define('share', 0.66, SOURCE, {
    'slack-line-dry': 0.45,
    'tight-line-nymph': null,
    'sinking-line': null,
    streamer: 0.75,
    'salt-water': 0.75,
    'bite-tippet': 0.75,
  }),
  midShareLow: define('share', 0.1, SOURCE, {
    'slack-line-dry': 0.2,
    'tight-line-nymph': null,
    'sinking-line': null,
    streamer: 0,
    'bite-tippet': 0,
  }),
  midShareHigh: define('share', 0.45, SOURCE, {
    'slack-line-dry': 0.7,
    nymph: 0.55,
    'tight-line-nymph': null,
    'sinking-line': null,
  }),
  tippetShareLow: define('share', 0.13, SOURCE, {
    'slack-line-dry': 0.16,
    nymph: 0.06,
    'tight-line-nymph': null,
    'sinking-line': null,
    streamer: 0.08,
    'salt-water': 0.1,
  }),
  tippetShareHigh: define('share', 0.36, SOURCE, {
    'slack-line-dry': 0.45,
    'tight-line-nymph': null,
    'sinking-line': null,
    'still-water': 0.45,
    'bite-tippet': 0.5,
  }),
}

type Share = 'butt' | 'mid' | 'tippet'
type LimitId = keyof typeof LIMITS
type Input = CheckInput<LimitId>
type Shares = FindingOf<
  'shares',
  `${Share}-${'small' | 'large'}`,
  { share: number },
  { low: number; high: number }
>

const BOUNDS: Readonly<Record<Share, readonly [LimitId, LimitId]>> = {
  butt: ['buttShareLow', 'buttShareHigh'],
  mid: ['midShareLow', 'midShareHigh'],
  tippet: ['tippetShareLow', 'tippetShareHigh'],
}

/** Shares of butt, middle and tippet against what is taught for the declared purpose. */
export const shares: Check<Shares, 'not-for-this-purpose', typeof LIMITS> = {
  id: 'shares',
  oneFor: 'place',
  bounds: [{ measured: 'share', atLeast: 'low', atMost: 'high' }],
  limits: LIMITS,
  run: (input) => {
    if (input.limits.buttShareLow === null) return 'not-for-this-purpose'
    return (Object.keys(BOUNDS) as Share[]).flatMap((share) => judge(input, share))
  },
}

function judge(input: Input, share: Share): Shares[] {
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
      source: sourceOf(LIMITS, small ? lowId : highId, input),
      remedies: [
        move(input, share, (small ? low - measured : measured - high) + 0.001, small),
      ].filter((r) => r !== undefined),
    },
  ]
}

/** A bite or shock piece counts in the tippet's share, but its length is for teeth and records to say. */
function longestOf({ segments }: Leader, share: Share): number {
  const counts = (s: Segment) => shareOf(s.part) === share && !isShock(s)
  return segments.reduce(
    (best, s, i) => (counts(s) && s.length.si > (segments[best]?.length.si ?? 0) ? i : best),
    -1,
  )
}

/** Moves what is missing from the largest other share, or what is too much to the smallest one. */
function move(input: Input, share: Share, amount: number, small: boolean): Remedy | undefined {
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
  if ((leader.segments[from]?.length.si ?? 0) - amount_m < SHORTEST_PIECE_M) return undefined
  return {
    id: 'move-length',
    edit: { kind: 'move-length', from, to, amount_m },
  }
}
