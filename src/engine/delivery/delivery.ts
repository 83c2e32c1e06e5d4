/**
 * The delivery: what power and aim this caster would choose for this leader and fly, and how it then lies. The ridge is
 * flown on the coarse mesh and points to a delivery; casts with all their misses about that one are flown on the mesh
 * `quick`, and their share is its room.
 */
import type { CastCase, CastSettings, FlightResult, MeshName, TouchPart } from '../cast'
import type { Choice } from './best'
import type { Aimed } from './draws'
import type { AimLine, SpeedRange } from './ridge'
import type { DeliveryCase, Room } from './room'
import type { Landing, Touch, Wanted } from './wanted'
import { runCast, startingSpeed, STRAIGHT_EXTENSION } from '../cast'
import { THROWN } from '../tackle'
import { aimHeight_m } from './aim'
import { choiceOf } from './best'
import { missesOf, thrown } from './draws'
import { aimLineSteps } from './ridge'
import { counts, fallOf, meanOf } from './room'
import { HALF_LAID, landingOf, touchOf } from './wanted'

/** One cast to fly: of the case asked, with these settings and this mesh. */
export interface Throw {
  readonly cast: CastSettings
  readonly mesh: MeshName
}

/** A piece of the work, for any worker to do. */
export type Errand =
  | { readonly kind: 'line'; readonly launchAngle_deg: number }
  | { readonly kind: 'choice'; readonly lines: readonly AimLine[] }
  | { readonly kind: 'casts'; readonly throws: readonly Throw[] }

export type Done =
  | { readonly kind: 'line'; readonly line: AimLine }
  | ({ readonly kind: 'choice' } & Choice)
  | { readonly kind: 'casts'; readonly landings: readonly Landing[] }

/** Asks for errands, those of a round in any order or at once, and takes what came of them in theirs. */
export type Rounds<R> = Generator<readonly Errand[], R, readonly Done[]>

/** How surely this caster gets it over, from the best to the worst. */
export const DELIVERY_STATES = [
  'easily',
  'surely enough',
  'only just',
  'falls short',
  'will not go over',
] as const
export type DeliveryState = (typeof DELIVERY_STATES)[number]

/** Whether it goes over at all, if only just. */
export const goesOver = (state: DeliveryState): boolean =>
  state !== 'falls short' && state !== 'will not go over'

/** Of two leaders, rooms closer than this are one; estimate. */
export const ROOM_TIE = 0.05

export interface BestDelivery extends Aimed, Room {
  /** Of the aim, above the water at the end of line and leader. */
  readonly aimHeight_m: number
  /** Medians of the casts about it. */
  readonly lay: number
  readonly reachShare: number
  /** Greatest extension in the air. */
  readonly straight: number
  readonly touchSpeedRatio: number | null
  readonly touch: Touch | null
  /** Of the cast that goes as tried. */
  readonly touchOrder: readonly TouchPart[]
  readonly pieceLays: readonly number[]
  /** The edge of what this caster can throw or of what was looked at, where it lies on one. */
  readonly edge: 'power' | 'aim' | null
}

export interface Delivery {
  readonly state: DeliveryState
  readonly best: BestDelivery
  /** The least line speed over all aims at which half of the casts come over; null where none does. */
  readonly least: Aimed | null
  /** Line speed that this caster throws as a rule, and the greatest. */
  readonly usual_m_s: number
  readonly greatest_m_s: number
  readonly wanted: Wanted
  /** Fall speed of the fly, m/s; null without a drag area. */
  readonly fall_m_s: number | null
  readonly flights: number
  /** The ridge, for a band that begins there. */
  readonly lines: readonly AimLine[]
}

/** A delivery, or what went wrong in the air. */
export type Delivered = Delivery | { readonly failed: string }

/** Degrees above level at first, and how far they go on where the best lies at an edge. */
const AIMS_DEG = [-6, -1, 4, 9, 14]
const WIDER_DEG = { low: -16, high: 24 }
export const AIM_GAP_DEG = 5

/**
 * Casts about the best delivery. These forty of the sequence hold the normal distribution beyond any straight edge
 * across speed and aim to 0.027 (rms), as near as its first sixty-four do: of all starts below 1,500 the best.
 */
export const MISSES = missesOf(40, 984)
const MEASURED_ON: MeshName = 'quick'
const LOOKED_ON: MeshName = 'coarse'

/** Lines are flown so many standard deviations beyond the greatest speed: few casts miss by more. */
const FASTER_SD = 2

/** The whole of it: rounds of errands, then what is to be said. */
export function* deliveryRounds(asked: DeliveryCase): Rounds<Delivered> {
  let lines = yield* linesAt(AIMS_DEG)
  let choice = yield* chosen(lines)
  for (;;) {
    const more = choice && beyond(lines, choice.best.launchAngle_deg)
    if (more === undefined) break
    lines = [...lines, ...(yield* linesAt([more]))].sort(
      (a, b) => a.launchAngle_deg - b.launchAngle_deg,
    )
    choice = yield* chosen(lines)
  }
  const looked = lines.flatMap(({ casts }) => casts.map(({ landing }) => landing))
  const about = choice ? yield* castsAbout(asked, choice.best) : []
  const failed = [...looked, ...about].find(({ status }) => status !== 'ok')
  if (!choice || failed) return { failed: failed?.status ?? '' }
  return said(asked, lines, { ...choice, about, flights: looked.length + about.length })
}

function* linesAt(aims: readonly number[]): Rounds<AimLine[]> {
  const done = yield aims.map((launchAngle_deg) => ({ kind: 'line', launchAngle_deg }))
  return done.flatMap((each) => (each.kind === 'line' ? [each.line] : []))
}

function* chosen(lines: readonly AimLine[]): Rounds<Choice | undefined> {
  return (yield [{ kind: 'choice', lines }]).find((each) => each.kind === 'choice')
}

/** Casts an errand: a few hundredths of a second, so that two workers are done at nearly the same time. */
const CASTS_AN_ERRAND = 4

/** The cast that goes as tried, and those that miss. */
function* castsAbout({ input }: DeliveryCase, best: Aimed): Rounds<Landing[]> {
  const casts = [{ speed: 0, aim: 0, loop: 0, tip: 0 }, ...MISSES].map((miss) => ({
    cast: thrown(input, best, miss),
    mesh: MEASURED_ON,
  }))
  const errands = Array.from({ length: Math.ceil(casts.length / CASTS_AN_ERRAND) }, (_, i) => ({
    kind: 'casts' as const,
    throws: casts.slice(i * CASTS_AN_ERRAND, (i + 1) * CASTS_AN_ERRAND),
  }))
  return (yield errands).flatMap(landingsOf)
}

/** The next aim beyond the lines where this one lies at their edge; undefined within them, or far enough out. */
function beyond(lines: readonly AimLine[], aim: number): number | undefined {
  const [lowest, highest] = [lines[0]!.launchAngle_deg, lines.at(-1)!.launchAngle_deg]
  if (aim - lowest < AIM_GAP_DEG / 2 && lowest > WIDER_DEG.low) return lowest - AIM_GAP_DEG
  if (highest - aim < AIM_GAP_DEG / 2 && highest < WIDER_DEG.high) return highest + AIM_GAP_DEG
  return undefined
}

/** Flies one cast of a case until the fly is down; one that a coarser mesh cannot follow, on the usual one. */
export function fly(input: CastCase, { cast, mesh }: Throw): Landing {
  const flown = (on: MeshName) => runCast({ ...input, cast, mesh: on }, { stopAtTouch: true })
  const first = flown(mesh)
  return landingOf(mesh !== 'usual' && isLost(first) ? flown('usual') : first)
}

const isLost = ({ status }: FlightResult): boolean => status.startsWith('did not converge')

/** One errand done here; yields before each flight. */
export function* errandSteps(
  asked: DeliveryCase,
  errand: Errand,
  flying: typeof fly = fly,
): Generator<null, Done> {
  switch (errand.kind) {
    case 'line':
      return { kind: 'line', line: yield* lineSteps(asked, errand.launchAngle_deg, [], flying) }
    case 'choice':
      return { kind: 'choice', ...choiceOf(asked, errand.lines)! }
    case 'casts':
      return { kind: 'casts', landings: yield* castSteps(asked.input, errand.throws, flying) }
  }
}

/** Casts of one case, one after another; yields before each. */
export function* castSteps(
  input: CastCase,
  throws: readonly Throw[],
  flying: typeof fly = fly,
): Generator<null, Landing[]> {
  const landings: Landing[] = []
  for (const each of throws) {
    yield null
    landings.push(flying(input, each))
  }
  return landings
}

/** How the casts of an errand landed; none where it was another errand. */
export const landingsOf = (done: Done): readonly Landing[] =>
  done.kind === 'casts' ? done.landings : []

/** The line of one aim, flown here; it begins where a known one comes over. */
export function* lineSteps(
  asked: DeliveryCase,
  launchAngle_deg: number,
  known: readonly AimLine[] = [],
  flying: typeof fly = fly,
): Generator<null, AimLine> {
  const line = aimLineSteps(launchAngle_deg, rangeOf(asked, launchAngle_deg, known))
  let step = line.next()
  while (!step.done) {
    yield null
    const to = { lineSpeed_m_s: step.value, launchAngle_deg }
    step = line.next(flying(asked.input, throwOf(asked, to, LOOKED_ON)))
  }
  return step.value
}

const throwOf = ({ input }: DeliveryCase, to: Aimed, mesh: MeshName): Throw => ({
  cast: { ...input.cast, ...to },
  mesh,
})

/** From where a line begins: where a known one comes over, or the energy model's guess. */
function rangeOf(
  { input, greatest_m_s }: DeliveryCase,
  launchAngle_deg: number,
  known: readonly AimLine[],
): SpeedRange {
  const fastest_m_s = greatest_m_s * Math.exp(FASTER_SD * input.spreads.lineSpeed.sd)
  const over = known.find((line) => line.launchAngle_deg === launchAngle_deg)?.over
  const from_m_s =
    over === undefined
      ? startingSpeed({ ...input, cast: { ...input.cast, launchAngle_deg } })
      : Math.exp(over)
  return { from_m_s, slowest_m_s: THROWN.lineSpeed_m_s.low, fastest_m_s }
}

interface Flown extends Choice {
  readonly about: readonly Landing[]
  readonly flights: number
}

function said(
  asked: DeliveryCase,
  lines: readonly AimLine[],
  { best: to, least, about: [asTried, ...about], flights }: Flown,
): Delivery {
  const { input, wanted, greatest_m_s } = asked
  const fall_m_s = fallOf(input)
  const { lineSpeed_m_s, launchAngle_deg } = to
  const ratio = median(about.map((each) => each.touchSpeedRatio))
  const best: BestDelivery = {
    lineSpeed_m_s,
    launchAngle_deg,
    aimHeight_m: aimHeight_m(input, launchAngle_deg),
    ...roomOf(asked, about),
    lay: median(about.map(({ lay }) => lay)) ?? -1,
    reachShare: median(about.map(({ reachShare }) => reachShare)) ?? 0,
    straight: median(about.map(({ straight }) => straight)) ?? 0,
    touchSpeedRatio: ratio,
    touch: touchOf(fall_m_s, ratio),
    touchOrder: asTried?.touchOrder ?? [],
    pieceLays: asTried?.pieceLays ?? [],
    edge: edgeOf(asked, lines, to),
  }
  const state = stateOf(best, least, greatest_m_s)
  // The ridge has its say where the casts themselves bear it out.
  const isBorneOut = best.roomRecoilForgiven >= HALF_OF_CASTS
  const usual_m_s = input.cast.lineSpeed_m_s
  return {
    state,
    best,
    least: isBorneOut ? least : null,
    usual_m_s,
    greatest_m_s,
    wanted,
    fall_m_s,
    flights,
    lines,
  }
}

/** The share of the casts about it that count: a sequence spread evenly knows it to 0.03 where as many by chance know 0.08. */
function roomOf(asked: DeliveryCase, about: readonly Landing[]): Room {
  const fall = fallOf(asked.input)
  return meanOf(about.map((landing) => counts(asked, fall, landing)))
}

function median(values: readonly (number | null)[]): number | null {
  const known = values.filter((v) => v !== null).sort((a, b) => a - b)
  const [low, high] = [known[(known.length - 1) >> 1], known[known.length >> 1]]
  return low === undefined || high === undefined ? null : (low + high) / 2
}

/** Within so little of the greatest speed a delivery uses all of it, share. */
const ALL_OF_IT = 0.98

function edgeOf(
  { greatest_m_s }: DeliveryCase,
  lines: readonly AimLine[],
  { lineSpeed_m_s, launchAngle_deg }: Aimed,
): BestDelivery['edge'] {
  const ends = [lines[0], lines.at(-1)].map((line) => line?.launchAngle_deg)
  if (ends.includes(launchAngle_deg)) return 'aim'
  return lineSpeed_m_s >= ALL_OF_IT * greatest_m_s ? 'power' : null
}

/** Half of the casts, within what so many of them know it to. */
const HALF_OF_CASTS = 0.45

/** Limits of the states, by room with recoil forgiven; settled on the shipped leaders, estimates. */
const EASILY = { room: 0.8, power: 0.75 }
const SURELY = 0.6
export const JUST_ENOUGH_ROOM = 0.3

function stateOf(best: BestDelivery, least: Aimed | null, greatest_m_s: number): DeliveryState {
  const { roomRecoilForgiven, lay } = best
  const isWithin = least !== null && least.lineSpeed_m_s <= EASILY.power * greatest_m_s
  if (roomRecoilForgiven >= EASILY.room && isWithin) return 'easily'
  if (roomRecoilForgiven >= SURELY) return 'surely enough'
  if (roomRecoilForgiven >= JUST_ENOUGH_ROOM) return 'only just'
  return lay >= HALF_LAID || kicksBack(best, greatest_m_s) ? 'falls short' : 'will not go over'
}

/**
 * Whether a leader straightens in the air with power to spare and lies in a heap all the same: it goes over, and how far
 * it comes back is the model's, and unmeasured.
 */
export function kicksBack(
  { lay, straight, lineSpeed_m_s }: BestDelivery,
  greatest_m_s: number,
): boolean {
  const isSpare = lineSpeed_m_s <= EASILY.power * greatest_m_s
  return isSpare && straight >= STRAIGHT_EXTENSION && lay < HALF_LAID
}

/** The whole delivery here, one cast after another; yields before each. */
export function* deliverySteps(
  asked: DeliveryCase,
  flying: typeof fly = fly,
): Generator<null, Delivered> {
  const rounds = deliveryRounds(asked)
  let step = rounds.next()
  while (!step.done) {
    const done: Done[] = []
    for (const errand of step.value) done.push(yield* errandSteps(asked, errand, flying))
    step = rounds.next(done)
  }
  return step.value
}
