import type { Check, FindingOf } from './finding'
import { INCH_M, quantityOf } from '../units'
import { tippetIndex } from '../leader'
import { define, sourceOf } from './limits'
import { CLASS_TIPPET_M, isForRecords } from './recordRules'

const TIPPETS = 'dry 24 to 36 in, nymph 8 to 12 in, 18 to 36 in in general (common practice)'
export const TIPPET_LIMITS = {
  tippetShortest: define('length', 18 * INCH_M, TIPPETS, {
    nymph: 8 * INCH_M,
    'tight-line-nymph': 24 * INCH_M,
    streamer: 9 * INCH_M,
    'sinking-line': 8 * INCH_M,
    'salt-water': 15 * INCH_M,
    'bite-tippet': 12 * INCH_M,
  }),
  tippetLongest: define('length', 42 * INCH_M, TIPPETS, {
    'slack-line-dry': 54 * INCH_M,
    'tight-line-nymph': 96 * INCH_M,
    'still-water': 72 * INCH_M,
    'sinking-line': 60 * INCH_M,
  }),
}

type TippetLength = FindingOf<
  'tippet-length',
  'short' | 'long',
  { length_m: number },
  { low_m: number; high_m: number }
>
type Unchecked = 'no-tippet' | 'not-for-this-purpose'

/** Length of all tippet pieces together against what is fished for the purpose. */
export const tippetLength: Check<TippetLength, Unchecked, typeof TIPPET_LIMITS> = {
  id: 'tippet-length',
  oneFor: 'leader',
  bounds: [{ measured: 'length_m', atLeast: 'low_m', atMost: 'high_m' }],
  limits: TIPPET_LIMITS,
  run: (input) => {
    const { leader, limits } = input
    const at = tippetIndex(leader)
    const tippet = leader.segments[at]
    if (!tippet) return 'no-tippet'
    const [low, high] = [limits.tippetShortest, limits.tippetLongest]
    if (low === null || high === null) return 'not-for-this-purpose'
    const total_m = leader.segments.reduce(
      (sum, s) => sum + (s.part === 'tippet' ? s.length.si : 0),
      0,
    )
    if (total_m >= low - 0.001 && total_m <= high + 0.001) return []
    const short = total_m < low
    // One rule a place: what is short for a record is said, and mended, by the record's own rule.
    if (short && isForRecords(leader) && low <= CLASS_TIPPET_M) return []
    const length = quantityOf(
      tippet.length.si + (short ? low : high) - total_m,
      'length',
      tippet.length.unit,
    )
    return [
      {
        id: 'tippet-length',
        variant: short ? 'short' : 'long',
        severity: 'note',
        place: { kind: 'segment', index: at },
        measured: { length_m: total_m },
        limit: { low_m: low, high_m: high },
        source: sourceOf(TIPPET_LIMITS, short ? 'tippetShortest' : 'tippetLongest', input),
        remedies:
          length.si > 0.02
            ? [
                {
                  id: short ? 'lengthen' : 'shorten',
                  edit: { kind: 'length', at, length },
                },
              ]
            : [],
      },
    ]
  },
}
