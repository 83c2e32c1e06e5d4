import type { Brief } from './brief'
import type { Reason } from './reason'
import type { StrengthAdvice } from './strength'
import { limitFor } from '../checks'
import { isSizedByHook } from '../tackle'
import { FINEST_X } from '../units'
import { againstOrdinary, purposeFor, wariness } from './brief'
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

const LARGEST_RULED_HOOK = 4 // larger ones are tied to heavier tippets than the rule asks, estimate
const [STOUTEST_RULED, FINEST_SOLD] = [0, 8] // spools run from 0X to 8X (common practice)

const whole = (x: number) => Math.min(FINEST_SOLD, Math.max(STOUTEST_RULED, Math.round(x)))

/** Tippet by the fly first, then by wariness and water, then by the fish. */
export function tippetAdvice(brief: Brief, strength: StrengthAdvice): TippetAdvice {
  const base = baseOf(brief, strength)
  const placed = placeWithin(brief, base.interval, base.rule !== null)
  const moved = movesOf(brief)
  const shift = moved.reduce((sum, m) => sum + m.by, 0)
  const wanted = clampX(placed.x + shift)
  const held = Math.floor(strength.finestX + HELD_SLACK_X)
  // Fly first: where the fly is ruled, a fish moves it one size beyond the rule and no further.
  const stoutest = base.rule ? clampX(base.interval.stoutX + Math.min(0, shift)) - 1 : -Infinity
  const recommendedX = Math.max(Math.min(wanted, held), Math.min(wanted, stoutest))
  const figures = { fromX: wanted, toX: recommendedX, strand_N: strength.strand.value }
  return {
    rule: base.rule,
    interval: {
      stoutX: Math.min(clampX(base.interval.stoutX + shift), recommendedX),
      fineX: Math.max(recommendedX, Math.min(clampX(base.interval.fineX + shift), held)),
    },
    recommendedX,
    reasons: [
      base.reason,
      placed.reason,
      ...moved.map((m) => m.reason),
      ...(wariness(brief.conditions) === 1 ? [reason('wary-longer-first', {})] : []),
      ...(recommendedX < wanted ? [reason('fish-stouter', figures, ESTIMATE)] : []),
      ...(recommendedX > held ? [reason('fish-beyond', { heldX: held }, ESTIMATE)] : []),
    ],
  }
}

/** Strength is known within a third, so a tenth of a size decides nothing. */
const HELD_SLACK_X = 0.1

const clampX = (x: number) => Math.min(FINEST_SOLD, Math.min(FINEST_X, x))

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
  const purpose = purposeFor(brief)
  const [by4, by3] = [limitFor('flyRuleLow', purpose) ?? 4, limitFor('flyRuleHigh', purpose) ?? 3]
  const rule = { stoutX: whole(fly.hook / by4), fineX: whole(fly.hook / by3) }
  return {
    rule,
    interval: rule,
    reason: reason('rule-by-hook', { hook: fly.hook, by4, by3, ...rule }),
  }
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
function placeWithin({ fly }: Brief, { stoutX, fineX }: XInterval, isRule: boolean) {
  const { kind, massRatio, dragRatio } = againstOrdinary(fly)
  const figures = { massRatio, dragRatio }
  // Streamers are all heavy for their hook; the table already counts on it.
  if (kind === 'heavy' && isRule) return { x: stoutX, reason: reason('heavy-fly', figures) }
  if (kind === 'light' && isRule) return { x: fineX, reason: reason('light-fly', figures) }
  return { x: Math.round((stoutX + fineX) / 2), reason: reason('ordinary-fly', {}) }
}

/** Longer first, then finer; shorter first, then stouter: by one size each (common practice). */
function movesOf({ conditions }: Brief): { readonly by: number; readonly reason: Reason }[] {
  const score = wariness(conditions)
  return [
    ...(score >= 2 ? [{ by: 1, reason: reason('wary-finer', {}) }] : []),
    ...(conditions.wind === 'strong' ? [{ by: -1, reason: reason('wind-stouter', {}) }] : []),
    ...(conditions.warm ? [{ by: -1, reason: reason('warm-stouter', {}) }] : []),
  ]
}
