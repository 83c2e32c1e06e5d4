/** Rooms by the quick way and by casts drawn directly, of shipped leaders. */
import type { MeshName } from '../../src/engine/cast'
import type { Aimed, DeliveryCase } from '../../src/engine/delivery'
import { sought } from '../../src/engine/cast'
import {
  counts,
  deliveryQuestion,
  deliverySteps,
  fallOf,
  fly,
  missesOf,
  thrown,
} from '../../src/engine/delivery'
import { SHIPPED, leaderOf } from './formulas'

export const LEADERS = [
  'ash-tarn-sinking-4ft-2x',
  'ash-tarn-two-flies-15ft-4x',
  'lower-sallow-hopper-8ft-2x',
  'lower-sallow-streamer-7ft-1x',
  'marram-haven-estuary-10ft-12lb',
  'middle-sallow-9ft-4x',
  'middle-sallow-9ft-5x',
  'saturday-class-reversed',
  'upper-sallow-dry-11ft-6x',
  'upper-sallow-glides-420cm-7x',
]
export const CASTERS = ['ordinary', 'learner'] as const

export function askedOf(file: string, caster: (typeof CASTERS)[number]): DeliveryCase {
  const leader = leaderOf(SHIPPED.find((f) => f.file === `${file}.json`)!.text)
  const asked = deliveryQuestion({ ...leader, outfit: { ...leader.outfit, caster } })
  if (typeof asked === 'string') throw new Error(`${file}: ${asked}`)
  return asked
}

/** Beyond the misses that the delivery itself flies. */
const LEFT_OUT = 2000

/** Shares of so many casts about a delivery, those of even and of odd number apart. */
export function direct(asked: DeliveryCase, to: Aimed, draws: number, mesh: MeshName): number[] {
  const fall = fallOf(asked.input)
  const halves = [0, 0]
  missesOf(draws, LEFT_OUT).forEach((miss, i) => {
    const landing = fly(asked.input, { cast: thrown(asked.input, to, miss), mesh })
    const half = i < draws / 2 ? 0 : 1
    halves[half] = halves[half]! + (landing.lay === null ? 0 : counts(asked, fall, landing).room)
  })
  return halves.map((count) => (2 * count) / draws)
}

export function* trial(draws: number, mesh: MeshName) {
  for (const caster of CASTERS)
    for (const leader of LEADERS) {
      const asked = askedOf(leader, caster)
      const delivered = sought(deliverySteps(asked))
      if ('failed' in delivered) throw new Error(`${leader}: ${delivered.failed}`)
      const { best } = delivered
      const halves = direct(asked, best, draws, mesh)
      yield {
        leader,
        caster,
        quick: best.room,
        direct: (halves[0]! + halves[1]!) / 2,
        halves,
        best,
      }
    }
}
