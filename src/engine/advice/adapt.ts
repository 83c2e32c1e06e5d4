import type { FlyChoice, Leader, Outfit, Purpose, Conditions, Segment } from '../leader'
import type { KnotId, Material } from '../materials'
import type { FlyStyle } from '../tackle'
import type { BiteAdvice } from './bite'
import { estimateTurnover } from '../cast'
import { limitFor } from '../checks'
import {
  buttTo,
  diameter_m,
  materialOf,
  restepTo,
  roundedDiameter,
  scaleTo,
  setJoint,
  setSegment,
  tippetIndex,
  totalLength_m,
} from '../leader'
import { knot, seatingFault } from '../materials'
import { profileOf } from '../profile'
import { CASTERS, lineFigures } from '../tackle'
import { diameterOfX, quantityOf, xOfDiameter } from '../units'
import { withBite } from './bite'

/** A formula that advice may start from. */
export interface Candidate {
  readonly id: string
  readonly leader: Leader
}

/** What the adapted leader is to be. */
export interface Target {
  readonly name: string
  readonly purpose: Purpose
  /** From the line to the fly, with the bite piece where there is one. */
  readonly length_m: number
  readonly tippetX: number
  readonly tippet_m: number
  readonly material: Material
  readonly bite?: BiteAdvice | undefined
  readonly outfit: Outfit
  readonly conditions: Conditions
  readonly fly: FlyChoice
}

type FromTo = { from_m: number; to_m: number }
/** Counted from 1 at the butt. */
type OfPiece = { piece: number }

/** What is said of each kind of change; SI. */
interface ChangeFigures {
  scaled: FromTo
  'tippet-length': FromTo
  'tippet-diameter': FromTo
  'tippet-material': { from: string; to: string }
  butt: OfPiece & FromTo
  restepped: OfPiece & FromTo
  'piece-added': OfPiece & { diameter_m: number; length_m: number }
  'piece-lengthened': OfPiece & { length_m: number }
  'bite-added': OfPiece & { diameter_m: number; length_m: number; material: string }
  knot: { joint: number; from: KnotId; to: KnotId }
  purpose: { from: Purpose; to: Purpose }
  line: { from: string | undefined; to: string }
  fly: { style: FlyStyle; hook: number }
}
export type ChangeCode = keyof ChangeFigures

/** One thing that was changed on the way from the formula to the leader. */
export type Change = {
  [Code in ChangeCode]: { readonly code: Code; readonly figures: Readonly<ChangeFigures[Code]> }
}[ChangeCode]

const FEWEST_PIECES = 3

/** Formulas that are whole leaders of one strand: rigs and teaching shapes are no place to start from. */
function isFit({ leader }: Candidate): boolean {
  const { segments, purpose } = leader
  const isPlain = segments.every(
    (s) =>
      s.attachments.length === 0 && s.part !== 'sighter' && s.part !== 'shock' && s.part !== 'bite',
  )
  const tippets = segments.filter((s) => s.part === 'tippet').length
  return isPlain && tippets === 1 && segments.length >= FEWEST_PIECES && purpose !== 'teaching'
}

/** So many of the nearest are adapted and compared. */
const TRIED = 4

/** Where to start from where nothing is made for a purpose: what is built most like it; estimate. */
const BUILT_LIKE: Readonly<Partial<Record<Purpose, readonly Purpose[]>>> = {
  'general-dry': ['nymph', 'slack-line-dry'],
  'slack-line-dry': ['general-dry'],
  nymph: ['general-dry'],
  streamer: ['salt-water', 'general-dry'],
  'still-water': ['general-dry', 'nymph'],
  'sinking-line': ['streamer'],
  'salt-water': ['streamer'],
  'bite-tippet': ['streamer', 'salt-water'],
}

/**
 * The formula of its purpose that takes least change, and of the nearest few one that then turns the fly over
 * before one that does not. Undefined where none is fit.
 */
export function nearest(candidates: readonly Candidate[], target: Target): Candidate | undefined {
  const fit = startsFor(candidates.filter(isFit), target.purpose)
  const near = sortedBy(fit, (c) => farness(c.leader, target)).slice(0, TRIED)
  return sortedBy(near, (c) => farness(c.leader, target) + shortfall(c.leader, target))[0]
}

function startsFor(fit: readonly Candidate[], purpose: Purpose): readonly Candidate[] {
  const purposes = [purpose, ...(BUILT_LIKE[purpose] ?? [])]
  const found = purposes
    .map((each) => fit.filter(({ leader }) => leader.purpose === each))
    .find((list) => list.length > 0)
  return found ?? fit
}

function sortedBy<T>(list: readonly T[], score: (item: T) => number): T[] {
  return list
    .map((item) => ({ item, score: score(item) }))
    .sort((a, b) => a.score - b.score)
    .map(({ item }) => item)
}

/** How far the adapted leader is from turning over by the estimate, in powers of e of line speed; 0 where it does. */
function shortfall(formula: Leader, target: Target): number {
  const { leader } = adapt(formula, target)
  const estimate = estimateTurnover(leader, profileOf(leader))
  const needed = typeof estimate === 'string' ? null : estimate.neededSpeed_m_s.value
  const thrown = CASTERS[target.outfit.caster ?? 'ordinary'].lineSpeed_m_s
  return needed === null ? 0 : Math.max(0, Math.log(needed / thrown))
}

/** How far a formula is from a target: length, tippet, line; the weights are estimates. */
function farness(leader: Leader, target: Target): number {
  const tippet = leader.segments[tippetIndex(leader)]
  const x = tippet ? xOfDiameter(diameter_m(tippet)) : 0
  const lines = [leader.outfit.line?.weight, target.outfit.line?.weight] as const
  return (
    2 * Math.abs(Math.log(totalLength_m(leader) / target.length_m)) +
    0.15 * Math.abs(x - target.tippetX) +
    (lines[0] && lines[1] ? 0.1 * Math.abs(lines[0] - lines[1]) : 0)
  )
}

/** The formula adapted to the target, with everything that was changed. */
export function adapt(
  formula: Leader,
  target: Target,
): { readonly leader: Leader; readonly changes: readonly Change[] } {
  const bare = withoutOccasion(formula, target)
  const scaled = scaledTo(bare, target.length_m - (target.bite?.length_m ?? 0), target.tippet_m)
  const stepped = restepTo(fittedButt(scaled, target), tippetOf(target, formula))
  const knotted = withKnots(withTippetMaterial(stepped, target.material))
  const leader = target.bite ? withBite(knotted, target.bite) : knotted
  return { leader, changes: changesBetween(formula, leader) }
}

/** What was said of the old leader alone does not go with it: notes, stated total, its fly and fish. */
function withoutOccasion(formula: Leader, target: Target): Leader {
  const { notes: _n, statedTotal: _t, extra: _e, ...rest } = formula
  return {
    ...rest,
    name: target.name,
    purpose: target.purpose,
    outfit: target.outfit,
    brief: target.conditions,
    tip: { joint: formula.tip.joint, fly: target.fly },
  }
}

/** Set before scaling to what scaling will make the wanted length: t' = t B/(L - t), B the rest. */
function scaledTo(leader: Leader, length_m: number, tippet_m: number): Leader {
  const at = tippetIndex(leader)
  const tippet = leader.segments[at]
  if (!tippet) return scaleTo(leader, length_m)
  const rest_m = totalLength_m(leader) - tippet.length.si
  const wanted = Math.min(tippet_m, length_m * 0.6)
  const before_m = (wanted * rest_m) / (length_m - wanted)
  const length = { ...tippet.length, si: before_m }
  return scaleTo(setSegment(leader, at, { length }), length_m)
}

/** Butt pieces all stouter or finer by one factor, where the first is no match for the line. */
function fittedButt(leader: Leader, { outfit, purpose }: Target): Leader {
  const [low, high] = [limitFor('buttRatioLow', purpose), limitFor('buttRatioHigh', purpose)]
  const butt = leader.segments[0]
  if (!outfit.line || !butt || low === null || high === null) return leader
  const ratio = diameter_m(butt) / lineFigures(outfit.line).tipDiameter_m
  if (ratio >= low && ratio <= high) return leader
  const wanted_m = (diameter_m(butt) * (ratio < low ? low + 0.03 : high - 0.03)) / ratio
  return buttTo(leader, roundedDiameter(wanted_m, butt.diameter.unit))
}

/** A whole size is written as X where the formula's tippet is, else in its unit. */
function tippetOf({ tippetX }: Target, formula: Leader) {
  const unit = formula.segments[tippetIndex(formula)]?.diameter.unit ?? 'X'
  const size = diameterOfX(tippetX)
  return tippetX >= 0 && unit !== 'mm' && unit !== 'um'
    ? quantityOf(size, 'diameter', 'X')
    : roundedDiameter(size, unit === 'X' ? 'in' : unit)
}

function withTippetMaterial(leader: Leader, material: Material): Leader {
  const at = tippetIndex(leader)
  return at < 0 ? leader : setSegment(leader, at, { material: material.id })
}

/** Blood knots only where they seat: three passes of a surgeon's elsewhere. */
function withKnots(leader: Leader): Leader {
  return leader.segments.reduce((acc, s, i) => {
    const above = acc.segments[i - 1]
    if (!above || s.joint.knot === 'surgeons-triple' || s.joint.knot === 'ring') return acc
    const seats = !seatingFault(knot('blood'), diameter_m(above), diameter_m(s))
    const mixed = materialOf(acc, above.material).family !== materialOf(acc, s.material).family
    return mixed || !seats ? setJoint(acc, i, { knot: 'surgeons-triple' }) : acc
  }, leader)
}

/** Every change, whole leader first, then piece by piece. */
function changesBetween(before: Leader, after: Leader): Change[] {
  return [
    ...wholeChanges(before, after),
    ...tippetChanges(before, after),
    ...pieceChanges(before, after),
  ]
}

function wholeChanges(before: Leader, after: Leader): Change[] {
  const [from_m, to_m] = [totalLength_m(before), totalLength_m(after)]
  const lines = [before.outfit.line?.designation, after.outfit.line?.designation] as const
  const [oldFly, newFly] = [before.tip.fly?.fly, after.tip.fly?.fly]
  const sameFly = oldFly?.style === newFly?.style && oldFly?.hook === newFly?.hook
  return [
    ...(before.purpose === after.purpose
      ? []
      : [{ code: 'purpose' as const, figures: { from: before.purpose, to: after.purpose } }]),
    ...(Math.abs(from_m / to_m - 1) < 0.005
      ? []
      : [{ code: 'scaled' as const, figures: { from_m, to_m } }]),
    ...(lines[0] === lines[1] || !lines[1]
      ? []
      : [{ code: 'line' as const, figures: { from: lines[0], to: lines[1] } }]),
    ...(sameFly || !newFly
      ? []
      : [{ code: 'fly' as const, figures: { style: newFly.style, hook: newFly.hook } }]),
  ]
}

function tippetChanges(before: Leader, after: Leader): Change[] {
  const [a, b] = [before.segments[tippetIndex(before)], after.segments[tippetIndex(after)]]
  if (!a || !b) return []
  const sizes = { from_m: diameter_m(a), to_m: diameter_m(b) }
  const lengths = { from_m: a.length.si, to_m: b.length.si }
  const materials = {
    from: materialOf(before, a.material).name,
    to: materialOf(after, b.material).name,
  }
  return [
    ...(isLike(sizes) ? [] : [{ code: 'tippet-diameter' as const, figures: sizes }]),
    ...(isLike(lengths) ? [] : [{ code: 'tippet-length' as const, figures: lengths }]),
    ...(materials.from === materials.to
      ? []
      : [{ code: 'tippet-material' as const, figures: materials }]),
  ]
}

const isLike = ({ from_m, to_m }: { from_m: number; to_m: number }) =>
  Math.abs(from_m / to_m - 1) < 0.005

/** Pieces above the tippet; those that a halving added come after the piece they were cut from. */
function pieceChanges(before: Leader, after: Leader): Change[] {
  const old = new Map(before.segments.map((s) => [s.key, s]))
  const factor = totalLength_m(after) / totalLength_m(before)
  const others = after.segments.flatMap((s, i): Change[] => {
    if (i === tippetIndex(after)) return knotChange(old.get(s.key)?.joint.knot, s.joint.knot, i)
    const was = old.get(s.key)
    if (!was) return [added(after, s, i)]
    const sizes = { piece: i + 1, from_m: diameter_m(was), to_m: diameter_m(s) }
    return [
      ...(isLike(sizes)
        ? []
        : [
            {
              code: s.part === 'butt' ? ('butt' as const) : ('restepped' as const),
              figures: sizes,
            },
          ]),
      ...knotChange(was.joint.knot, s.joint.knot, i),
    ]
  })
  const lengthened = after.segments.flatMap((s, i): Change[] => {
    const was = old.get(s.key)
    // Scaled, a piece would be shorter than this: it was lengthened to what can be tied.
    const isLonger = was && s.part === 'mid-section' && s.length.si > was.length.si * factor * 1.06
    return isLonger
      ? [{ code: 'piece-lengthened', figures: { piece: i + 1, length_m: s.length.si } }]
      : []
  })
  return [...others, ...lengthened]
}

function added(leader: Leader, segment: Segment, i: number): Change {
  const figures = { piece: i + 1, diameter_m: diameter_m(segment), length_m: segment.length.si }
  const material = materialOf(leader, segment.material).name
  return segment.part === 'bite'
    ? { code: 'bite-added', figures: { ...figures, material } }
    : { code: 'piece-added', figures }
}

function knotChange(from: KnotId | undefined, to: KnotId, i: number): Change[] {
  return from === undefined || from === to
    ? []
    : [{ code: 'knot', figures: { joint: i, from, to } }]
}
