import type { ComparedId, Difference } from '../engine/compare'
import type { Say } from './say'

/** One leader against another: what it is more of, less of, so many times as, and how its figures are spoken. */
interface Words {
  readonly as: string
  readonly more: string
  readonly less: string
  readonly figure: (say: Say, value: number) => string
}

const grams = (kg: number) => `${(kg * 1e3).toFixed(2)} g`

const WORDS: Readonly<Record<ComparedId, Words>> = {
  length: { as: 'as long', more: 'longer', less: 'shorter', figure: (say, m) => say.length(m) },
  mass: { as: 'as heavy', more: 'heavier', less: 'lighter', figure: (_, kg) => grams(kg) },
  'butt-diameter': {
    as: 'as stout at the line',
    more: 'stouter at the line',
    less: 'finer at the line',
    figure: (say, m) => say.diameter(m),
  },
  'tippet-diameter': {
    as: 'as stout in the tippet',
    more: 'stouter in the tippet',
    less: 'finer in the tippet',
    figure: (say, m) => say.diameter(m),
  },
  'tippet-length': {
    as: 'as long in the tippet',
    more: 'longer in the tippet',
    less: 'shorter in the tippet',
    figure: (say, m) => say.length(m),
  },
  'butt-share': {
    as: 'as much of it butt',
    more: 'more of it butt',
    less: 'less of it butt',
    figure: (say, share) => say.percent(share),
  },
  // The share of the diameter that is kept: more kept is a smaller step.
  'largest-step': {
    as: 'as gentle in its largest step',
    more: 'gentler in its largest step',
    less: 'harsher in its largest step',
    figure: (say, ratio) => `${say.percent(ratio)} kept`,
  },
  strength: { as: 'as strong', more: 'stronger', less: 'weaker', figure: (say, N) => say.force(N) },
  stiffness: {
    as: 'as stiff',
    more: 'stiffer',
    less: 'limper',
    figure: (_, N_m2) => `${Number((N_m2 * 1e6).toPrecision(2))} N mm²`,
  },
  density: {
    as: 'as heavy',
    more: 'heavier along it',
    less: 'lighter along it',
    figure: (_, kg_m) => `${(kg_m * 1e3).toFixed(2)} g/m`,
  },
}

const TWICE = 1.9
const NAMED: readonly [low: number, high: number, more: string, less: string][] = [
  [TWICE, 2.15, 'twice', 'half'],
  [2.8, 3.2, 'three times', 'a third'],
  [3.75, 4.25, 'four times', 'a quarter'],
]

/** By how much: a share where it is less than twice, else so many times as much. */
function amount({ more, less, as }: Words, ratio: number): string {
  const factor = Math.max(ratio, 1 / ratio)
  if (factor < TWICE) return `${Math.round((factor - 1) * 100)} % ${ratio > 1 ? more : less}`
  const named = NAMED.find(([low, high]) => factor >= low && factor <= high)
  if (named) return `${ratio > 1 ? named[2] : named[3]} ${as}`
  return `${Number(factor.toPrecision(2))} times ${ratio > 1 ? as : less}`
}

/** One difference as a sentence about the other leader, such as "12 % longer: 10 ft against 9 ft". */
export function differenceText({ id, first, other, at_m }: Difference, say: Say): string {
  const words = WORDS[id]
  const place = at_m === undefined ? '' : ` at ${say.length(at_m)} from the line`
  return `${amount(words, other / first)}${place}: ${words.figure(say, other)} against ${words.figure(say, first)}`
}
