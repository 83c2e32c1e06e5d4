/**
 * The ridge: at each aim a cast falls short up to some line speed and lies out beyond it. A line of one aim is flown
 * at a few speeds, close together where it comes over; between two lines it is read along the ridge, by speed over the
 * speed at which each comes over, since straight across it would be blunted.
 */
import type { Aimed } from './draws'
import type { Landing } from './wanted'

/** Casts of one aim, slowest first. */
export interface AimLine {
  readonly launchAngle_deg: number
  readonly casts: readonly Flown[]
  /** ln of the speed at which the lay comes to a half; beyond the fastest where it never does. */
  readonly over: number
}

interface Flown {
  /** ln of the line speed. */
  readonly at: number
  readonly landing: Landing
}

export interface Reading {
  readonly lay: number
  readonly reachShare: number
  readonly straight: number
  readonly touchSpeedRatio: number | null
}

/** The lay that a cast comes over at, and what one counts as that never lands. */
const OVER = 0.5
const NEVER = -1

const layOf = ({ lay }: Landing): number => lay ?? NEVER

/** Factors of speed: from one try to the next, the bracket that is narrow enough, and what is flown above it. */
const STRIDE = 1.25
const NARROW = 1.065
const ABOVE = [1.05, 1.12, 1.25, 1.5, 1.9]
/** Speeds closer than this factor say the same. */
const APART = 1.035

/** Between which speeds a line is flown, m/s. */
export interface SpeedRange {
  readonly from_m_s: number
  readonly slowest_m_s: number
  readonly fastest_m_s: number
}

/** One line: asks for a speed (m/s) at a time and takes how that cast landed. */
export function* aimLineSteps(
  launchAngle_deg: number,
  { from_m_s, slowest_m_s, fastest_m_s }: SpeedRange,
): Generator<number, AimLine, Landing> {
  const casts: Flown[] = []
  const within = (v: number) => Math.min(fastest_m_s, Math.max(slowest_m_s, v))
  function* comesOver(v: number): Generator<number, boolean, Landing> {
    const landing = yield v
    casts.push({ at: Math.log(v), landing })
    return layOf(landing) >= OVER
  }
  let [fails, does] = yield* bracket(comesOver, within(from_m_s), within)
  while (fails && does && does / fails > NARROW) {
    const middle = Math.sqrt(fails * does)
    if (yield* comesOver(middle)) does = middle
    else fails = middle
  }
  for (const factor of does ? ABOVE : []) {
    const v = within((does ?? 0) * factor)
    const isNew = casts.every(({ at }) => Math.abs(at - Math.log(v)) > Math.log(APART))
    if (isNew) yield* comesOver(v)
  }
  casts.sort((a, b) => a.at - b.at)
  return { launchAngle_deg, casts, over: overOf(casts, Math.log(fastest_m_s)) }
}

type Try = (v: number) => Generator<number, boolean, Landing>

/** The fastest speed found that fails, and the slowest that does; 0 where there is none. */
function* bracket(
  comesOver: Try,
  from: number,
  within: (v: number) => number,
): Generator<number, [fails: number, does: number], Landing> {
  let v = from
  const first = yield* comesOver(v)
  for (;;) {
    const next = within(first ? v / STRIDE : v * STRIDE)
    if (next === v) return first ? [0, v] : [v, 0]
    const does = yield* comesOver(next)
    if (does !== first) return first ? [next, v] : [v, next]
    v = next
  }
}

/** Where the lay first passes a half for good enough: between the last failure before the first success. */
function overOf(casts: readonly Flown[], fastest: number): number {
  const i = casts.findIndex(({ landing }) => layOf(landing) >= OVER)
  const [below, above] = [casts[i - 1], casts[i]]
  if (!above) return fastest + Math.log(STRIDE)
  if (!below) return above.at
  const [low, high] = [layOf(below.landing), layOf(above.landing)]
  return below.at + ((above.at - below.at) * (OVER - low)) / (high - low)
}

/** Lines beyond whose aims nothing is read but what lies this close, degrees. */
const BESIDE_DEG = 2.5

/** What a cast would do, read between the lines; null where no line is near. Lines go from the lowest aim up. */
export function readRidge(
  lines: readonly AimLine[],
  { lineSpeed_m_s, launchAngle_deg }: Aimed,
): Reading | null {
  const near = around(lines, (line) => line.launchAngle_deg, launchAngle_deg)
  if (!near) return null
  const [low, high, w] = near
  const past = Math.max(
    low.launchAngle_deg - launchAngle_deg,
    launchAngle_deg - high.launchAngle_deg,
  )
  if (past > BESIDE_DEG) return null
  const above = Math.log(lineSpeed_m_s) - (low.over + w * (high.over - low.over))
  const [a, b] = [alongLine(low, above), alongLine(high, above)]
  return between(a, b, w)
}

/** One line at so much (in ln of speed) above where it comes over; beyond its ends as its ends. */
function alongLine({ casts, over }: AimLine, above: number): Reading {
  const at = over + above
  const near = around(casts, (cast) => cast.at, at)
  if (!near) return readingOf(undefined)
  const [before, after, w] = near
  return between(readingOf(before.landing), readingOf(after.landing), w)
}

/** The two of a rising list that a place lies between, and its share of the way; at an end that one twice. */
function around<T>(
  list: readonly T[],
  placeOf: (one: T) => number,
  at: number,
): [before: T, after: T, share: number] | undefined {
  const found = list.findIndex((one) => placeOf(one) >= at)
  const next = found < 0 ? list.length - 1 : found
  const after = list[next]
  const before = found < 0 ? after : list[Math.max(0, next - 1)]
  if (!before || !after) return undefined
  const width = placeOf(after) - placeOf(before)
  return [before, after, width > 0 ? (at - placeOf(before)) / width : 0]
}

/** So far on the way from one reading to the other. */
function between(a: Reading, b: Reading, share: number): Reading {
  const mixed = (from: number, to: number) => from + share * (to - from)
  const [ra, rb] = [a.touchSpeedRatio, b.touchSpeedRatio]
  return {
    lay: mixed(a.lay, b.lay),
    reachShare: mixed(a.reachShare, b.reachShare),
    straight: mixed(a.straight, b.straight),
    touchSpeedRatio: ra === null || rb === null ? (ra ?? rb) : mixed(ra, rb),
  }
}

function readingOf(landing: Landing | undefined): Reading {
  return {
    lay: landing ? layOf(landing) : NEVER,
    reachShare: landing?.reachShare ?? 0,
    straight: landing?.straight ?? 0,
    touchSpeedRatio: landing?.touchSpeedRatio ?? null,
  }
}
