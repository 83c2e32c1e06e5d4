import type { Quantity } from '../units'
import type { StepLimit } from './steps'
import type { Leader, Segment } from './types'
import { knot, seatingFault } from '../materials'
import { quantityOf } from '../units'
import {
  diameterGrid_m,
  insertSegment,
  joinWithNext,
  roundedDiameter,
  setDiameter,
  setJoint,
  setSegment,
} from './edits'
import { diameter_m, rulingPurpose, tippetIndex } from './read'
import { longestOf, shortestPiece_m } from './scale'
import { ONE_SIZE, stepLimit, stepLoad, stepPlace } from './steps'

/**
 * Sets the tippet and steps the taper above it anew: butt and total stay. The taper keeps its own proportions
 * where every step then is sound, and else is graded by what each place may take; pieces are put in where
 * there are too few for that, and taken out where two would be of one size.
 */
export function restepTo(leader: Leader, tippet: Quantity): Leader {
  const [start, end] = endsOf(leader)
  const [butt, old] = [leader.segments[start], leader.segments[end]]
  if (!butt || !old) return leader
  const isOld = tippet.text === (old.measured ?? old.diameter).text
  const set = isOld ? leader : setDiameter(leader, end, tippet)
  if (end <= start || tippet.si >= ONE_SIZE * diameter_m(butt)) return set
  const own = inOwnProportions(set, diameter_m(butt), diameter_m(old))
  return seated(own && isSound(own) ? own : graded(set, MOST_CHANGES))
}

/** The butt made of a new size, its other pieces by the same factor, and the taper below it stepped anew. */
export function buttTo(leader: Leader, size: Quantity): Leader {
  const [butt, tippet] = [leader.segments[0], leader.segments[tippetIndex(leader)]]
  if (!butt) return leader
  const factor = size.si / diameter_m(butt)
  const butted = leader.segments.reduce((acc, s, i) => {
    if (i > 0 && s.part !== 'butt') return acc
    const own = roundedDiameter(diameter_m(s) * factor, s.diameter.unit)
    return setDiameter(acc, i, i === 0 ? size : own)
  }, leader)
  return tippet ? restepTo(butted, tippet.measured ?? tippet.diameter) : butted
}

/** So many pieces are put in or taken out at most. */
const MOST_CHANGES = 8

/** Indices of the last butt piece and of the tippet, between which the taper lies. */
function endsOf(leader: Leader): readonly [start: number, end: number] {
  const start = leader.segments.map(({ part }) => part).lastIndexOf('butt')
  return [Math.max(0, start), tippetIndex(leader)]
}

/** Joints of the taper, from its butt to the tippet. */
function jointsOf(leader: Leader): readonly (readonly [above: Segment, below: Segment])[] {
  const [start, end] = endsOf(leader)
  const pieces = leader.segments.slice(start, end + 1)
  return pieces.slice(1).flatMap((below, k) => {
    const above = pieces[k]
    return above ? [[above, below] as const] : []
  })
}

const limitAt = (leader: Leader, above: Segment, below: Segment): StepLimit =>
  stepLimit(rulingPurpose(leader), stepPlace(above, below))

const limitsOf = (leader: Leader): StepLimit[] =>
  jointsOf(leader).map(([above, below]) => limitAt(leader, above, below))

function loadsOf(leader: Leader): number[] {
  return jointsOf(leader).map(([above, below]) => {
    const load = stepLoad(diameter_m(above), diameter_m(below), limitAt(leader, above, below))
    // A sighter, or another material of one size, is there for another reason than the taper.
    const isLevel = load === Infinity && diameter_m(below) <= diameter_m(above)
    const isOther = isLevel && above.material !== below.material
    return isOther || isSighter(above) || isSighter(below) ? 0 : load
  })
}

const isSighter = ({ part }: Segment) => part === 'sighter'

const isSound = (leader: Leader) => loadsOf(leader).every((load) => load <= 1 + 1e-6)

/** Every piece between butt and tippet at the same share of the way down as before, counted in logarithms. */
function inOwnProportions(leader: Leader, butt_m: number, oldTippet_m: number): Leader | undefined {
  const [start, end] = endsOf(leader)
  const tippet = leader.segments[end]
  if (!tippet || oldTippet_m >= butt_m) return undefined
  const power = Math.log(diameter_m(tippet) / butt_m) / Math.log(oldTippet_m / butt_m)
  const between = leader.segments.slice(start + 1, end)
  if (Math.abs(power - 1) < 0.01) return leader
  return withSizes(
    leader,
    between.map((s) => butt_m * (diameter_m(s) / butt_m) ** power),
  )
}

function withSizes(leader: Leader, sizes_m: readonly number[]): Leader {
  const [start] = endsOf(leader)
  return sizes_m.reduce((acc, size_m, k) => {
    const at = start + 1 + k
    const unit = acc.segments[at]?.diameter.unit ?? 'in'
    return setDiameter(acc, at, roundedDiameter(size_m, unit))
  }, leader)
}

function graded(leader: Leader, changesLeft: number): Leader {
  const stepped = withSizes(leader, gradedSizes(leader))
  const loads = loadsOf(stepped)
  const changed =
    changesLeft === 0 || isSound(stepped)
      ? undefined
      : loads.includes(Infinity)
        ? withOneLess(stepped)
        : withOneMore(stepped)
  return changed ? graded(changed, changesLeft - 1) : stepped
}

/** A way down to one size, and the sum of the squares of its loads. */
interface Way {
  readonly sizes_m: readonly number[]
  readonly cost: number
}
const TOO_BIG = 1e3

/**
 * Sizes that there are spools of, by which every joint takes as like a share of what its place may take as
 * can be: of those next to the ideal sizes the ones of the least sum of squares.
 */
function gradedSizes(leader: Leader): readonly number[] {
  const [start, end] = endsOf(leader)
  const [from_m, to_m] = [start, end].map((i) => sizeAt(leader, i)) as [number, number]
  const limits = limitsOf(leader)
  const choices = idealSizes(from_m, to_m, limits).map((size_m, k) => {
    const unit = leader.segments[start + 1 + k]?.diameter.unit ?? 'in'
    const half_m = diameterGrid_m(unit) / 2
    return [-half_m, half_m].map((away_m) => roundedDiameter(size_m + away_m, unit).si)
  })
  const ways = [...choices, [to_m]].reduce<readonly Way[]>(
    (before, sizes, k) => sizes.map((size_m) => cheapest(before, size_m, limits[k])),
    [{ sizes_m: [from_m], cost: 0 }],
  )
  return ways[0]?.sizes_m.slice(1, -1) ?? []
}

const sizeAt = (leader: Leader, i: number) => {
  const segment = leader.segments[i]
  return segment ? diameter_m(segment) : NaN
}

/** All joints at one share of what they may take. */
function idealSizes(from_m: number, to_m: number, limits: readonly StepLimit[]): number[] {
  const whole = limits.reduce((sum, { ratio }) => sum + Math.log(ratio), 0)
  const share = Math.log(to_m / from_m) / whole
  let size_m = from_m
  return limits.slice(0, -1).map(({ ratio }) => (size_m *= ratio ** share))
}

function cheapest(before: readonly Way[], size_m: number, limit: StepLimit | undefined): Way {
  const ways = before.map(({ sizes_m, cost }) => {
    const load = limit ? stepLoad(sizes_m.at(-1) ?? NaN, size_m, limit) : 0
    const extra = load > 1 + 1e-6 ? TOO_BIG * Math.min(TOO_BIG, load) : load ** 2
    return { sizes_m: [...sizes_m, size_m], cost: cost + extra }
  })
  return ways.reduce((best, way) => (way.cost < best.cost ? way : best))
}

/** One piece more above the tippet, of the shortest length that is tied; the longest piece above gives it. */
function withOneMore(leader: Leader): Leader | undefined {
  const above = leader.segments.slice(0, tippetIndex(leader))
  const giver = longestOf(above.map((s) => (canGive(s) ? s.length.si : 0)))
  const at = above.map(isOfTaper).lastIndexOf(true)
  const [gives, model] = [above[giver], above[at]]
  if (!gives || !model || !canGive(gives)) return undefined
  const kept_m = gives.length.si - shortestPiece_m(gives.length.unit)
  const kept = quantityOf(kept_m, 'length', gives.length.unit)
  return insertSegment(setSegment(leader, giver, { length: kept }), at + 1, {
    part: 'mid-section',
    material: model.material,
    diameter: model.diameter,
    length: quantityOf(gives.length.si - kept.si, 'length', gives.length.unit),
    joint: { knot: 'blood' },
    attachments: [],
  })
}

const isOfTaper = ({ part }: Segment) => part === 'butt' || part === 'mid-section'

/** A butt gives while it stays three times as long as what it gives, a piece of the taper while it can be tied. */
function canGive(segment: Segment): boolean {
  const { part, length } = segment
  const most = part === 'butt' ? 4 : 2
  return isOfTaper(segment) && length.si >= most * shortestPiece_m(length.unit) - 1e-6
}

/** The shortest piece of the taper joined to the one above it; only like to like. */
function withOneLess(leader: Leader): Leader | undefined {
  const [start, end] = endsOf(leader)
  const candidates = leader.segments.flatMap((s, i) => {
    const above = leader.segments[i - 1]
    const isPlain = s.part === 'mid-section' && s.attachments.length === 0
    const isLike = above?.material === s.material && above.part !== 'sighter'
    return i > start && i < end && isPlain && isLike ? [i] : []
  })
  const [shortest] = candidates.sort((a, b) => lengthAt(leader, a) - lengthAt(leader, b))
  return shortest === undefined ? undefined : joinWithNext(leader, shortest - 1)
}

const lengthAt = ({ segments }: Leader, i: number) => segments[i]?.length.si ?? Infinity

/** Knots of the taper that no longer seat on what they join give way to three passes of a surgeon's. */
function seated(leader: Leader): Leader {
  const [start, end] = endsOf(leader)
  return leader.segments.reduce((acc, s, i) => {
    const above = acc.segments[i - 1]
    if (!above || i <= start || i > end) return acc
    const isFaulty =
      seatingFault(knot(s.joint.knot), diameter_m(above), diameter_m(s)) !== undefined
    return isFaulty ? setJoint(acc, i, { knot: 'surgeons-triple' }) : acc
  }, leader)
}
