import type { Check } from './finding'
import { xOfDiameter, diameterOfX, quantityOf } from '../units'
import { isSizedByHook } from '../tackle'
import { diameter_m, tippetIndex } from '../leader'
import { limitSource } from './limits'

const FAR_X = 3 // so far out that the eye will not pass it, or the fly spins it up
const SLACK_X = 1 // half a size either way for wind, weight and the maker's gauge, on both ends

/** Tippet by hook size divided by three to four, for the flies that the trade sizes so. */
export const tippetAndFly: Check = {
  id: 'tippet-and-fly',
  run: ({ leader, limits }) => {
    const fly = leader.tip.fly?.fly
    const at = tippetIndex(leader)
    const tippet = leader.segments[at]
    if (!fly) return 'no-fly'
    if (!tippet) return 'no-tippet'
    const [by4, by3] = [limits.flyRuleLow, limits.flyRuleHigh]
    if (!isSizedByHook(fly.style) || fly.hook < 4 || by4 === null || by3 === null)
      return 'not-for-this-fly'
    if (leader.purpose === 'salt-water' || leader.purpose === 'bite-tippet')
      return 'not-for-this-purpose'
    const [low, high] = [fly.hook / by4, fly.hook / by3]
    const x = xOfDiameter(diameter_m(tippet))
    if (x >= low - SLACK_X && x <= high + SLACK_X) return []
    const wanted = Math.min(8, Math.max(0, Math.round(x < low ? low : high)))
    const unit = tippet.diameter.unit
    const diameter = quantityOf(diameterOfX(wanted), 'diameter', unit)
    return [
      {
        id: 'tippet-and-fly',
        variant: x < low ? 'stout' : 'fine',
        severity: x < low - FAR_X || x > high + FAR_X ? 'caution' : 'note',
        place: { kind: 'segment', index: at },
        measured: { x, diameter_m: diameter_m(tippet), hook: fly.hook },
        limit: { lowX: low, highX: high },
        source: limitSource(x < low ? 'flyRuleLow' : 'flyRuleHigh', limits, leader.purpose),
        remedies: [
          {
            id: 'restep',
            figures: { diameter_m: diameter.si },
            edit: { kind: 'restep', tippet: diameter },
          },
        ],
      },
    ]
  },
}
