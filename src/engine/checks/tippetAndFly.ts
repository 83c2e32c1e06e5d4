import type { Check, FindingOf } from './finding'
import type { Leader } from '../leader'
import { xOfDiameter, diameterOfX, quantityOf } from '../units'
import { isSizedByHook } from '../tackle'
import { diameter_m, tippetIndex } from '../leader'
import { define, sourceOf } from './limits'

const LIMITS = {
  flyRuleLow: define('factor', 4, 'X is hook size divided by four, fast water (common practice)'),
  flyRuleHigh: define('factor', 3, 'X is hook size divided by three, slow water (common practice)'),
}

const FAR_X = 3 // so far out that the eye will not pass it, or the fly spins it up, estimate
const SLACK_X = 1 // one size beyond either end for wind, weight and the maker's gauge, estimate
const GAUGE_X = 0.1 // of a size: what a spool's own gauge may differ by, estimate
/** Larger hooks are tied to heavier tippets than the rule asks, estimate. */
export const LARGEST_RULED_HOOK = 4
/** Spools run from 0X to 8X (common practice). */
export const FINEST_SPOOL_X = 8

/** The rule in whole sizes, as spools come: X is the hook divided by four, in fast water, to three, in slow. */
export function ruleByHook(hook: number, divisors: { readonly by4: number; readonly by3: number }) {
  const whole = (x: number) => Math.min(FINEST_SPOOL_X, Math.max(0, Math.round(x)))
  return { stoutX: whole(hook / divisors.by4), fineX: whole(hook / divisors.by3) }
}

type TippetAndFly = FindingOf<
  'tippet-and-fly',
  'stout' | 'fine',
  { x: number; diameter_m: number; hook: number },
  { lowX: number; highX: number; by4: number; by3: number }
>
type Unchecked = 'no-fly' | 'no-tippet' | 'not-for-this-fly' | 'not-for-this-purpose'

/** Tippet by hook size divided by three to four, for the flies that the trade sizes so. */
export const tippetAndFly: Check<TippetAndFly, Unchecked, typeof LIMITS> = {
  id: 'tippet-and-fly',
  oneFor: 'leader',
  bounds: [{ measured: 'x', atLeast: 'lowX', atMost: 'highX' }],
  limits: LIMITS,
  run: (input) => {
    const { leader, limits } = input
    const fly = leader.tip.fly?.fly
    const at = tippetIndex(leader)
    const tippet = leader.segments[at]
    if (!fly) return 'no-fly'
    if (!tippet) return 'no-tippet'
    const [by4, by3] = [limits.flyRuleLow, limits.flyRuleHigh]
    if (!isSizedByHook(fly.style) || fly.hook < LARGEST_RULED_HOOK || by4 === null || by3 === null)
      return 'not-for-this-fly'
    if (isForStrength(leader)) return 'not-for-this-purpose'
    const [low, high] = [fly.hook / by4, fly.hook / by3]
    const x = xOfDiameter(diameter_m(tippet))
    const { stoutX, fineX } = ruleByHook(fly.hook, { by4, by3 })
    const slack = SLACK_X + GAUGE_X
    if (x >= stoutX - slack && x <= fineX + slack) return []
    const wanted = x < low ? stoutX : fineX
    const unit = tippet.diameter.unit
    const diameter = quantityOf(diameterOfX(wanted), 'diameter', unit)
    return [
      {
        id: 'tippet-and-fly',
        variant: x < low ? 'stout' : 'fine',
        severity: x < low - FAR_X || x > high + FAR_X ? 'caution' : 'note',
        place: { kind: 'segment', index: at },
        measured: { x, diameter_m: diameter_m(tippet), hook: fly.hook },
        limit: { lowX: low, highX: high, by4, by3 },
        source: sourceOf(LIMITS, x < low ? 'flyRuleLow' : 'flyRuleHigh', input),
        remedies: [
          {
            id: 'restep',
            edit: { kind: 'restep', tippet: diameter },
          },
        ],
      },
    ]
  },
}

/** In salt water and against teeth a tippet goes by strength (common practice). */
function isForStrength({ purpose, brief }: Leader): boolean {
  return purpose === 'salt-water' || purpose === 'bite-tippet' || brief?.water === 'salt-water'
}
