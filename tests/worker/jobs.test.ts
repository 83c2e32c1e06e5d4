// @vitest-environment node
import { beforeEach, describe, expect, it, vi } from 'vitest'
import {
  attribute,
  extensionAt,
  leastLineSpeed,
  REACHES,
  reachOf,
  runCast,
  sampleLeastSpeed,
  sensitivityOf,
  turnsOver,
  withSpeed,
  sought,
} from '../../src/engine/cast'
import { buildChain } from '../../src/engine/cast/chain'
import { limitsFor, turnoverCandidates } from '../../src/engine/checks'
import { applyEdit } from '../../src/engine/leader'
import { stepsOf } from '../../src/worker/jobs'
import type * as Engine from '../../src/engine/cast/runCast'
import type { Job, Progress, ResultOf } from '../../src/worker/protocol'
import { overloadedLeader, quickCase, soundLeader } from './casts'

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

const CHOICES = { mesh: 'coarse' } as const
const input = quickCase(soundLeader())
const heavy = quickCase(overloadedLeader())
const target = 0.95
const from_m_s = 12
const candidates = turnoverCandidates(overloadedLeader(), limitsFor('general-dry', {}))

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

const seeds = [1, 2, 3, 4, 5]
const band = { kind: 'band', input, target, from_m_s, seeds } as const
const speeds = {
  kind: 'extensions',
  inputs: [4, 6, 9, 14].map((v) => withSpeed(input, v)),
} as const
const cures = {
  kind: 'cures',
  leader: overloadedLeader(),
  choices: CHOICES,
  candidates,
} as const

describe('a job finished in one go says what the engine says', () => {
  it.each([
    ['that turns over', input],
    ['that does not', heavy],
  ])('verdict of a leader %s', (_, of) => {
    const verdict = sought(stepsOf({ kind: 'verdict', input: of, target }))
    expect(verdict).toEqual({
      status: 'ok',
      extension: extensionAt(of, of.cast.lineSpeed_m_s),
      flySpeedAtTurn_m_s: runCast(of, { stopWhenStraight: true }).flySpeedAtTurn_m_s,
      leastSpeed_m_s: expect.any(Number) as number,
    })
    // Found from elsewhere, to 0.2 m/s either.
    const least = leastLineSpeed(of, { target, from_m_s: 14, tolerance_m_s: 0.02 })
    expect(Math.abs(verdict.leastSpeed_m_s! - least!)).toBeLessThan(0.25)
    expect(verdict.extension >= target).toBe(of === input)
  })

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

  it('band', () => {
    const samples = seeds.map((seed) => sampleLeastSpeed(input, seed, target, from_m_s))
    expect(sought(stepsOf(band))).toEqual(samples)
  })

  it('speeds', () => {
    expect(sought(stepsOf(speeds))).toEqual([4, 6, 9, 14].map((v) => extensionAt(input, v)))
  })

  it('sensitivity of a piece', () => {
    // Nothing of it depends on what a flight does after a second.
    const short = { ...heavy, endTime_s: 1 }
    const found = sought(stepsOf({ kind: 'sensitivity', input: short, segment: 1 }))
    expect(found).toEqual(sensitivityOf(short, 1))
    expect(found.perTenthLength_m_s).not.toBeNull()
  })

  it('reach, limit by limit', () => {
    const leader = overloadedLeader()
    const reach = reachOf(leader, CHOICES)
    for (const limit of REACHES)
      expect(sought(stepsOf({ kind: 'reach', leader, choices: CHOICES, limit }))).toBe(reach[limit])
  })
})

describe('cures', () => {
  it('are those of the candidates that turn the fly over, of each kind the first, in their order', () => {
    const leader = overloadedLeader()
    const turns = candidates.filter(({ edit }) => turnsOver(applyEdit(leader, edit), CHOICES))
    const firsts = turns.filter(({ id }, i) => turns.findIndex((one) => one.id === id) === i)
    const found = sought(stepsOf(cures))
    expect(found).toEqual(firsts)
    expect(found.length).toBeGreaterThan(0)
    // Some are milder than what cures, some would cure too but are more drastic: both are left out.
    expect(turns.length).toBeGreaterThan(firsts.length)
    expect(turns.length).toBeLessThan(candidates.length)
  })

  it('are none of a fly that nothing turns over', () => {
    const leader = overloadedLeader({
      tip: { joint: { knot: 'improved-clinch' }, fly: { fly: { style: 'popper', hook: -3 } } },
      outfit: { ...overloadedLeader().outfit, caster: 'learner' },
    })
    const few = turnoverCandidates(leader, limitsFor('general-dry', {})).slice(0, 3)
    expect(few).toHaveLength(3)
    expect(sought(stepsOf({ ...cures, leader, candidates: few }))).toEqual([])
  })

  it('do not fly what a milder one of the same kind has made needless', () => {
    const sure = candidates.filter(({ edit }) =>
      turnsOver(applyEdit(overloadedLeader(), edit), CHOICES),
    )
    const [first] = sure
    if (!first) throw new Error('nothing cures')
    count.flights = 0
    sought(stepsOf({ ...cures, candidates: [first, first, first] }))
    expect(count.flights).toBe(1)
  })
})

describe('a verdict whose flight fails', () => {
  it('says so and looks for no speed', () => {
    // A step of the chain cannot be solved for a fly that is no number.
    const broken = { ...input, fly: { mass_kg: NaN, dragArea_m2: 0 } }
    const { result, flights } = walk({ kind: 'verdict', input: broken, target })
    expect(result).toMatchObject({ leastSpeed_m_s: null })
    expect(result.status).toContain('did not converge')
    expect(flights).toBe(1)
  })
})

const sensitivity = { kind: 'sensitivity', input: { ...heavy, endTime_s: 1 }, segment: 2 } as const
const reach = {
  kind: 'reach',
  leader: soundLeader(),
  choices: CHOICES,
  limit: 'longestTippet_m',
} as const

describe('progress', () => {
  it.each([
    ['band', band],
    ['speeds', speeds],
    ['cures', cures],
  ] as const)('of %s counts up to one, and ends on the result', (_, job) => {
    const { said, result } = walk<Job>(job)
    const shares = said.map(({ done }) => done)
    expect(shares.length).toBeGreaterThan(2)
    for (const [i, share] of shares.entries()) expect(share).toBeGreaterThan(shares[i - 1] ?? 0)
    expect(shares.at(-1)).toBe(1)
    expect(said.at(-1)?.partial).toEqual(result)
  })

  // A flight takes some milliseconds, so that whatever is asked can be stopped well within 50 ms.
  it.each([
    ['band', band],
    ['speeds', speeds],
    ['cures', cures],
    ['sensitivity', sensitivity],
    ['reach', reach],
    ['verdict', { kind: 'verdict', input, target }],
    ['flight', { kind: 'flight', input }],
  ] as const)('of %s takes a breath between any two flights', (_, job) => {
    const { most, flights } = walk<Job>(job)
    expect(flights).toBeGreaterThan(0)
    expect(most).toBe(1)
  })

  it('of a band holds the samples so far', () => {
    const { said, result } = walk(band)
    expect(said.map(({ partial }) => partial?.length)).toEqual([1, 2, 3, 4, 5])
    expect(said[1]?.partial).toEqual(result.slice(0, 2))
  })

  it('of a list holds a list that later progress does not change', () => {
    const { said, result } = walk(speeds)
    expect(said.map(({ partial }) => partial)).toEqual([1, 2, 3, 4].map((n) => result.slice(0, n)))
  })

  it('of a verdict has the flight before the least speed', () => {
    const { said, result } = walk({ kind: 'verdict', input, target })
    expect(said).toEqual([{ done: 0.2, partial: { ...result, leastSpeed_m_s: null } }])
    expect(result.leastSpeed_m_s).not.toBeNull()
  })
})
