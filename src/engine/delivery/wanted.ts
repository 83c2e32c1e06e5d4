import type { FlightResult } from '../cast'
import type { Attachment, Leader } from '../leader'
import { unrolledExtension, STRAIGHT_EXTENSION } from '../cast'
import { diameter_m, tippetIndex, totalLength_m } from '../leader'
import { xOfDiameter } from '../units'

/** How one cast came down: of a flight what is said of its landing. */
export type Landing = Pick<
  FlightResult,
  | 'status'
  | 'lay'
  | 'reachShare'
  | 'touchSpeedDown_m_s'
  | 'touchSpeedRatio'
  | 'touchOrder'
  | 'pieceLays'
> & {
  /** Greatest extension in the air with enough of the leader unrolled. */
  readonly straight: number
}

export function landingOf(flight: FlightResult): Landing {
  const { status, lay, reachShare, touchSpeedDown_m_s, touchSpeedRatio } = flight
  const { touchOrder, pieceLays } = flight
  const straight = unrolledExtension(flight)
  const measures = { lay, reachShare, touchSpeedDown_m_s, touchSpeedRatio, touchOrder, pieceLays }
  return { status, ...measures, straight }
}

/**
 * What counts as laid out: a lay from so much to so much, or, of flies that are drawn through the water, how much of
 * line and leader lies stretched out with the fly ahead of the butt.
 */
export type Wanted =
  | { readonly by: 'lay'; readonly least: number; readonly most: number }
  | { readonly by: 'reach'; readonly least: number }

/** The limits by purpose are estimates, until somebody has measured on grass. */
export const LAID: Wanted = { by: 'lay', least: 0.8, most: Infinity }
const LAID_LONG: Wanted = { by: 'lay', least: 0.6, most: Infinity }
const SLACK: Wanted = { by: 'lay', least: 0.5, most: 0.8 }
const STRETCHED: Wanted = { by: 'reach', least: 0.9 }

/** From this length and fineness on a dry leader is meant to lie in curves; estimates. */
const LONG_M = 3.3
const FINE_X = 5.5

/** What this leader is to do on the water, by its purpose. */
export function wantedOf(leader: Leader): Wanted {
  switch (leader.purpose) {
    case 'slack-line-dry':
      return SLACK
    case 'streamer':
    case 'sinking-line':
    case 'bite-tippet':
      return STRETCHED
    case 'nymph':
      return isWeighted(leader) ? STRETCHED : LAID_LONG
    default:
      return isLongAndFine(leader) ? LAID_LONG : LAID
  }
}

/** A rig that is felt for; a nymph without weight drifts on a slack leader. */
function isWeighted({ tip, segments }: Leader): boolean {
  const hangs = segments.some(({ attachments }) =>
    attachments.some(({ kind }) => HEAVY.includes(kind)),
  )
  return hangs || tip.fly?.fly.style === 'beaded-nymph'
}

const HEAVY: readonly Attachment['kind'][] = ['indicator', 'weight']

function isLongAndFine(leader: Leader): boolean {
  const tippet = leader.segments[tippetIndex(leader)]
  if (leader.purpose !== 'general-dry' || !tippet) return false
  return totalLength_m(leader) >= LONG_M && xOfDiameter(diameter_m(tippet)) >= FINE_X
}

/** Whether a cast came down as wanted. One that never came down did not. */
export function isLaid(wanted: Wanted, { lay, reachShare }: Fallen): boolean {
  if (lay === null || reachShare === null) return false
  if (wanted.by === 'reach') return reachShare >= wanted.least && lay > 0
  return lay >= wanted.least && lay <= wanted.most
}

type Fallen = Pick<Landing, 'lay' | 'reachShare'>

/** What lies shorter is a heap, whatever it did in the air; estimate. */
export const HALF_LAID = 0.5

/**
 * The same with recoil forgiven: one that straightened above the water and lies no shorter than half counts. What the
 * chain does after it has straightened is right in sign and unmeasured in size.
 */
export function isLaidForgiven(
  wanted: Wanted,
  landing: Fallen & Pick<Landing, 'straight'>,
): boolean {
  if (isLaid(wanted, landing)) return true
  const lay = landing.lay ?? -1
  const most = wanted.by === 'lay' ? wanted.most : Infinity
  return landing.straight >= STRAIGHT_EXTENSION && lay >= HALF_LAID && lay <= most
}

/** How the fly comes down. */
export type Touch = 'soft' | 'firm' | 'hard' | 'plops'

/** Speed downward over the fall speed up to which it is soft, and firm; or so much above it. Estimates. */
const SOFT = 1.2
const FIRM = 1.5
const FIRM_ABOVE_M_S = 1
/** A fly that falls faster plops whatever the leader, m/s; estimate. */
const PLOPS_M_S = 6

/** null where the fly has no drag area, or never came down. */
export function touchOf(fall_m_s: number | null, ratio: number | null): Touch | null {
  if (fall_m_s === null || ratio === null) return null
  if (fall_m_s > PLOPS_M_S) return 'plops'
  if (ratio <= SOFT) return 'soft'
  return ratio <= firmestRatio(fall_m_s) ? 'firm' : 'hard'
}

/** Up to which ratio a landing counts as firm. */
export const firmestRatio = (fall_m_s: number): number =>
  Math.max(FIRM, 1 + FIRM_ABOVE_M_S / fall_m_s)
