// @vitest-environment node
import { beforeEach, describe, expect, it, vi } from 'vitest'
import { attribute, extensionAt, runCast, withSpeed, sought } from '../../src/engine/cast'
import { buildChain } from '../../src/engine/cast/chain'
import type { DeliveryCase } from '../../src/engine/delivery'
import { fly, LAID } from '../../src/engine/delivery'
import { stepsOf } from '../../src/worker/jobs'
import type * as Engine from '../../src/engine/cast/runCast'
import type { Job, Progress, ResultOf } from '../../src/worker/protocol'
import { quickCase, soundLeader } from './casts'

const count = vi.hoisted(() => ({ flights: 0 }))
// Every flight of the engine goes through this one function: counted, not replaced.
vi.mock('../../src/engine/cast/runCast', async (original) => {
  const real = await original<typeof Engine>()
  return {
    ...real,
    runCast: (...given: Parameters<typeof real.runCast>) => {
      count.flights++
      return real.runCast(...given)
    },
  }
})

beforeEach(() => {
  count.flights = 0
})

const input = quickCase(soundLeader())
const asked: DeliveryCase = { input, wanted: LAID, greatest_m_s: 16 }

/** A job walked through: its progress, its result, and the most flights between two yields. */
function walk<J extends Job>(job: J) {
  const steps = stepsOf(job)
  const said: Progress<ResultOf<J>>[] = []
  let most = 0
  for (;;) {
    const before = count.flights
    const step = steps.next()
    most = Math.max(most, count.flights - before)
    if (step.done) return { said, result: step.value, most, flights: count.flights }
    if (step.value) said.push(step.value)
  }
}

const speeds = {
  kind: 'extensions',
  inputs: [4, 6, 9, 14].map((v) => withSpeed(input, v)),
} as const
const throws = [8, 10].map((lineSpeed_m_s) => ({
  cast: { ...input.cast, lineSpeed_m_s },
  mesh: 'coarse' as const,
}))
const errand = { kind: 'errand', asked, errand: { kind: 'casts', throws } } as const

describe('a job finished in one go says what the engine says', () => {
  it('flight, with its frames, its account, and where the leader and its joints are', () => {
    const flown = sought(stepsOf({ kind: 'flight', input }))
    const flight = runCast(input, { audit: true, frameEvery_s: 1 / 60 })
    expect(flown).toEqual(flight)
    expect(attribute(flown)).toEqual(attribute(flight))
    const { x, y } = flight.frames[0]!
    const { length_m } = buildChain(input)
    const lengthTo = (node: number) => length_m.slice(1, node + 1).reduce((sum, l) => sum + l, 0)
    const line_m = input.line.reduce((sum, s) => sum + s.length_m, 0)
    expect(lengthTo(flown.buttNode)).toBeCloseTo(line_m, 6)
    // Each joint stands as far down the chain as the pieces above it are long.
    let along_m = line_m
    for (const [i, segment] of input.segments.entries()) {
      expect(lengthTo(flown.jointNodes[i]!)).toBeCloseTo(along_m, 6)
      along_m += segment.length_m
    }
    expect([x.length, y.length]).toEqual([flight.nodes, flight.nodes])
  })

  it('speeds', () => {
    expect(sought(stepsOf(speeds))).toEqual([4, 6, 9, 14].map((v) => extensionAt(input, v)))
  })

  it('errand: some casts of a delivery', () => {
    const found = sought(stepsOf(errand))
    expect(found).toEqual({
      kind: 'casts',
      landings: errand.errand.throws.map((each) => fly(input, each)),
    })
  })
})

describe('progress', () => {
  it('of a list counts up to one, and ends on the result', () => {
    const { said, result } = walk(speeds)
    const shares = said.map(({ done }) => done)
    expect(shares.length).toBeGreaterThan(2)
    for (const [i, share] of shares.entries()) expect(share).toBeGreaterThan(shares[i - 1] ?? 0)
    expect(shares.at(-1)).toBe(1)
    expect(said.at(-1)?.partial).toEqual(result)
  })

  // A flight takes some milliseconds, so that whatever is asked can be stopped well within 50 ms.
  it.each([
    ['speeds', speeds],
    ['errand', errand],
    ['line', { kind: 'errand', asked, errand: { kind: 'line', launchAngle_deg: 2 } }],
    ['flight', { kind: 'flight', input }],
  ] as const)('of %s takes a breath between any two flights', (_, job) => {
    const { most, flights } = walk<Job>(job)
    expect(flights).toBeGreaterThan(0)
    expect(most).toBe(1)
  })

  it('of a list holds a list that later progress does not change', () => {
    const { said, result } = walk(speeds)
    expect(said.map(({ partial }) => partial)).toEqual([1, 2, 3, 4].map((n) => result.slice(0, n)))
  })
})
