import type { Brief } from './brief'
import type { Reason } from './reason'
import type { StrengthAdvice } from './strength'
import { FINEST_SPOOL_X, LARGEST_RULED_HOOK, limitFor, ruleByHook } from '../checks'
import { isSizedByHook } from '../tackle'
import { againstOrdinary, isBehindSinkingLine, isBulky, purposeFor, wariness } from './brief'
import { isLengthened } from './length'
import { ESTIMATE, reason } from './reason'

/** X sizes from stout to fine; below 0 they are stouter than 0X (thousandths = 11 - X). */
export interface XInterval {
  readonly stoutX: number
  readonly fineX: number
}

export interface TippetAdvice {
  /** What the rule by hook size says; null where practice does not use it. */
  readonly rule: XInterval | null
  /** What practice uses here, moved by wariness, wind, warmth and the fish. */
  readonly interval: XInterval
  readonly recommendedX: number
  readonly reasons: readonly Reason[]
}

/** Tippet by the fly first, then by wariness and water, then by the fish. */
export function tippetAdvice(brief: Brief, strength: StrengthAdvice): TippetAdvice {
  const base = baseOf(brief, strength)
  const placed = placeWithin(brief, base.interval, base.rule !== null)
  const moved = movesOf(brief)
  const shift = moved.reduce((sum, m) => sum + m.by, 0)
  const { hook } = brief.fly
  const bounds = base.rule ? boundsOf(hook, base.rule) : UNRULED
  const asked = Math.min(FINEST_SPOOL_X, placed.x + shift)
  const wanted = within(bounds, asked)
  const held = Math.floor(strength.finestX + HELD_SLACK_X)
  const recommendedX = Math.min(wanted, Math.max(held, bounds.stoutX))
  const { stoutX, fineX } = base.interval
  // What the air holds back may have as stout a tippet as its hook takes.
  const stoutest = base.rule && isBulky(brief.fly) ? bounds.stoutX : within(bounds, stoutX + shift)
  const figures = { fromX: wanted, toX: recommendedX, strand_N: strength.strand.value }
  return {
    rule: base.rule,
    interval: {
      stoutX: Math.min(stoutest, recommendedX),
      fineX: Math.max(recommendedX, Math.min(within(bounds, fineX + shift), held)),
    },
    recommendedX,
    reasons: [
      base.reason,
      placed.reason,
      ...moved.map((m) => m.reason),
      ...longerFirst(brief),
      ...(wanted === asked ? [] : [reason('rule-bounds', { toX: wanted, hook }, TABLES)]),
      ...(recommendedX < wanted ? [reason('fish-stouter', figures, ESTIMATE)] : []),
      ...(recommendedX > held ? [fishBeyond(brief, held, recommendedX)] : []),
    ],
  }
}

/** Strength is known within a third, so a tenth of a size decides nothing. */
const HELD_SLACK_X = 0.1

const UNRULED: XInterval = { stoutX: -Infinity, fineX: FINEST_SPOOL_X }

const within = ({ stoutX, fineX }: XInterval, x: number) => Math.min(fineX, Math.max(stoutX, x))

const TABLES = 'generic tables of the trade (common practice)'
/** Smallest hook that generic tables of the trade still give 0X, 1X and so on to 6X (common practice). */
const SMALLEST_HOOK_OF_X = [6, 8, 10, 14, 16, 20, 26]

/**
 * How far wariness, wind and fish together may move the tippet: the hook decides, so one size beyond its rule
 * at most, and to no stouter one than tables of the trade give the hook.
 */
function boundsOf(hook: number, rule: XInterval): XInterval {
  const found = SMALLEST_HOOK_OF_X.findIndex((smallest) => hook <= smallest)
  const stoutest = found < 0 ? FINEST_SPOOL_X : found
  return {
    stoutX: Math.min(rule.stoutX, Math.max(rule.stoutX - 1, stoutest)),
    fineX: Math.min(FINEST_SPOOL_X, rule.fineX + 1),
  }
}

/** The fish asks for more than the hook can have: what to do about it, and which fly could have it. */
function fishBeyond(brief: Brief, heldX: number, toX: number): Reason {
  const { hook } = brief.fly
  const divisors = divisorsFor(brief)
  const carries = (n: number) => boundsOf(n, ruleByHook(n, divisors)).stoutX <= heldX
  const larger = Array.from({ length: hook }, (_, k) => hook - 1 - k)
  const biggerHook = larger.find((n) => isSold(n) && n >= LARGEST_RULED_HOOK && carries(n))
  const figures = { hook, heldX, toX, ...(biggerHook === undefined ? {} : { biggerHook }) }
  return reason('fish-beyond', figures, TABLES)
}

const isSold = (hook: number) => hook % 2 === 0 // trout hooks come in even sizes (common practice)

interface Base {
  readonly rule: XInterval | null
  readonly interval: XInterval
  readonly reason: Reason
}

function baseOf(brief: Brief, strength: StrengthAdvice): Base {
  const { fly, conditions } = brief
  if (conditions.water === 'salt-water') {
    return { rule: null, interval: byStrength(strength), reason: reason('rule-not-for-water', {}) }
  }
  if (!isSizedByHook(fly.style) || fly.hook < LARGEST_RULED_HOOK) {
    const isStyle = !isSizedByHook(fly.style)
    const why = isStyle ? 'rule-not-for-style' : 'rule-not-for-hook'
    const interval = byTable(fly.hook)
    const figures = { hook: fly.hook, stoutX: interval.stoutX, fineX: interval.fineX }
    return { rule: null, interval, reason: reason(why, figures) }
  }
  const divisors = divisorsFor(brief)
  const rule = ruleByHook(fly.hook, divisors)
  return {
    rule,
    interval: rule,
    reason: reason('rule-by-hook', { hook: fly.hook, ...divisors, ...rule }),
  }
}

function divisorsFor(brief: Brief) {
  const purpose = purposeFor(brief)
  return { by4: limitFor('flyRuleLow', purpose) ?? 4, by3: limitFor('flyRuleHigh', purpose) ?? 3 }
}

/**
 * Sizes that generic tables of the trade give a hook from 10 to 1/0 (common practice): the larger the hook,
 * the stouter; larger than 1/0 stouter than any X.
 */
function byTable(hook: number): XInterval {
  const TABLE = [
    [10, 2, 4],
    [8, 1, 3],
    [6, 0, 2],
    [4, 0, 2],
    [2, 0, 1],
    [1, -1, 0],
    [0, -2, 0],
    [-2, -4, -1],
  ] as const
  const row = TABLE.find(([from]) => hook >= from) ?? [hook, -5, -2]
  return { stoutX: row[1], fineX: row[2] }
}

/** Salt-water leaders go by strength: from what holds the fish to two sizes stouter (common practice; estimate). */
function byStrength({ finestX }: StrengthAdvice): XInterval {
  const fine = Math.floor(finestX)
  return { stoutX: fine - 2, fineX: fine }
}

/** A light dry takes the finer end of the rule, a beaded or bulky fly the stouter (common practice). */
function placeWithin(brief: Brief, { stoutX, fineX }: XInterval, isRule: boolean) {
  if (isBehindSinkingLine(brief)) return { x: stoutX, reason: reason('sinking-stouter', {}, SUNK) }
  const middle = Math.round((stoutX + fineX) / 2)
  // Streamers are all heavy for their hook; the table already counts on it.
  if (!isRule) return { x: middle, reason: reason('unruled-middle', {}) }
  const { kind, massRatio, dragRatio } = againstOrdinary(brief.fly)
  const figures = { massRatio, dragRatio }
  if (kind === 'heavy') return { x: stoutX, reason: reason('heavy-fly', figures) }
  if (kind === 'light') return { x: fineX, reason: reason('light-fly', figures) }
  return { x: middle, reason: reason('ordinary-fly', {}) }
}

const SUNK =
  'common practice: two to five feet of 0X and stouter behind sunken streamers, from memory'

/** Longer first, then finer; shorter first, then stouter: by one size each (common practice). */
function movesOf(brief: Brief): { readonly by: number; readonly reason: Reason }[] {
  const { conditions } = brief
  const warm = conditions.warm ? [{ by: -1, reason: reason('warm-stouter', {}) }] : []
  // A short leader behind a line that sinks has nothing to land gently and nothing to turn over.
  if (isBehindSinkingLine(brief)) return warm
  return [
    ...(wariness(conditions) >= 2 ? [{ by: 1, reason: reason('wary-finer', {}) }] : []),
    ...(conditions.wind === 'strong' ? [{ by: -1, reason: reason('wind-stouter', {}) }] : []),
    ...warm,
  ]
}

/** Said only where caution did lengthen the leader. */
function longerFirst(brief: Brief): Reason[] {
  const isAsked = wariness(brief.conditions) === 1 && isLengthened(brief)
  return isAsked ? [reason('wary-longer-first', {})] : []
}
