import type { Purpose, Water } from '../leader'
import type { Brief } from './brief'
import type { Reason } from './reason'
import { limitFor } from '../checks'
import { FOOT_M, INCH_M } from '../units'
import { isBehindSinkingLine, isBulky, isStreamer, purposeFor } from './brief'
import { CP, reason } from './reason'

export interface LengthAdvice {
  readonly length_m: number
  readonly low_m: number
  readonly high_m: number
  /** Length of the tippet in it, m. */
  readonly tippet_m: number
  /** Length (m) before wariness, wind and bulk were weighed. */
  readonly plain_m: number
  readonly reasons: readonly Reason[]
}

const USUAL_ROD_M = 9 * FOOT_M

/** Rod lengths by water: 7 1/2, 9 and 12 ft on a 9 ft rod, long leaders on lakes (common practice). */
const RODS: Readonly<Record<Water, number>> = {
  'small-stream': 7.5 / 9,
  'pocket-water': 8 / 9,
  riffle: 1,
  flat: 12 / 9,
  'still-water': 12 / 9,
  'salt-water': 10 / 9,
}
const STREAMER_RODS = 7.5 / 9 // big streamers (common practice)
/** Leaders of lines that sink keep the fly down: by line, m (common practice). */
const SHORT = { I: 7.5 * FOOT_M, S: 4 * FOOT_M, 'F/S': 4 * FOOT_M } as const

/** Practice tells the direction; by how much is our estimate. */
const FACTORS = {
  'length-pressured': 1.12,
  'length-easy': 0.95,
  'length-far': 1.06,
  'length-near': 0.95,
  'length-wind': 0.92,
  'length-bulky': 0.92,
} as const
const STRONG_WIND = 0.85
const SPREAD = 0.08 // a tenth either way is another leader, less is none: estimate
/** A fly that the air holds back is fished on less leader still (common practice; by how much: estimate). */
const SHORTER_IF_BULKY = 0.15
/** Leaders are spoken of in half feet. */
export const HALF_FOOT_M = FOOT_M / 2

/** About the rod's length, and why this one differs: longer before finer, shorter before stouter. */
export function lengthAdvice(brief: Brief): LengthAdvice {
  const purpose = purposeFor(brief)
  const plain = plainLength(brief)
  const factors = factorsOf(brief)
  const wanted = factors.reduce((length, [, factor]) => length * factor, plain.length_m)
  const bounds = boundsOf(brief, purpose)
  const bounded = Math.min(bounds.high, Math.max(bounds.low, wanted))
  const length_m = roundedWithin(bounded, bounds)
  const tippet = tippetLength(brief, purpose)
  return {
    length_m,
    low_m: lowest_m(brief, length_m, bounds.low),
    high_m: length_m * (1 + SPREAD),
    tippet_m: tippet,
    plain_m: plain.length_m,
    reasons: [
      ...plain.reasons,
      ...factors.map(([code, factor]) => reason(code, { factor }, `${CP}; by how much: estimate`)),
      ...(bounded === wanted ? [] : [reason('length-bound', { wanted_m: wanted }, CP)]),
      reason('tippet-length', { length_m: tippet }, CP),
    ],
  }
}

function lowest_m({ fly }: Brief, length_m: number, bound_m: number): number {
  const usual_m = length_m * (1 - SPREAD)
  return isBulky(fly)
    ? Math.min(usual_m, Math.max(bound_m, length_m * (1 - SHORTER_IF_BULKY)))
    : usual_m
}

/** Whether caution has lengthened the leader: for its water, its fish or its distance. */
export function isLengthened(brief: Brief): boolean {
  const { conditions } = brief
  const isSlow = conditions.water === 'flat' || conditions.water === 'still-water'
  const bold = {
    ...conditions,
    water: isSlow ? ('riffle' as const) : conditions.water,
    wariness: 'usual' as const,
    distance: 'usual' as const,
  }
  return lengthAdvice(brief).length_m > lengthAdvice({ ...brief, conditions: bold }).length_m + 1e-6
}

/** To half a foot, but never out of the bounds. */
function roundedWithin(length_m: number, { low, high }: { low: number; high: number }): number {
  const near = Math.round(length_m / HALF_FOOT_M) * HALF_FOOT_M
  if (near < low - 1e-9) return near + HALF_FOOT_M
  return near > high + 1e-9 ? near - HALF_FOOT_M : near
}

function plainLength({ fly, outfit, conditions }: Brief) {
  const { line, rod } = outfit
  if (line && line.buoyancy !== 'F') {
    const length_m = SHORT[line.buoyancy]
    return { length_m, reasons: [reason('length-line', { line: line.designation, length_m })] }
  }
  const rod_m = rod?.si ?? USUAL_ROD_M
  const ofRod = reason('length-rod', { rod_m, isGiven: rod !== undefined })
  if (isStreamer(fly) && conditions.water !== 'salt-water') {
    const rods = Math.min(STREAMER_RODS, RODS[conditions.water])
    return { length_m: rod_m * rods, reasons: [ofRod, reason('length-streamer', {})] }
  }
  const rods = RODS[conditions.water]
  const water = rods === 1 ? [] : [reason('length-water', { rods, water: conditions.water })]
  return { length_m: rod_m * rods, reasons: [ofRod, ...water] }
}

type Factor = readonly [code: keyof typeof FACTORS, factor: number]

function factorsOf(brief: Brief): Factor[] {
  // Nothing of this counts where the leader is short to keep the fly down.
  if (isBehindSinkingLine(brief)) return []
  const { fly, conditions } = brief
  const codes: (keyof typeof FACTORS)[] = []
  if (conditions.wariness === 'pressured') codes.push('length-pressured')
  if (conditions.wariness === 'easy') codes.push('length-easy')
  if (conditions.distance === 'far') codes.push('length-far')
  if (conditions.distance === 'near') codes.push('length-near')
  if (isBulky(fly)) codes.push('length-bulky')
  const wind: Factor[] =
    conditions.wind === 'calm'
      ? []
      : [['length-wind', conditions.wind === 'strong' ? STRONG_WIND : FACTORS['length-wind']]]
  return [...codes.map((code): Factor => [code, FACTORS[code]]), ...wind]
}

function boundsOf({ outfit }: Brief, purpose: Purpose) {
  const rod_m = outfit.rod?.si ?? USUAL_ROD_M
  return {
    low: rod_m * (limitFor('rodsLow', purpose) ?? 0),
    high: rod_m * (limitFor('rodsHigh', purpose) ?? 2),
  }
}

/** Inches of tippet by purpose, inside what the bench takes as usual (common practice). */
const TIPPET_IN: Partial<Readonly<Record<Purpose, number>>> = {
  'slack-line-dry': 36,
  nymph: 22,
  streamer: 20,
  'still-water': 40,
  'sinking-line': 22,
  'salt-water': 22,
  'bite-tippet': 22,
}
const USUAL_TIPPET_IN = 28

function tippetLength({ conditions }: Brief, purpose: Purpose): number {
  const wary = conditions.wariness === 'pressured' ? 1.2 : 1
  const wind = { calm: 1, breeze: 0.95, strong: 0.8 }[conditions.wind]
  const wanted = (TIPPET_IN[purpose] ?? USUAL_TIPPET_IN) * wary * wind * INCH_M
  const low = limitFor('tippetShortest', purpose) ?? 0
  const high = limitFor('tippetLongest', purpose) ?? Infinity
  return Math.round(Math.min(high, Math.max(low, wanted)) / INCH_M) * INCH_M
}
