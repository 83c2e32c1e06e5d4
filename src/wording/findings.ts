import type {
  CheckId,
  EditFor,
  Finding,
  LimitId,
  NotCheckedReason,
  Remedy,
  RemedyId,
} from '../engine/checks'
import type { KnotId } from '../engine/materials'
import type { Say } from './say'
import { KICKS_BACK, STATE_TITLES } from './delivery'
import { inHundred } from './say'
import { knot } from '../engine/materials'

/** A finding in words: what it is, why it matters, what was measured and what is usual. */
export interface FindingWords {
  readonly title: string
  readonly why: string
  readonly measured: string
  readonly usual: string
}

type Found<Id extends CheckId> = Extract<Finding, { id: Id }>
type Sentences<F extends Finding> = (finding: F, say: Say) => FindingWords

/** Names of knots within a sentence: small letters, except for a person's name. */
const spoken = (names: string): string => names.toLowerCase().replaceAll('albright', 'Albright')
const knotName = (id: KnotId): string => spoken(knot(id).name)
const capital = (words: string): string => words.charAt(0).toUpperCase() + words.slice(1)
/** An Albright, a blood knot. */
const withArticle = (noun: string): string => `${/^[aeiou]/i.test(noun) ? 'an' : 'a'} ${noun}`

const sizesAlike = (above: string, below: string) =>
  `${above === below ? `both ${above}` : `${above} and ${below}`} of one material`

const STEP_WHY =
  'A big step is hard to seat in a knot, tangles, and loses strength at once; on paper the cast itself passes it.'

const SENTENCES: { readonly [Id in CheckId]: Sentences<Found<Id>> } = {
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
  'step-up': stepUpSentences,
  'same-neighbours': ({ measured: m }, say) => ({
    title: 'Two pieces alike',
    why: 'The knot between them gains nothing, costs strength and picks up weed; one longer piece does the same.',
    measured: sizesAlike(say.diameter(m.diameter_m), say.diameter(m.below_m)),
    usual: 'one piece',
  }),
  'knot-unsuited': knotSentences,
  'segment-length': segmentLengthSentences,
  'butt-and-line': ({ measured: m, limit: l, variant }, say) => ({
    title: variant === 'thin' ? 'Butt thin for the line' : 'Butt stout for the line',
    why:
      variant === 'thin'
        ? 'Much less mass than the line’s tip: the joint folds over it and the turn arrives weak.'
        : 'Nearly as heavy as the line’s tip, or heavier: the line cannot lead it and the joint kicks.',
    measured: `${say.percent(m.ratio)} of the tip of a ${m.line}, ${say.percent(m.massRatio)} of its mass`,
    usual: `${say.percent(l.low)} to ${say.percent(l.high)} of the line’s tip`,
  }),
  shares: ({ measured: m, limit: l, variant }, say) => ({
    title: SHARE_TITLES[variant],
    why: SHARE_WHY[variant],
    measured: `${say.percent(m.share)} of the length`,
    usual: `${say.percent(l.low)} to ${say.percent(l.high)}`,
  }),
  'weakest-link': ({ measured: m, limit: l }, say) => ({
    title: 'Breaks above the tippet first',
    why: 'A snag or a fish would take tippet and taper with it, and leave more line in the fish.',
    measured: `${'knot' in m ? knotName(m.knot) : 'this piece'} holds ${say.force(m.strength_N)} wet`,
    usual: `the tippet breaks first; it holds ${say.force(l.strength_N)}`,
  }),
  'slipping-materials': ({ measured: m }) => ({
    title: 'These two materials slip',
    why: 'Fluorocarbon is slick and harder than nylon; this knot lets one creep through the other.',
    measured: `${m.above} to ${m.below} by ${knotName(m.knot)}`,
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
        ? 'A few changes of fly and you are tying to the taper; a floating fly drags sooner.'
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
    measured: `${say.diameter(m.diameter_m)} with a size ${m.hook}`,
    usual: `${rangeOfX(l)}: hook size divided by ${l.by4} to ${l.by3}`,
  }),
  turnover: turnoverSentences,
  label: ({ measured: m, limit: l }, say) => ({
    title: 'Label and diameter disagree',
    why: `The diameter says ${l.label}. One of the two is wrong, and strength and stiffness follow the diameter.`,
    measured: `labelled ${m.label}, ${say.diameter(m.diameter_m)} thick`,
    usual: `${m.label} is ${say.diameter(l.diameter_m)}`,
  }),
  'stated-total': ({ measured: m, limit: l }, say) => ({
    title: 'The stated total does not match',
    why: 'A piece was misread, or the recipe’s total is a round figure. The sum is what you will tie.',
    measured: `the pieces make ${say.length(m.total_m)}`,
    usual: `stated as ${say.length(l.total_m)}`,
  }),
  'record-rules': recordSentences,
}

const SHARE_TITLES: Readonly<Record<Found<'shares'>['variant'], string>> = {
  'butt-small': 'Butt short for the purpose',
  'butt-large': 'Butt long for the purpose',
  'mid-small': 'Mid-section short for the purpose',
  'mid-large': 'Mid-section long for the purpose',
  'tippet-small': 'Tippet short of its usual share',
  'tippet-large': 'Tippet over its usual share',
}

const SHARE_WHY: Readonly<Record<Found<'shares'>['variant'], string>> = {
  'butt-small': 'The butt’s mass carries the turn; with less of it the cast must be faster.',
  'butt-large': 'Much mass close to the fly: it turns over easily and comes down hard.',
  'mid-small': 'From stout to fine in little length: the fly comes round fast.',
  'mid-large': 'A long middle sheds speed: it wants a fuller cast.',
  'tippet-small': 'The taper comes close to the fly: it lands harder and drags sooner.',
  'tippet-large': 'The thin end has little mass to turn a fly with.',
}

function stepUpSentences(finding: Found<'step-up'>, say: Say): FindingWords {
  const why =
    'A taper sheds mass towards the fly so that the turn keeps its speed; a thicker piece takes speed away and then hits hard.'
  if (finding.variant === 'up') {
    return {
      title: 'Thicker towards the fly',
      why,
      measured: `grows by ${say.step(finding.measured.step_m)}`,
      usual: 'the same or thinner',
    }
  }
  const { joints, from_m, to_m } = finding.measured
  return {
    title: 'The taper runs the wrong way',
    why,
    measured: `${joints} joints thicken, from ${say.diameter(from_m)} at the line to ${say.diameter(to_m)} at the fly`,
    usual: 'thick at the line, thin at the fly',
  }
}

function knotSentences(finding: Found<'knot-unsuited'>, say: Say): FindingWords {
  const name = knotName(finding.measured.knot)
  switch (finding.variant) {
    case 'not-at-line':
    case 'not-at-between':
    case 'not-at-fly':
      return {
        title: WRONG_KNOT[finding.variant],
        why: `${capital(withArticle(name))} cannot make this joint.`,
        measured: name,
        usual: spoken(finding.limit.knots),
      }
    case 'reduction':
      return {
        ...unsuited(name, BEDDING),
        measured: `${say.percent(finding.measured.reduction)} thinner`,
        usual: `at most ${say.percent(finding.limit.reduction)} thinner`,
      }
    case 'step':
      return {
        ...unsuited(name, BEDDING),
        measured: `a step of ${say.step(finding.measured.step_m)}`,
        usual: `at most ${say.step(finding.limit.step_m)}`,
      }
    case 'fine':
      return {
        ...unsuited(name, 'In so fine a strand its turns are slow to draw down and easily cross.'),
        measured: say.diameter(finding.measured.diameter_m),
        usual: `from ${say.diameter(finding.limit.diameter_m)}`,
      }
  }
}

const WRONG_KNOT = {
  'not-at-line': 'Wrong knot at the line',
  'not-at-between': 'Wrong knot between two pieces',
  'not-at-fly': 'Wrong knot at the fly',
} as const

const BEDDING =
  'Its turns bed into each other only on strands of like size; on others it seats badly and slips or cuts.'

const unsuited = (name: string, why: string) => ({
  title: `${capital(withArticle(name))} does not suit this joint`,
  why,
})

function segmentLengthSentences(finding: Found<'segment-length'>, say: Say): FindingWords {
  if (finding.variant === 'long') {
    const { measured: m, limit: l } = finding
    return {
      title: 'One piece is most of the taper',
      why: 'A single long piece is a level leader with ends; shared out, the thinning is smoother.',
      measured: `${say.length(m.length_m)}, ${say.percent(m.share)} of the length`,
      usual: `at most ${say.percent(l.share)}`,
    }
  }
  const touching = finding.variant === 'knots-touch'
  return {
    title: touching ? 'Too short to tie' : 'Short piece',
    why: touching
      ? 'The knots at its two ends would touch: neither can be drawn tight.'
      : 'Hard to hold while tying, and two knots close together tangle.',
    measured: say.length(finding.measured.length_m),
    usual: `at least ${say.length(finding.limit.length_m)}`,
  }
}

const TURNOVER_WHY: Readonly<Record<Found<'turnover'>['variant'], string>> = {
  'falls-short':
    'With all that this caster can do, too few casts lie out: there is too little mass above the tip, or too much drag in the fly.',
  'kicks-back': KICKS_BACK,
  'lands-hard':
    'What comes over comes down hard: more power arrives at the tip than this fly can use.',
  'lies-straight':
    'It lies straighter than a slack-line leader is meant to: there is no slack for the fly to float on.',
  'will-not-go-over':
    'Whatever this caster does, the fly comes down in a heap: there is too little mass above the tip, or too much drag in the fly, for it to be carried round.',
}

function turnoverSentences(
  { measured: m, limit: l, variant }: Found<'turnover'>,
  say: Say,
): FindingWords {
  return {
    title: STATE_TITLES[variant === 'will-not-go-over' ? 'will not go over' : 'falls short'],
    why: TURNOVER_WHY[variant],
    measured: `at best ${inHundred(m.room)} casts lie as they should and ${Math.round(m.roomRecoilForgiven * 100)} come over, at ${say.speed(m.lineSpeed_m_s)}`,
    usual: `at least ${inHundred(l.roomRecoilForgiven)} casts come over`,
  }
}

const RECORD_TITLES: Readonly<Record<Found<'record-rules'>['variant'], string>> = {
  'class-short': 'Class tippet too short for a record',
  'class-strong': 'Class tippet too strong for a record',
  'shock-long': 'Shock tippet too long for a record',
}

function recordSentences(finding: Found<'record-rules'>, say: Say): FindingWords {
  const [measured, limit] =
    finding.variant === 'class-strong'
      ? [say.force(finding.measured.strength_N), say.force(finding.limit.strength_N)]
      : [say.length(finding.measured.length_m), say.length(finding.limit.length_m)]
  return {
    title: RECORD_TITLES[finding.variant],
    why: 'A fish caught on it would not count as a fly record. For fishing it may be just right; local rules decide.',
    measured,
    usual: `${finding.variant === 'class-short' ? 'at least' : 'at most'} ${limit}`,
  }
}

function rangeOfX({ lowX, highX }: Found<'tippet-and-fly'>['limit']): string {
  const [low, high] = [Math.round(lowX), Math.round(highX)]
  return low === high ? `${low}X` : `${low}X to ${high}X`
}

export function describeFinding(finding: Finding, say: Say): FindingWords {
  return (SENTENCES[finding.id] as Sentences<Finding>)(finding, say)
}

type Offer<Id extends RemedyId> = (edit: EditFor<Id>, say: Say) => string

const OFFERS: { readonly [Id in RemedyId]: Offer<Id> } = {
  'insert-between': ({ segment: { length, diameter } }, say) =>
    `Put ${say.length(length.si)} of ${say.diameter(diameter.si)} in between`,
  'match-above': ({ diameter }, say) => `Make it ${say.diameter(diameter.si)} like the piece above`,
  join: () => 'Join the two into one',
  'turn-round': () => 'Turn the leader round',
  'change-knot': (edit) => `Tie ${withArticle(knotName(edit.knot))} here`,
  lengthen: ({ at, length }, say) => `Lengthen piece ${at + 1} to ${say.length(length.si)}`,
  shorten: ({ at, length }, say) => `Shorten piece ${at + 1} to ${say.length(length.si)}`,
  remove: () => 'Leave this piece out',
  'set-diameter': ({ at, diameter }, say) => `Make piece ${at + 1} ${say.diameter(diameter.si)}`,
  'move-length': ({ amount_m, from, to }, say) =>
    `Move ${say.length(amount_m)} from piece ${from + 1} to piece ${to + 1}`,
  scale: ({ total_m }, say) => `Scale all to ${say.length(total_m)}`,
  restep: ({ tippet }, say) => `Tippet of ${say.diameter(tippet.si)}, taper re-stepped`,
  'fit-butt': ({ butt }, say) => `Butt of ${say.diameter(butt.si)}, taper re-stepped`,
  'smaller-fly': ({ hook }) => `A size ${hook} instead`,
  relabel: (edit) => `Label it ${edit.label}`,
  restate: ({ total }, say) => `State ${say.length(total.si)}`,
}

/** What a remedy's button says. */
export function describeRemedy({ id, edit }: Remedy, say: Say): string {
  return (OFFERS[id] as (edit: Remedy['edit'], say: Say) => string)(edit, say)
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
  turnover: 'how it goes over',
  label: 'labels',
  'stated-total': 'stated total',
  'record-rules': 'record rules',
}

export const LIMIT_NAMES: Readonly<Record<LimitId, string>> = {
  stepRatioButt: 'Step in the butt: diameter kept, at least',
  stepRatioMiddle: 'Step in the mid-section: kept, at least',
  stepRatioTip: 'Step into the tippet: kept, at least',
  stepRatioStrong: 'Any step: a caution where less is kept than',
  stepSize: 'Any step, at most',
  shortestPiece: 'Shortest piece',
  longestMiddleShare: 'Longest single mid-section piece',
  buttRatioLow: 'Butt over line tip, at least',
  buttRatioHigh: 'Butt over line tip, at most',
  buttShareLow: 'Share of butt, at least',
  buttShareHigh: 'Share of butt, at most',
  midShareLow: 'Share of middle, at least',
  midShareHigh: 'Share of middle, at most',
  tippetShareLow: 'Share of tippet, at least',
  tippetShareHigh: 'Share of tippet, at most',
  rodsLow: 'Total length, at least',
  rodsHigh: 'Total length, at most',
  tippetShortest: 'Shortest tippet',
  tippetLongest: 'Longest tippet',
  fishPull: 'Strength over weight of fish',
  flyRuleLow: 'Stoutest tippet: hook size divided by',
  flyRuleHigh: 'Finest tippet: hook size divided by',
}

const REASONS: Readonly<Record<NotCheckedReason, string>> = {
  'no-line': 'no fly line is chosen',
  'no-rod': 'no rod length is given',
  'no-fish': 'no fish is given',
  'no-fly': 'no fly is chosen',
  'not-flown': 'it is not flown yet',
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
