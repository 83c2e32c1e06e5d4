import type { Advice, BiteAdvice, Choice, Made, Plain } from '../../engine/advice'
import type { BriefDraft } from '../../documents'
import type { Sourced } from '../../engine/materials'
import type { Say } from '../../wording'
import type { Chosen } from './chosen'
import { rankAgainst } from '../../engine/cast'
import { deliveryOf } from '../../engine/delivery'
import { FASTEST_SINK_CLASS, formatHook } from '../../engine/tackle'
import { formatSi } from '../../engine/units'
import { FLY_NAMES, WATER_NAMES, xRange, xText } from '../../wording'

/** A figure with what it may be and what it rests on. */
export interface Told {
  readonly name: string
  readonly figure: string
  readonly band?: string
  readonly source: string
}

/** Options of a choice from a table of names. */
export const optionsOf = <T extends string>(names: Readonly<Record<T, string>>) =>
  Object.entries(names) as [T, string][]

/** Hooks as they are sold: even numbers, then aughts; `current` too, where it is another. */
export function hookOptions(current: number): [string, string][] {
  const sizes = Array.from({ length: 30 }, (_, k) => 26 - k).filter(
    (n) => n % 2 === 0 || n < 4 || n === current,
  )
  return sizes.map((n) => [String(n), formatHook(n)])
}

/** Two that come next as hooks are sold, in even sizes from 4 on. */
export function smallerHooks(hook: number): number[] {
  return hookOptions(hook)
    .map(([n]) => Number(n))
    .filter((n) => n > hook)
    .slice(-2)
    .reverse()
}

export const WEIGHTS: [string, string][] = Array.from({ length: 15 }, (_, k) => [
  String(k + 1),
  `${k + 1}-weight`,
])

export const SINK_CLASSES: [string, string][] = [
  ['', 'not said'],
  ...Array.from({ length: FASTEST_SINK_CLASS }, (_, k): [string, string] => [
    String(k + 1),
    `class ${k + 1}`,
  ]),
]

/** The leader's name: what it is for and what it is. */
export function nameFor({ fly, conditions }: BriefDraft, length: string, tippet: string): string {
  const water = WATER_NAMES[conditions.water].split(/,| or /)[0]?.toLowerCase()
  return `${FLY_NAMES[fly.fly.style]} ${formatHook(fly.fly.hook)}, ${water} ${length} ${tippet}`
}

/** What stands on top: tippet, length, material and strength; of the leader that is taken where there is one. */
export function headline(
  advice: Advice,
  made: Made | undefined,
  say: Say,
  total: (m: number) => string,
): Told[] {
  const { tippet, length, material, bite, strength } = advice
  const { pull, strand } = strength
  return [
    {
      name: 'Tippet',
      figure: xText(made?.tippetX ?? tippet.recommendedX),
      band: `${xRange(tippet.interval)} would do`,
      source: tippet.rule
        ? 'hook size divided by four to three, moved by weight, drag, wariness, wind and fish (common practice)'
        : 'not by hook size: tables of the trade and the fish’s strength (common practice)',
    },
    {
      name: 'Length',
      figure: total(made?.length_m ?? length.length_m),
      band: `${total(length.low_m)} to ${total(length.high_m)}`,
      source:
        'about the rod, moved by water, wariness and wind (common practice); by how much: estimate',
    },
    {
      name: 'Tippet of',
      figure: material.material.name,
      band: `${material.material.density.value} kg/m³; ${material.instead.name.toLowerCase()} ${material.instead.density.value}`,
      source: material.material.density.source,
    },
    ...(bite ? [biteTold(bite, say)] : []),
    {
      name: 'Must hold',
      figure: say.force(strand.value),
      band: `${say.force(strand.low)} to ${say.force(strand.high)}, wet; pull of the fish ${say.force(pull.value)}`,
      source: pull.source,
    },
  ]
}

function biteTold({ length_m, material, reasons }: BiteAdvice, say: Say): Told {
  const source = reasons.map((each) => each.source).join('; ')
  return { name: 'Bite', figure: `${say.length(length_m)} ${material.name.toLowerCase()}`, source }
}

/** That leaders beside the one by the rules are being thrown. */
export function tryingWords({ next }: Choice, of: number): string {
  return next === undefined || next === 0
    ? ''
    : `By the rules it comes over too seldom: the tippet is cut back, then stouter, the leader shorter. Thrown so far: ${next} of ${of} at most.`
}

/** What length and tippet cost in power, against a plain leader for the same fly; both were thrown. */
export function costWords(
  { plain }: Advice,
  chosen: Chosen,
  say: Say,
  total: (m: number) => string,
): string {
  const here = deliveryOf(chosen.judgement)?.least?.lineSpeed_m_s
  const there = deliveryOf(chosen.plain)?.least?.lineSpeed_m_s
  if (!plain || here === undefined || there === undefined || isPlain(plain, chosen.made)) return ''
  const name = `a plain ${total(plain.length_m)} ${xText(plain.x)}`
  const rank = rankAgainst(here, there)
  if (rank === 'as') return `It asks for no more power than ${name}.`
  const more = rank === 'harder' ? 'more' : 'less'
  return `It asks for ${more} power than ${name}: ${say.speed(here)} against ${say.speed(there)}.`
}

/** Lengths are rounded, to less than this. */
const ROUNDING_M = 0.01

const isPlain = (plain: Plain, { length_m, tippetX }: Made): boolean =>
  plain.x === tippetX && Math.abs(plain.length_m - length_m) < ROUNDING_M

const mg = (kg: number) => formatSi(kg, 'mass', kg < 1e-3 ? 'mg' : 'g')
const mm2 = (m2: number) => `${Number((m2 * 1e6).toPrecision(2))} mm²`
const metresPerSecond = (v: number) => `${v.toFixed(2)} m/s`

/** A sourced figure with its band, in a unit. */
export function told(name: string, s: Sourced, text: 'mass' | 'area' | 'sink'): Told {
  const say = { mass: mg, area: mm2, sink: metresPerSecond }[text]
  const isExact = s.low === s.high
  return {
    name,
    figure: say(s.value),
    ...(isExact ? {} : { band: `${say(s.low)} to ${say(s.high)}` }),
    source: s.source,
  }
}
