import type { CastCase, CastChoices, HungBody } from '../cast'
import type { Attachment, Leader } from '../leader'
import type { Body } from '../tackle'
import type { DeliveryCase } from './room'
import { caseOf } from '../cast'
import { greatestSpeed_m_s } from '../leader'
import { bodyOf, flyFigures, sphereDrag } from '../tackle'
import { wantedOf } from './wanted'

/** Why nothing is flown: no fly, no line, or a leader that is lobbed and not cast. */
export type NotAsked = 'no-fly' | 'no-line' | 'lobbed'

/** Time enough for any fly to come down, s: a lay is that of the touch. */
const END_S = 6

/** The delivery that is asked of a leader with its line, fly and caster. */
export function deliveryQuestion(
  leader: Leader,
  choices: CastChoices = {},
): DeliveryCase | NotAsked {
  if (leader.purpose === 'tight-line-nymph') return 'lobbed'
  const input = caseOf(leader, choices)
  if (typeof input === 'string') return input
  return {
    input: untilTouch({ ...input, hung: hungOn(leader) }),
    wanted: wantedOf(leader),
    greatest_m_s: greatestSpeed_m_s(leader.outfit),
  }
}

/** A case as its deliveries are flown: long enough for the fly to come down, the loop formed within the line out. */
export function untilTouch(input: CastCase): CastCase {
  const out_m = input.line.reduce((sum, { length_m }) => sum + length_m, 0)
  const loopStart_m = Math.min(input.cast.loopStart_m, LOOP_SHARE * out_m)
  return { ...input, endTime_s: END_S, cast: { ...input.cast, loopStart_m } }
}

/** The loop starts no farther out than this share of the line; estimate. */
const LOOP_SHARE = 0.45

/** Droppers, indicators and weights as bodies on the strand; where one hangs without a fly, nothing does. */
function hungOn({ segments }: Leader): HungBody[] {
  let butt_m = 0
  return segments.flatMap(({ length, attachments }) => {
    const from_m = butt_m
    butt_m += length.si
    return attachments.flatMap((each) => {
      const body = bodyFor(each)
      return body ? [{ ...body, at_m: from_m + (each.from?.si ?? 0) }] : []
    })
  })
}

function bodyFor({ kind, fly, mass }: Attachment): Body | undefined {
  if (kind === 'dropper' || kind === 'fly') return fly && bodyOf(flyFigures(fly.fly))
  if (kind === 'indicator') return ball(mass?.si ?? INDICATOR.mass_kg, INDICATOR.density_kg_m3)
  if (kind === 'weight') return ball(mass?.si ?? WEIGHT.mass_kg, WEIGHT.density_kg_m3)
  return undefined
}

/** A foam indicator of half an inch and a tin shot, where nothing is said; common practice. */
const INDICATOR = { mass_kg: 0.3e-3, density_kg_m3: 280 }
const WEIGHT = { mass_kg: 0.2e-3, density_kg_m3: 7300 }

/** Where the drag of a sphere hardly changes. */
const FAST_REYNOLDS = 1e4

function ball(mass_kg: number, density_kg_m3: number): Body {
  const radius_m = ((3 * mass_kg) / (4 * Math.PI * density_kg_m3)) ** (1 / 3)
  return { mass_kg, dragArea_m2: sphereDrag(FAST_REYNOLDS) * Math.PI * radius_m ** 2 }
}
