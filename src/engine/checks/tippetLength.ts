import type { Check } from './finding'
import { quantityOf } from '../units'
import { tippetIndex } from '../leader'
import { limitSource } from './limits'

/** Length of all tippet pieces together against what is fished for the purpose. */
export const tippetLength: Check = {
  id: 'tippet-length',
  run: ({ leader, limits }) => {
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
        source: limitSource(short ? 'tippetShortest' : 'tippetLongest', limits, leader.purpose),
        remedies:
          length.si > 0.02
            ? [
                {
                  id: short ? 'lengthen' : 'shorten',
                  figures: { length_m: length.si },
                  edit: { kind: 'length', at, length },
                },
              ]
            : [],
      },
    ]
  },
}
