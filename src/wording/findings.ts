import type { CheckId, Figures, Finding, NotCheckedReason, Remedy } from '../engine/checks'
import type { KnotId } from '../engine/materials'
import type { Say } from './say'
import { knot } from '../engine/materials'

/** A finding in words: what it is, why it matters, what was measured and what is usual. */
export interface FindingWords {
  readonly title: string
  readonly why: string
  readonly measured: string
  readonly usual: string
}

type Sentences = (finding: Finding, say: Say) => FindingWords

/** Names of knots within a sentence: small letters, except for a person's name. */
const spoken = (names: string): string => names.toLowerCase().replaceAll('albright', 'Albright')
const knotName = (id: unknown): string => spoken(knot(id as KnotId).name)
const capital = (words: string): string => words.charAt(0).toUpperCase() + words.slice(1)
/** An Albright, a blood knot. */
const withArticle = (noun: string): string => `${/^[aeiou]/i.test(noun) ? 'an' : 'a'} ${noun}`
const text = (value: unknown): string => (typeof value === 'string' ? value : '')

const STEP_WHY =
  'A big step is hard to seat in a knot, tangles, and loses strength at once; on paper the cast itself passes it.'

const SENTENCES: Readonly<Record<CheckId, Sentences>> = {
  'step-too-big': ({ measured: m, limit: l, variant }, say) => ({
    title: variant === 'ratio' ? 'Step too big for its place' : 'Step of many thousandths',
    why: `The thinner piece keeps ${say.percent(m.stiffnessRatio)} of the stiffness. ${STEP_WHY}`,
    measured: `steps ${say.step(m.step_m)}, to ${say.percent(m.ratio)} of the diameter`,
    usual: [
      l.ratio === undefined ? '' : `at least ${say.percent(l.ratio)} here`,
      l.step_m === undefined ? '' : `at most ${say.step(l.step_m)}`,
    ]
      .filter(Boolean)
      .join(', '),
  }),
  'step-up': ({ measured: m, variant }, say) => ({
    title: variant === 'reversed' ? 'The taper runs the wrong way' : 'Thicker towards the fly',
    why: 'A taper sheds mass towards the fly so that the turn keeps its speed; a thicker piece takes speed away and then hits hard.',
    measured:
      variant === 'reversed'
        ? `${String(m.joints)} joints thicken, from ${say.diameter(m.from_m)} at the line to ${say.diameter(m.to_m)} at the fly`
        : `grows by ${say.step(m.step_m)}`,
    usual: variant === 'reversed' ? 'thick at the line, thin at the fly' : 'the same or thinner',
  }),
  'same-neighbours': ({ measured: m }, say) => ({
    title: 'Two pieces alike',
    why: 'The knot between them gains nothing, costs strength and picks up weed; one longer piece does the same.',
    measured: `both ${say.diameter(m.diameter_m)} of one material`,
    usual: 'one piece',
  }),
  'knot-unsuited': knotSentences,
  'segment-length': (finding, say) => segmentLengthSentences(finding, say),
  'butt-and-line': ({ measured: m, limit: l, variant }, say) => ({
    title: variant === 'thin' ? 'Butt thin for the line' : 'Butt stout for the line',
    why:
      variant === 'thin'
        ? 'Much less mass than the line’s tip: the joint folds over it and the turn arrives weak.'
        : 'Nearly as heavy as the line’s tip, or heavier: the line cannot lead it and the joint kicks.',
    measured: `${say.percent(m.ratio)} of the tip of a ${text(m.line)}, ${say.percent(m.massRatio)} of its mass`,
    usual: `${say.percent(l.low)} to ${say.percent(l.high)} of the line’s tip`,
  }),
  shares: ({ measured: m, limit: l, variant }, say) => ({
    title: SHARE_TITLES[variant] ?? 'Unusual shares',
    why: SHARE_WHY[variant] ?? '',
    measured: `${say.percent(m.share)} of the length`,
    usual: `${say.percent(l.low)} to ${say.percent(l.high)}`,
  }),
  'weakest-link': ({ measured: m, limit: l, variant }, say) => ({
    title: 'Breaks above the tippet first',
    why: 'A snag or a fish would take tippet and taper with it, and leave more line in the fish.',
    measured: `${variant === 'joint' ? knotName(m.knot) : 'this piece'} holds ${say.force(m.strength_N)} wet`,
    usual: `the tippet breaks first; it holds ${say.force(l.strength_N)}`,
  }),
  'slipping-materials': ({ measured: m }) => ({
    title: 'These two materials slip',
    why: 'Fluorocarbon is slick and harder than nylon; this knot lets one creep through the other.',
    measured: `${text(m.above)} to ${text(m.below)} by ${knotName(m.knot)}`,
    usual: 'three passes of a surgeon’s knot',
  }),
  'total-and-rod': ({ measured: m, limit: l, variant }, say) => ({
    title: variant === 'long' ? 'Long for the rod' : 'Short for the rod',
    why:
      variant === 'long'
        ? 'The line joint is deep in the rings when a fish is at hand, and the more leader there is, the more of it a cast must straighten.'
        : 'The fly line lands close to the fish.',
    measured: `${say.length(m.total_m)}, ${say.ratio(m.rods)} rods`,
    usual: `${say.ratio(l.low)} to ${say.ratio(l.high)} rods of ${say.length(l.rod_m)}`,
  }),
  'tippet-length': ({ measured: m, limit: l, variant }, say) => ({
    title: variant === 'short' ? 'Short tippet' : 'Long tippet',
    why:
      variant === 'short'
        ? 'A few changes of fly and you are tying to the taper; a dry fly drags sooner.'
        : 'The loop runs out of speed in the thin end and the fly comes down beside or behind it.',
    measured: `${say.length(m.length_m)} of tippet`,
    usual: `${say.length(l.low_m)} to ${say.length(l.high_m)}`,
  }),
  'tip-and-fish': ({ measured: m, limit: l }, say) => ({
    title: 'Light for the fish you expect',
    why: 'A fish played long on too light a tippet tires to death, sooner in warm water. Go heavier or leave it.',
    measured: `${say.force(m.strength_N)} at the weakest place, wet`,
    usual: `at least ${say.force(l.strength_N)} for a fish of ${say.mass(l.fish_kg)}`,
  }),
  'tippet-and-fly': ({ measured: m, limit: l, variant }, say) => ({
    title: variant === 'stout' ? 'Tippet stout for the fly' : 'Tippet fine for the fly',
    why:
      variant === 'stout'
        ? 'A stout tippet steers a small fly, may not pass its eye, and shows.'
        : 'A fine tippet twists and weakens behind a fly of this size, and may not carry it round.',
    measured: `${say.diameter(m.diameter_m)} with a size ${String(m.hook)}`,
    usual: `${rangeOfX(l)}: hook size divided by ${String(l.by4)} to ${String(l.by3)}`,
  }),
  turnover: (finding, say) => turnoverSentences(finding, say),
  label: ({ measured: m, limit: l }, say) => ({
    title: 'Label and diameter disagree',
    why: `The diameter says ${text(l.label)}. One of the two is wrong, and strength and stiffness follow the diameter.`,
    measured: `labelled ${text(m.label)}, ${say.diameter(m.diameter_m)} thick`,
    usual: `${text(m.label)} is ${say.diameter(l.diameter_m)}`,
  }),
  'stated-total': ({ measured: m, limit: l }, say) => ({
    title: 'The stated total does not match',
    why: 'A piece was misread, or the recipe’s total is a round figure. The sum is what you will tie.',
    measured: `the pieces make ${say.length(m.total_m)}`,
    usual: `stated as ${say.length(l.total_m)}`,
  }),
  'record-rules': recordSentences,
}

const SHARE_TITLES: Readonly<Record<string, string>> = {
  'butt-small': 'Butt short for the purpose',
  'butt-large': 'Butt long for the purpose',
  'mid-small': 'Mid-section short for the purpose',
  'mid-large': 'Mid-section long for the purpose',
  'tippet-small': 'Tippet short of its usual share',
  'tippet-large': 'Tippet over its usual share',
}

const SHARE_WHY: Readonly<Record<string, string>> = {
  'butt-small': 'The butt’s mass carries the turn; with less of it the cast must be faster.',
  'butt-large': 'Much mass close to the fly: it turns over easily and comes down hard.',
  'mid-small': 'From stout to fine in little length: the fly comes round fast.',
  'mid-large': 'A long middle sheds speed: softer, and it wants a faster cast.',
  'tippet-small': 'The taper comes close to the fly: it lands harder and drags sooner.',
  'tippet-large': 'The thin end has little mass to turn a fly with.',
}

function knotSentences({ measured: m, limit: l, variant }: Finding, say: Say): FindingWords {
  const name = knotName(m.knot)
  if (variant.startsWith('not-at-')) {
    const where =
      { line: 'at the line', between: 'between two pieces', fly: 'at the fly' }[variant.slice(7)] ??
      ''
    return {
      title: `Wrong knot ${where}`,
      why: `${capital(withArticle(name))} cannot make this joint.`,
      measured: name,
      usual: spoken(text(l.knots)),
    }
  }
  const fits: Readonly<Record<string, readonly [string, string]>> = {
    reduction: [
      `${say.percent(m.reduction)} thinner`,
      `at most ${say.percent(l.reduction)} thinner`,
    ],
    step: [`a step of ${say.step(m.step_m)}`, `at most ${say.step(l.step_m)}`],
    fine: [say.diameter(m.diameter_m), `from ${say.diameter(l.diameter_m)}`],
  }
  const [measured, usual] = fits[variant] ?? ['', '']
  return {
    title: `${capital(withArticle(name))} does not suit this joint`,
    why:
      variant === 'fine'
        ? 'In so fine a strand its turns are slow to draw down and easily cross.'
        : 'Its turns bed into each other only on strands of like size; on others it seats badly and slips or cuts.',
    measured,
    usual,
  }
}

function segmentLengthSentences(
  { measured: m, limit: l, variant }: Finding,
  say: Say,
): FindingWords {
  if (variant === 'long') {
    return {
      title: 'One piece is most of the taper',
      why: 'A single long piece is a level leader with ends; shared out, the thinning is smoother.',
      measured: `${say.length(m.length_m)}, ${say.percent(m.share)} of the length`,
      usual: `at most ${say.percent(l.share)}`,
    }
  }
  const touching = variant === 'knots-touch'
  return {
    title: touching ? 'Too short to tie' : 'Short piece',
    why: touching
      ? 'The knots at its two ends would touch: neither can be drawn tight.'
      : 'Hard to hold while tying, and two knots close together tangle.',
    measured: say.length(m.length_m),
    usual: `at least ${say.length(l.length_m)}`,
  }
}

/** A figure is about; a bound such as “more than” says so itself. */
const about = (figure: string): string => (/^\d/.test(figure) ? `about ${figure}` : figure)

function turnoverSentences(
  { measured: m, limit: l, severity, variant }: Finding,
  say: Say,
): FindingWords {
  const flown = variant.startsWith('flown')
  return {
    title: severity === 'caution' ? 'Does not turn the fly over' : 'May not turn the fly over',
    why: flown
      ? `In the simulated cast the leader came to ${say.percent(m.extension)} of its length. The drag of a fly is known within a factor of two: trust the ranking of two leaders more than the speed.`
      : `The loop reaches the fly too late, so it falls short. Of what the air takes, ${say.percent(m.flyShare)} goes to the fly’s own drag. An estimate from mass and drag, without the flight itself.`,
    measured: `needs ${about(say.speed(m.needed_m_s))} of line speed`,
    usual: `this caster throws ${say.speed(l.speed_m_s)}`,
  }
}

const RECORD_TITLES: Readonly<Record<string, string>> = {
  'class-short': 'Class tippet too short for a record',
  'class-strong': 'Class tippet too strong for a record',
  'shock-long': 'Shock tippet too long for a record',
}

function recordSentences({ measured: m, limit: l, variant }: Finding, say: Say): FindingWords {
  const isStrength = variant === 'class-strong'
  const [measured, limit] = isStrength
    ? [say.force(m.strength_N), say.force(l.strength_N)]
    : [say.length(m.length_m), say.length(l.length_m)]
  return {
    title: RECORD_TITLES[variant] ?? 'Outside the record rules',
    why: 'A fish caught on it would not count as a fly record. For fishing it may be just right; local rules decide.',
    measured,
    usual: `${variant === 'class-short' ? 'at least' : 'at most'} ${limit}`,
  }
}

function rangeOfX({ lowX, highX }: Figures): string {
  const [low, high] = [Math.round(Number(lowX)), Math.round(Number(highX))]
  return low === high ? `${low}X` : `${low}X to ${high}X`
}

export function describeFinding(finding: Finding, say: Say): FindingWords {
  return SENTENCES[finding.id](finding, say)
}

const REMEDIES: Readonly<Record<string, (figures: Figures, say: Say) => string>> = {
  'insert-between': (f, say) =>
    `Put ${say.length(f.length_m)} of ${say.diameter(f.diameter_m)} in between`,
  'match-above': (f, say) => `Make it ${say.diameter(f.diameter_m)} like the piece above`,
  join: () => 'Join the two into one',
  'turn-round': () => 'Turn the leader round',
  'change-knot': (f) => `Tie ${withArticle(knotName(f.knot))} here`,
  lengthen: (f, say) => `Make it ${say.length(f.length_m)}`,
  shorten: (f, say) => `Shorten it to ${say.length(f.length_m)}`,
  remove: () => 'Leave this piece out',
  'set-diameter': (f, say) => `Make piece ${String(f.piece)} ${say.diameter(f.diameter_m)}`,
  'move-length': (f, say) =>
    `Move ${say.length(f.amount_m)} from piece ${String(f.from)} to piece ${String(f.to)}`,
  scale: (f, say) => `Scale all to ${say.length(f.total_m)}`,
  restep: (f, say) => `Tippet of ${say.diameter(f.diameter_m)}, taper re-stepped`,
  'smaller-fly': (f) => `A size ${String(f.hook)} instead`,
  relabel: (f) => `Label it ${text(f.label)}`,
  restate: (f, say) => `State ${say.length(f.total_m)}`,
}

/** What a remedy's button says. */
export function describeRemedy({ id, figures }: Remedy, say: Say): string {
  const sentence = REMEDIES[id]
  if (!sentence) throw new RangeError(`No wording for the remedy "${id}".`)
  return sentence(figures, say)
}

export const CHECK_NAMES: Readonly<Record<CheckId, string>> = {
  'step-too-big': 'size of steps',
  'step-up': 'direction of steps',
  'same-neighbours': 'needless knots',
  'knot-unsuited': 'knots for their joints',
  'segment-length': 'length of pieces',
  'butt-and-line': 'butt against line',
  shares: 'shares',
  'weakest-link': 'weakest place',
  'slipping-materials': 'materials that slip',
  'total-and-rod': 'total against rod',
  'tippet-length': 'tippet length',
  'tip-and-fish': 'strength against fish',
  'tippet-and-fly': 'tippet against fly',
  turnover: 'turnover',
  label: 'labels',
  'stated-total': 'stated total',
  'record-rules': 'record rules',
}

const REASONS: Readonly<Record<NotCheckedReason, string>> = {
  'no-line': 'no fly line is chosen',
  'no-rod': 'no rod length is given',
  'no-fish': 'no fish is given',
  'no-fly': 'no fly is chosen',
  'no-tippet': 'no piece is marked as tippet',
  'no-label': 'no piece carries a size label',
  'no-stated-total': 'the formula states no total',
  'not-for-this-purpose': 'it does not apply to this purpose',
  'not-for-this-fly': 'this kind of fly is not sized by hook',
  'no-record-purpose': 'the leader has no shock piece and is not for salt water',
}

export function describeReason(reason: NotCheckedReason): string {
  return REASONS[reason]
}
