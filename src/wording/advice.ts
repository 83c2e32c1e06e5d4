import type {
  Break,
  Change,
  ChangeCode,
  Judgement,
  Reason,
  ReasonCode,
  ReasonFigures,
  RebuildStep,
  RigId,
  TangleCode,
} from '../engine/advice'
import type { ClauseResult, RecordClause } from '../engine/checks'
import type { Distance, DropperWay, Wariness, Water, Wind } from '../engine/leader'
import type { KnotId } from '../engine/materials'
import type { BackingId, FlyStyle, LineBuoyancy, LineTaper, LineUse } from '../engine/tackle'
import type { Say } from './say'
import { inHundred } from './say'
import { knot } from '../engine/materials'
import { recordClassOf } from '../engine/checks'
import { formatHook } from '../engine/tackle'
import { diameterOfX, formatSi, formatX } from '../engine/units'
import { FLY_NAMES, PURPOSE_NAMES } from './names'

export const WATER_NAMES: Readonly<Record<Water, string>> = {
  'small-stream': 'Small or overgrown stream',
  'pocket-water': 'Pocket water, fast and broken',
  riffle: 'Riffle or run',
  flat: 'Flat, slow and clear',
  'still-water': 'Still water',
  'salt-water': 'Salt water',
}

export const WARINESS_NAMES: Readonly<Record<Wariness, string>> = {
  easy: 'Unwary',
  usual: 'As usual',
  pressured: 'Pressured, seen many flies',
}

export const DISTANCE_NAMES: Readonly<Record<Distance, string>> = {
  near: 'Near, under 8 m',
  usual: 'Usual',
  far: 'Far, over 14 m',
}

export const WIND_NAMES: Readonly<Record<Wind, string>> = {
  calm: 'Calm',
  breeze: 'Breeze',
  strong: 'Strong wind',
}

export const RIG_NAMES: Readonly<Record<RigId, string>> = {
  single: 'One fly',
  'dry-and-dropper': 'Dry and dropper',
  'two-dries': 'Two dries',
  'two-nymphs': 'Two nymphs',
  indicator: 'Nymph under an indicator',
  'tight-line': 'Tight-line nymph with a sighter',
  'wet-team': 'Team of three wet flies',
  streamer: 'Streamer on an open loop',
}

export const WAY_NAMES: Readonly<Record<DropperWay, string>> = {
  tag: 'on the tag of the knot',
  bend: 'off the bend of the hook above',
  ring: 'on a tippet ring',
  loop: 'on a loop of its own',
}

export const TAPER_NAMES: Readonly<Record<LineTaper, string>> = {
  WF: 'Weight forward',
  DT: 'Double taper',
  ST: 'Single taper',
  L: 'Level',
  SH: 'Shooting head',
}

export const BUOYANCY_NAMES: Readonly<Record<LineBuoyancy, string>> = {
  F: 'floating',
  I: 'intermediate',
  S: 'sinking',
  'F/S': 'sink tip',
}

export const USE_NAMES: Readonly<Record<LineUse, string>> = {
  delicacy: 'Delicacy',
  'roll-cast': 'Roll cast',
  wind: 'Wind',
  distance: 'Distance',
  'big-flies': 'Big flies',
}

export const SUIT_WORDS = ['poorly', 'passably', 'well'] as const

export const BACKING_NAMES: Readonly<Record<BackingId, string>> = {
  'braid-20': 'Braided polyester, 20 lb',
  'braid-30': 'Braided polyester, 30 lb',
  'gel-spun-50': 'Gel-spun fibre, 50 lb',
}

/** "5X", ".012 in" where it is stouter than any X. */
export function xText(x: number): string {
  const diameter = diameterOfX(x)
  return x >= 0 ? formatX(diameter) : formatSi(diameter, 'diameter', 'in')
}

export function xRange({ stoutX, fineX }: { stoutX: number; fineX: number }): string {
  return stoutX === fineX ? xText(stoutX) : `${xText(stoutX)} to ${xText(fineX)}`
}

/** "Parachute dry 14". */
export function flyText({ style, hook }: { style: FlyStyle; hook: number }): string {
  return `${FLY_NAMES[style]} ${formatHook(hook)}`
}

const times = (factor: number) => {
  const share = Math.round((factor - 1) * 100)
  return share < 0 ? `${-share} % shorter` : `${share} % longer`
}
/** Of a fly's drag there may be very little: never rounded to nothing. */
const ratio = (value: number) => (value < 1 ? value.toPrecision(1) : value.toFixed(1))
/** What was changed for the sake of the cast: 4X instead of 5X, less of it, a shorter leader. */
function changedTo(f: ReasonFigures['thrown-changed'], say: Say): string {
  const changes = [
    ...(f.toX === f.x ? [] : [`${xText(f.toX)} instead of ${xText(f.x)}`]),
    ...(f.toTippet_m === f.tippet_m
      ? []
      : [`${say.length(f.toTippet_m)} of tippet instead of ${say.length(f.tippet_m)}`]),
    ...(f.toLength_m === f.length_m
      ? []
      : [`${say.length(f.toLength_m)} in all instead of ${say.length(f.length_m)}`]),
  ]
  const last = changes.at(-1) ?? ''
  return changes.length > 1 ? `${changes.slice(0, -1).join(', ')} and ${last}` : last
}
const GPa = (pascal: number) => `${(pascal / 1e9).toFixed(1)} GPa`

type ReasonSentence<Figures> = (f: Figures, say: Say) => string
const REASONS: { readonly [Code in ReasonCode]: ReasonSentence<ReasonFigures[Code]> } = {
  'rule-by-hook': (f) =>
    `Hook ${formatHook(f.hook)} divided by ${f.by4} (fast water) to ${f.by3} (slow): ${xRange(f)}.`,
  'rule-not-for-style': (f) =>
    `The rule by hook size is not applied: practice does not size tippets so for streamers, poppers and deer hair. Tables of the trade give a hook ${formatHook(f.hook)} ${xRange(f)}.`,
  'rule-not-for-hook': (f) =>
    `The rule by hook size is not applied: practice leaves it at so large a hook. Tables of the trade give a hook ${formatHook(f.hook)} ${xRange(f)}.`,
  'rule-not-for-water': () =>
    'The rule by hook size is not applied in salt water: there the tippet goes by strength.',
  'light-fly': (f) =>
    `Light for its hook (${ratio(f.dragRatio)} times the air drag of a hackled dry): the finer end.`,
  'sinking-stouter': () =>
    'Behind a line that sinks the leader is short, and a fish takes on a straight line with nothing to give: the stouter end.',
  'ordinary-fly': () => 'Neither light nor heavy for its hook: the middle.',
  'unruled-middle': () => 'Of the sizes that would do, the middle.',
  'heavy-fly': (f) =>
    `Heavy or bulky for its hook (${ratio(f.massRatio)} times the mass and ${ratio(f.dragRatio)} times the air drag of a hackled dry): the stouter end.`,
  'wary-longer-first': () => 'The water asks for caution: longer first, so the tippet stays.',
  'wary-finer': () =>
    'Water, fish or distance ask for much caution: longer first, then one size finer.',
  'wind-stouter': () => 'Strong wind: shorter first, then one size stouter.',
  'warm-stouter': () =>
    'Warm water: one size stouter, so that the fish is landed soon. Above about 18 °C leave trout alone.',
  'fish-stouter': (f, say) =>
    `The fish asks for a strand that holds ${say.force(f.strand_N)} wet: ${xText(f.toX)} instead of ${xText(f.fromX)}.`,
  'rule-bounds': (f) =>
    `The hook decides: no more than one size beyond its rule, so a ${formatHook(f.hook)} stays at ${xText(f.toX)}.`,
  'fish-beyond': (f) =>
    `Fish and fly do not go together, and the hook decides: the fish asks for ${xText(f.heldX)}, a ${formatHook(f.hook)} takes nothing stouter than ${xText(f.toX)}. Play it gently and give it line, or tie on a bigger fly${f.biggerHook === undefined ? '' : `: a ${formatHook(f.biggerHook)} takes it`}. A fish fought long on too light a tippet may die of it.`,
  'thrown-holds': (f) =>
    `Thrown by this caster, ${inHundred(f.room)} casts come over: it stays as it is.`,
  'thrown-best': (f) =>
    `Thrown by this caster, only ${inHundred(f.room)} casts come over, and nothing stouter or shorter that practice allows does better.`,
  'thrown-changed': (f, say) =>
    `Thrown as the rules have it, ${inHundred(f.firstRoom)} casts come over; with ${changedTo(f, say)}, ${inHundred(f.room)} do.`,
  'thrown-in-vain': (f) =>
    `Thrown as the rules have it, ${inHundred(f.firstRoom)} casts come over; of the best leader that practice allows, ${inHundred(f.room)}.`,
  'not-thrown': () => 'No casts of it were flown, so it stays as the rules have it.',
  'length-rod': (f, say) =>
    f.isGiven
      ? `About the length of the rod, ${say.length(f.rod_m)}.`
      : `About the length of the rod; no rod is given, so ${say.length(f.rod_m)} is taken.`,
  'length-water': (f) => `${WATER_NAMES[f.water]}: ${ratio(f.rods)} rods.`,
  'length-line': (f, say) =>
    `Behind a ${f.line} the leader is short, ${say.length(f.length_m)}, so that the fly stays as deep as the line.`,
  'length-streamer': () => 'A streamer does not mind the line, and a shorter leader turns it over.',
  'length-pressured': (f) => `Pressured fish: ${times(f.factor)}.`,
  'length-easy': (f) => `Unwary fish: ${times(f.factor)}.`,
  'length-far': (f) => `Far cast, where the line lands hard: ${times(f.factor)}.`,
  'length-near': (f) => `Near cast, little line out to turn it over: ${times(f.factor)}.`,
  'length-wind': (f) => `Wind: ${times(f.factor)}.`,
  'length-bulky': (f) => `A wind-resistant fly: ${times(f.factor)}.`,
  'length-bound': (f, say) =>
    `${say.length(f.wanted_m)} would leave what is usual for the purpose and this rod.`,
  'tippet-length': (f, say) => `Of it ${say.length(f.length_m)} is tippet.`,
  'material-floats': (f) =>
    `The fly floats, and nylon (${f.density_kg_m3} kg/m³) barely sinks where fluorocarbon (${f.other_kg_m3}) draws it under; water weighs ${Math.round(f.water_kg_m3)}.`,
  'material-sinks': (f) =>
    `The fly sinks, and fluorocarbon (${f.density_kg_m3} kg/m³) sinks with it; nylon (${f.other_kg_m3}) lags.`,
  'material-film': () =>
    'The fly hangs in the film: nylon keeps it there; degrease its last inches.',
  'material-stiffness': (f) =>
    `Wet, it bends at ${GPa(f.wet_Pa)} against ${GPa(f.other_Pa)}, either known within a factor of two: the less, the freer the fly.`,
  'material-abrasion': () => 'Rock and weed: fluorocarbon takes scuffing better than nylon.',
  'material-knots': () =>
    'Fluorocarbon wants an extra turn and wetting well; to nylon, three passes of a surgeon’s knot.',
  'material-cost': () =>
    'Fluorocarbon costs several times as much and outlasts you in the water: take every offcut home.',
  'bite-teeth': (f, say) =>
    `Teeth cut nylon and fluorocarbon: ${say.length(f.length_m)} of knottable wire stand between them and the tippet, stronger than the tippet, which must part first.`,
  'bite-knot': (f) =>
    `Wire is tied to the tippet with an ${knot(f.knot).name}, and to the fly with an open loop, so that it swings.`,
  'strength-unknown': (f, say) => `No fish is given, so ${say.mass(f.fish_kg)} is taken.`,
  'strength-weight': (f, say) =>
    `A fish of ${say.mass(f.fish_kg)} that is given line pulls about ${say.percent(f.share)} of its weight: ${say.force(f.pull_N)}.`,
  'strength-current': (f, say) =>
    `A current of ${say.speed(f.current_m_s)} on its side adds ${say.force(f.pull_N)}.`,
  'strength-shock': (f) => `A jerk on this rod: times ${f.factor}.`,
  'strength-snags': (f) => `Snags, so it must be stopped: times ${f.factor}.`,
  'strength-knots': (f, say) =>
    `Its knots keep ${say.percent(f.efficiency)}, so the strand must hold ${say.force(f.strand_N)} wet: ${say.diameter(f.diameter_m)} or stouter.`,
}
export const REASON_CODES = Object.keys(REASONS) as ReasonCode[]

/** A reason as a sentence. */
export function describeAdvice({ code, figures }: Reason, say: Say): string {
  return (REASONS[code] as ReasonSentence<Reason['figures']>)(figures, say)
}

const knotName = (id: KnotId) => knot(id).name.toLowerCase()

type ChangeSentence<C extends Change> = (figures: C['figures'], say: Say) => string
const CHANGES: {
  readonly [Code in ChangeCode]: ChangeSentence<Extract<Change, { code: Code }>>
} = {
  scaled: (f, say) => `Scaled from ${say.length(f.from_m)} to ${say.length(f.to_m)}`,
  'tippet-length': (f, say) => `Tippet ${say.length(f.from_m)} to ${say.length(f.to_m)}`,
  'tippet-diameter': (f, say) => `Tippet ${say.diameter(f.from_m)} to ${say.diameter(f.to_m)}`,
  'tippet-material': (f) => `Tippet of ${f.to.toLowerCase()} instead of ${f.from.toLowerCase()}`,
  butt: (f, say) =>
    `Piece ${f.piece}, butt, ${say.diameter(f.from_m)} to ${say.diameter(f.to_m)}, to suit the line`,
  restepped: (f, say) =>
    `Piece ${f.piece} re-stepped from ${say.diameter(f.from_m)} to ${say.diameter(f.to_m)}`,
  'piece-added': (f, say) =>
    `Piece ${f.piece} added: ${say.length(f.length_m)} of ${say.diameter(f.diameter_m)}`,
  'bite-added': (f, say) =>
    `Piece ${f.piece} added against teeth: ${say.length(f.length_m)} of ${say.diameter(f.diameter_m)} ${f.material.toLowerCase()}`,
  'piece-lengthened': (f, say) =>
    `Piece ${f.piece} kept at ${say.length(f.length_m)}, so that it can be tied`,
  knot: (f) => `Knot ${f.joint + 1}: ${knotName(f.to)} instead of ${knotName(f.from)}`,
  purpose: (f) =>
    `Purpose: ${PURPOSE_NAMES[f.to].toLowerCase()} instead of ${PURPOSE_NAMES[f.from].toLowerCase()}`,
  line: (f) => `Line: ${f.to}${f.from === undefined ? '' : ` instead of ${f.from}`}`,
  fly: (f) => `Fly: ${FLY_NAMES[f.style].toLowerCase()} ${formatHook(f.hook)}`,
}
export const CHANGE_CODES = Object.keys(CHANGES) as ChangeCode[]

export function describeChange({ code, figures }: Change, say: Say): string {
  return (CHANGES[code] as ChangeSentence<Change>)(figures, say)
}

/** A thing of the brief against the leader: "12 ft asked, 9 ft here". */
export function describeJudgement(judgement: Judgement, say: Say): string {
  if (judgement.what === 'material') {
    const { measured, low } = judgement
    return `Tippet of ${measured.toLowerCase()}; asked ${low.toLowerCase()}`
  }
  const { what, measured, low, high } = judgement
  const range = (text: (value: number) => string) =>
    text(low) === text(high) ? text(low) : `${text(low)} to ${text(high)}`
  switch (what) {
    case 'tippet':
      return `Tippet ${say.diameter(measured)}; asked ${range(say.diameter)}`
    case 'length':
      return `Length ${say.length(measured)}; asked ${range(say.length)}`
    case 'bite':
      return measured > 0
        ? `${say.length(measured)} against teeth`
        : `Nothing against teeth; asked ${say.length(low)} of wire`
    case 'strength':
      return `Holds ${say.force(measured)} wet; the fish asks ${say.force(low)}`
  }
}

const CLAUSES: Readonly<Record<RecordClause, string>> = {
  'class-length': 'Class tippet at least 15 in inside its knots',
  'class-strength': 'Class tippet of 20 lb (10 kg) at most',
  'class-material': 'Class tippet not of metal',
  'shock-length': 'Shock tippet at most 12 in with its knots',
  'rod-length': 'Rod at least 6 ft',
  flies: 'Two flies at most, and two for salmon and trout only',
  butt: 'Butt and taper free',
}

const CLAUSE_STATUS = {
  pass: 'Kept',
  fail: 'Not kept',
  unknown: 'Not known',
  'not-used': 'Not used',
} as const

const classText = (tested_N: number) => {
  const label = recordClassOf(tested_N)
  return label === undefined ? '' : `, the ${label} lb class if it tests so wet`
}

/** A clause of the record rules, with what was measured. */
export function describeClause({ clause, status, measured }: ClauseResult, say: Say) {
  const figure =
    measured === undefined
      ? ''
      : clause === 'class-strength'
        ? `: ${say.force(measured)}${classText(measured)}`
        : clause === 'flies'
          ? `: ${measured}`
          : `: ${say.length(measured)}`
  return { clause: CLAUSES[clause], status: `${CLAUSE_STATUS[status]}${figure}` }
}

const TANGLES: Readonly<Record<TangleCode, (figure: string) => string>> = {
  'flies-close': (figure) => `Flies only ${figure} apart tangle: at least a foot.`,
  'tag-long': (figure) => `A tag of ${figure} wraps round the leader: 6 in at most, 3 in wind.`,
  'tag-short': (figure) => `A tag of ${figure} is too short to tie another fly to: at least 3 in.`,
}

export function describeTangle(code: TangleCode, figure_m: number, say: Say): string {
  return TANGLES[code](say.length(figure_m))
}

const LINKS = {
  segment: 'in the strand',
  joint: 'at a knot of the leader',
  dropper: 'in the dropper’s strand',
  'dropper-knot': 'at the dropper’s knot',
  'dropper-eye': 'at the dropper’s eye',
} as const

/** Where a held fly breaks off, and what goes with it. */
export function describeBreak({ fly, weakest, fliesLost, lost_m }: Break, say: Say): string {
  const name = fly ? flyText(fly.fly) : 'The end'
  const what = fliesLost === 1 ? 'one fly' : `${fliesLost} flies`
  const length = lost_m > 0.02 ? ` and ${say.length(lost_m)} of leader` : ''
  return `${name} held fast: breaks ${LINKS[weakest.kind]} at ${say.force(weakest.strength.value)} (${say.force(weakest.strength.low)} to ${say.force(weakest.strength.high)}); lost: ${fliesLost === 0 ? 'no fly' : what}${length}.`
}

/** A step of rebuilding an old leader, in the order of the work. */
export function describeStep(step: RebuildStep, say: Say): string {
  switch (step.kind) {
    case 'keep':
      return `Piece ${step.piece + 1}: keep old piece ${step.old + 1}, ${say.length(step.length_m)}${step.cutOff_m > 0.005 ? `; cut ${say.length(step.cutOff_m)} off` : ''}`
    case 'from-spool':
      return `Piece ${step.piece + 1}: tie in ${say.length(step.length_m)} of ${say.diameter(step.diameter_m)} from “${step.spool}”${Math.abs(step.diameter_m / step.wanted_m - 1) > 0.02 ? ` for ${say.diameter(step.wanted_m)}` : ''}`
    case 'no-spool':
      return `Piece ${step.piece + 1}: no spool near ${say.diameter(step.wanted_m)}; ${say.length(step.length_m)} of it is wanted`
    case 'discard':
      return `Old piece ${step.old + 1}, ${say.length(step.length_m)}: take it home`
  }
}
