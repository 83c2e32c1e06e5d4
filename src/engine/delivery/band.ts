import type { AimLine } from './ridge'
import type { DeliveryCase } from './room'
import { drawCase, quantileOf } from '../cast'
import { bestOf, candidatesOf } from './best'
import { AIM_GAP_DEG, lineSteps } from './delivery'

/** Quantiles of the room over what is merely unknown. */
export interface RoomBand {
  readonly samples: number
  readonly p10: number
  readonly p50: number
  readonly p90: number
}

/** What is known of the delivery that a band is drawn about. */
export interface Known {
  readonly lines: readonly AimLine[]
  readonly launchAngle_deg: number
  /** Its room, and the same as the ridge alone reads it. */
  readonly room: number
}

/** Aims of a sample about the delivery's, degrees. */
const BESIDE_DEG = [-AIM_GAP_DEG, 0, AIM_GAP_DEG]

/** The ridge about a delivery alone. */
function nearest(lines: readonly AimLine[], aim: number): AimLine[] {
  const middle = lines.reduce((a, b) =>
    Math.abs(b.launchAngle_deg - aim) < Math.abs(a.launchAngle_deg - aim) ? b : a,
  )
  return BESIDE_DEG.flatMap((off) =>
    lines.filter(({ launchAngle_deg }) => launchAngle_deg === middle.launchAngle_deg + off),
  )
}

/**
 * Room of one case with what is unknown of it drawn anew. The caster sees how that one lies and chooses his power and
 * aim for it: the most room about the aim of the delivery, by the ridge, with what the ridge is off for the case itself
 * added.
 */
export function* roomSampleSteps(
  asked: DeliveryCase,
  known: Known,
  seed: number,
): Generator<null, number> {
  const drawn = drawCase(asked.input, seed, { perCast: false, unknown: true })
  const anew = { ...asked, input: { ...drawn, cast: asked.input.cast } }
  const about = nearest(known.lines, known.launchAngle_deg)
  const lines: AimLine[] = []
  for (const { launchAngle_deg } of about)
    lines.push(yield* lineSteps(anew, launchAngle_deg, about))
  const off = known.room - mostRoom(asked, about)
  return Math.min(1, Math.max(0, mostRoom(anew, lines) + off))
}

const mostRoom = (asked: DeliveryCase, lines: readonly AimLine[]): number =>
  bestOf(candidatesOf(asked, lines))?.room ?? 0

export function roomBandOf(samples: readonly number[]): RoomBand {
  const sorted = [...samples].sort((a, b) => a - b)
  const quantile = (p: number) => quantileOf(sorted, p) ?? 0
  return { samples: samples.length, p10: quantile(0.1), p50: quantile(0.5), p90: quantile(0.9) }
}
