import type { CastCase } from './castCase'
import type { FlightResult } from './runCast'
import { THROWN } from '../tackle'
import { isBraked } from './chain'
import { startingSpeed } from './guess'
import { runCast, unrolledExtension } from './runCast'
import { STRAIGHT_EXTENSION } from './simulated'

/** Line speeds between which a least speed is looked for, m/s. */
const { low: SLOWEST_M_S, high: FASTEST_M_S } = THROWN.lineSpeed_m_s

export interface SpeedSearch {
  /** Extension asked for. */
  readonly target?: number
  /** A speed to begin at, else the energy model's: the closer to the least speed, the fewer flights. */
  readonly from_m_s?: number
  readonly tolerance_m_s?: number
}

/**
 * The extension that the verdict goes by: 0 while less than 0.8 of the leader has unrolled. Right below
 * `straight`; above it, that it is above is all that is certain.
 */
export function extensionAt(
  input: CastCase,
  lineSpeed_m_s: number,
  straight = STRAIGHT_EXTENSION,
): number {
  return extensionOf(runCast(withSpeed(input, lineSpeed_m_s), { stopWhenStraight: true, straight }))
}

const extensionOf = (flight: FlightResult): number =>
  flight.status === 'ok' ? unrolledExtension(flight) : 0

/** Whether a cast turns over, by a flight that stops as soon as that is certain. */
export function reachesTarget(input: CastCase, target = STRAIGHT_EXTENSION): boolean {
  return runCast(input, { decide: target }).isReached
}

/** The case thrown at another line speed. */
export function withSpeed(input: CastCase, lineSpeed_m_s: number): CastCase {
  return { ...input, cast: { ...input.cast, lineSpeed_m_s } }
}

/** A search that asks for one flight after another, so that it can be stopped between them. */
export type Search<R> = Generator<null, R>

/** A search done in one go. */
export function sought<R>(search: Generator<unknown, R>): R {
  for (;;) {
    const step = search.next()
    if (step.done) return step.value
  }
}

/** See `leastSpeedSteps`. */
export function leastLineSpeed(input: CastCase, search: SpeedSearch = {}): number | null {
  return sought(leastSpeedSteps(input, search))
}

/**
 * Smallest line speed (m/s) between 3 and 40 that reaches the target, or null if none does: strides away
 * from a guess until it has one speed that fails and one that does, then narrows them down. Nearly
 * monotone, so what it finds is the edge next to the guess. Yields before each flight.
 */
export function* leastSpeedSteps(
  input: CastCase,
  { target = STRAIGHT_EXTENSION, from_m_s, tolerance_m_s = 0.1 }: SpeedSearch = {},
): Search<number | null> {
  const fly = (v: number): Tried => {
    const flight = runCast(withSpeed(input, v), { decide: target })
    return { v, does: flight.isReached, lacks: target - extensionOf(flight) }
  }
  const from = Math.min(FASTEST_M_S, Math.max(SLOWEST_M_S, from_m_s ?? startingSpeed(input)))
  const bracket = yield* bracketed(fly, from, !isBraked(input))
  if (bracket === null) return null
  let { fails, does } = bracket
  while (does - fails.v > tolerance_m_s) {
    yield null
    const tried = fly(between(fails, does, tolerance_m_s))
    if (tried.does) does = tried.v
    else fails = tried
  }
  return does
}

/** A speed, whether it turns the fly over, and by how much of the leader it does not. */
interface Tried {
  readonly v: number
  readonly does: boolean
  readonly lacks: number
}

interface Bracket {
  readonly fails: Tried
  readonly does: number
}

/** Share of line speed per share of the leader that lacks: the shipped leaders' is from a half to 1.3. */
const PER_LACK = 1
/** A flight that lacks more says little of how far off the edge is. */
const TELLING = 0.2

/** Where to try next: just beyond where a telling failure points, or halfway. */
function between(fails: Tried, does: number, tolerance_m_s: number): number {
  const width = does - fails.v
  const middle = fails.v + width / 2
  if (fails.lacks > TELLING || width < 2 * tolerance_m_s) return middle
  const pointed = fails.v * (1 + PER_LACK * fails.lacks) + tolerance_m_s / 2
  return Math.min(does - width / 4, Math.max(fails.v + width / 4, pointed))
}

const FIRST_STRIDE = 1.08
const STRIDE = 1.2
/** A bouncing fly's blip lacks less than this, estimate: by trial up to 0.05. */
const BLIP = 0.07

/**
 * Strides away from a guess until one speed fails and a faster one does. Flies that the air hardly brakes
 * bounce at the end of the leader, so that a single speed among good ones may just fail: for those an edge is two
 * failures in a row.
 */
function* bracketed(
  fly: (v: number) => Tried,
  from: number,
  bounces: boolean,
): Search<Bracket | null> {
  yield null
  const first = fly(from)
  if (first.does) return yield* downFrom(fly, from, bounces)
  if (bounces && first.lacks < BLIP && from > SLOWEST_M_S) {
    yield null
    const below = fly(Math.max(SLOWEST_M_S, from / FIRST_STRIDE))
    if (below.does) return yield* downFrom(fly, below.v, bounces)
  }
  return yield* upFrom(fly, first)
}

function* upFrom(fly: (v: number) => Tried, first: Tried): Search<Bracket | null> {
  let fails = first
  for (let stride = FIRST_STRIDE; fails.v < FASTEST_M_S; stride = STRIDE) {
    const pointed = 1 + PER_LACK * fails.lacks + 0.02
    const next = fails.lacks < TELLING ? Math.min(stride, pointed) : stride
    yield null
    const tried = fly(Math.min(FASTEST_M_S, fails.v * next))
    if (tried.does) return { fails, does: tried.v }
    fails = tried
  }
  return null
}

function* downFrom(fly: (v: number) => Tried, from: number, bounces: boolean): Search<Bracket> {
  let does = from
  for (let stride = FIRST_STRIDE; does > SLOWEST_M_S; stride = STRIDE) {
    const slower = Math.max(SLOWEST_M_S, does / stride)
    yield null
    const tried = fly(slower)
    if (tried.does) {
      does = slower
      continue
    }
    if (!bounces || tried.lacks >= BLIP || slower <= SLOWEST_M_S) return { fails: tried, does }
    yield null
    const after = fly(Math.max(SLOWEST_M_S, slower / FIRST_STRIDE))
    if (!after.does) return { fails: tried, does }
    does = after.v
  }
  return { fails: { v: does, does: false, lacks: 0 }, does }
}
