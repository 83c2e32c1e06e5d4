import type { CastCase } from '../cast'
import type { Aimed, Miss } from './draws'
import type { AimLine } from './ridge'
import type { Landing, Wanted } from './wanted'
import { fallSpeed_m_s } from '../tackle'
import { missed } from './draws'
import { readRidge } from './ridge'
import { isLaid, isLaidForgiven, touchOf } from './wanted'

/** A cast of a case, and what it is to do: all that a room is counted from. */
export interface DeliveryCase {
  readonly input: CastCase
  readonly wanted: Wanted
  /** Of the caster, m/s. */
  readonly greatest_m_s: number
}

/** Shares of a caster's casts: that lie as wanted and land softly enough, as they are and with recoil forgiven. */
export interface Room {
  readonly room: number
  readonly roomRecoilForgiven: number
}

type Come = Pick<Landing, 'lay' | 'reachShare' | 'straight' | 'touchSpeedRatio'>

/** Fall speed of the fly of a case in still air, m/s; null without a drag area. */
export const fallOf = ({ fly, air, gravity_m_s2 }: CastCase): number | null =>
  fallSpeed_m_s(fly, air.density_kg_m3, gravity_m_s2)

/** Whether one cast counts, as it is and with recoil forgiven: 1 or 0 each. */
export function counts({ wanted }: DeliveryCase, fall_m_s: number | null, come: Come): Room {
  const isHard = touchOf(fall_m_s, come.touchSpeedRatio) === 'hard'
  return {
    room: !isHard && isLaid(wanted, come) ? 1 : 0,
    roomRecoilForgiven: !isHard && isLaidForgiven(wanted, come) ? 1 : 0,
  }
}

/** What a miss that nothing is known of counts. */
const NONE: Room = { room: 0, roomRecoilForgiven: 0 }

export function meanOf(rooms: readonly Room[]): Room {
  const mean = (of: keyof Room) => rooms.reduce((sum, r) => sum + r[of], 0) / rooms.length
  return { room: mean('room'), roomRecoilForgiven: mean('roomRecoilForgiven') }
}

/** What the ridge says of each miss of a delivery. */
export function readRooms(
  asked: DeliveryCase,
  lines: readonly AimLine[],
  to: Aimed,
  misses: readonly Miss[],
): Room[] {
  const fall = fallOf(asked.input)
  return misses.map((miss) => {
    const reading = readRidge(lines, missed(asked.input, to, miss))
    return reading ? counts(asked, fall, reading) : NONE
  })
}
