import type { Aimed } from './draws'
import type { AimLine } from './ridge'
import type { DeliveryCase, Room } from './room'
import { missesOf } from './draws'
import { readRidge } from './ridge'
import { meanOf, readRooms } from './room'

/** A delivery with what the ridge says of its room and of the cast that goes as tried. */
interface Candidate extends Aimed, Room {
  readonly lay: number
}

/** Steps of what is looked at: m/s (a power of e) and degrees. */
const SPEED_STEP = 0.05
const AIM_STEP_DEG = 2
const DRAWN = missesOf(40)

/** What the ridge points to: the delivery with the most room, and the least power that does. */
export interface Choice {
  readonly best: Aimed
  readonly least: Aimed | null
}

/** undefined where there is no ridge at all. */
export function choiceOf(asked: DeliveryCase, lines: readonly AimLine[]): Choice | undefined {
  const candidates = candidatesOf(asked, lines)
  const best = bestOf(candidates)
  return best && { best, least: leastOf(candidates) }
}

/** Rooms closer than this are one: 0.03, or a twentieth of the most; see `bestOf`. */
const TIE = 0.03
const TIE_SHARE = 0.05

/** Every delivery that the caster can throw within the aims flown, from the slowest up. */
export function candidatesOf(asked: DeliveryCase, lines: readonly AimLine[]): Candidate[] {
  const [lowest, highest] = [lines[0], lines.at(-1)]
  if (!lowest || !highest) return []
  const aims = span(lowest.launchAngle_deg, highest.launchAngle_deg, AIM_STEP_DEG)
  const slowest = Math.min(...lines.map(({ over }) => over))
  const most = Math.log(asked.greatest_m_s)
  const speeds = span(Math.min(slowest, most), most, SPEED_STEP).map(Math.exp)
  return speeds.flatMap((lineSpeed_m_s) =>
    aims.map((launchAngle_deg) => {
      const to = { lineSpeed_m_s, launchAngle_deg }
      const lay = readRidge(lines, to)?.lay ?? -1
      return { ...to, lay, ...meanOf(readRooms(asked, lines, to, DRAWN)) }
    }),
  )
}

function span(from: number, to: number, step: number): number[] {
  const count = Math.max(1, Math.ceil((to - from) / step))
  return Array.from({ length: count + 1 }, (_, i) => from + ((to - from) * i) / count)
}

/**
 * The one with the most room. Plateaus are wide: among rooms that are one, the most with recoil forgiven, among those
 * the best lay where hardly any cast lies, then the least line speed, then the aim nearest level.
 */
export function bestOf(candidates: readonly Candidate[]): Candidate | undefined {
  const most = among(among(candidates, 'room'), 'roomRecoilForgiven')
  const laid = most.some(({ roomRecoilForgiven }) => roomRecoilForgiven > TIE)
    ? most
    : among(most, 'lay')
  return [...laid].sort(
    (a, b) =>
      a.lineSpeed_m_s - b.lineSpeed_m_s ||
      Math.abs(a.launchAngle_deg) - Math.abs(b.launchAngle_deg),
  )[0]
}

function among(candidates: readonly Candidate[], of: keyof Room | 'lay'): Candidate[] {
  const most = Math.max(...candidates.map((each) => each[of]))
  const tie = Math.max(TIE, TIE_SHARE * most)
  return candidates.filter((each) => each[of] >= most - tie)
}

/** The slowest at which half of the casts come over, recoil forgiven; null where none that was looked at does. */
function leastOf(candidates: readonly Candidate[]): Aimed | null {
  const over = candidates.filter(({ roomRecoilForgiven }) => roomRecoilForgiven >= HALF)
  const [slowest] = over.sort((a, b) => a.lineSpeed_m_s - b.lineSpeed_m_s)
  if (!slowest) return null
  const { lineSpeed_m_s, launchAngle_deg } = slowest
  return { lineSpeed_m_s, launchAngle_deg }
}

const HALF = 0.5
