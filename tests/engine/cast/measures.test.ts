// @vitest-environment node
import { describe, expect, it } from 'vitest'
import type { CastCase, Frame, RunOptions } from '../../../src/engine/cast'
import { runCast } from '../../../src/engine/cast'
import { buildChain } from '../../../src/engine/cast/chain'
import { flyFrom } from '../../../src/engine/cast/runCast'
import { caseFor, VARIED } from '../../support/convergence-table'
import { bareCase, G, stateOf, strand } from './rig'

/** The measures taken again from every position of a flight, by their definitions alone. */
function measured(input: CastCase) {
  const chain = buildChain(input)
  const flight = runCast(input, { frameEvery_s: 1e-9 })
  const at = ({ x, y }: Frame) => {
    const [b, n] = [chain.butt, chain.links]
    const dx = x[n]! - x[b]!
    let forward = 0
    for (let k = b + 1; k <= n; k++) if (x[k]! > x[k - 1]!) forward += chain.length_m[k]!
    return {
      chord: Math.hypot(dx, y[n]! - y[b]!) / chain.leaderLength_m,
      ahead: dx > 0,
      forward: forward / chain.leaderLength_m,
      height: y[n]!,
      lastLink: x[n]! - x[n - 1]!,
    }
  }
  const looks = flight.frames.map(at)
  const touch = looks.findIndex((look) => look.height <= 0)
  const air = looks.slice(0, touch < 0 ? looks.length : touch + 1)
  const peaks = air.filter((look, i) => {
    const [before, after] = [air[i - 1], air[i + 1]]
    return (
      look.ahead && after && (!before || look.chord >= before.chord) && look.chord > after.chord
    )
  })
  const last = air.at(-1)!
  const touching = touch >= 0 && last.ahead ? last.chord : 0
  const turn = air.findIndex((look, i) => i > 0 && air[i - 1]!.lastLink < 0 && look.lastLink >= 0)
  return {
    flight,
    extension: Math.max(0, touching, ...peaks.map((p) => p.chord)),
    unrolled: Math.max(...air.slice(1).map((look) => look.forward)),
    touchTime: touch < 0 ? null : flight.frames[touch]!.time_s,
    touchSpeed: touch < 0 ? null : flight.frames[touch]!.flySpeed_m_s,
    turn:
      turn < 0
        ? null
        : { time: flight.frames[turn]!.time_s, speed: flight.frames[turn]!.flySpeed_m_s },
    slack: 1 - looks.at(-1)!.chord,
  }
}

describe('measures are what they say, on real flights', () => {
  it.each([0, 1, 4, 6, 10, 11])('varied cast %i', (i) => {
    const { flight, ...by } = measured({ ...caseFor(VARIED[i]!), endTime_s: 4 })
    expect(flight.status).toBe('ok')
    // Frames are kept in single precision; a touch and a turn fall within one step of a few per cent.
    expect(Math.abs(flight.extension - by.extension)).toBeLessThan(2e-3)
    expect(Math.abs(flight.unrolledFraction - by.unrolled)).toBeLessThan(1e-5)
    expect(Math.abs(flight.slackOnWater! - by.slack)).toBeLessThan(1e-5)
    expect(Math.abs(flight.touchTime_s! - by.touchTime!)).toBeLessThan(2e-3)
    expect(Math.abs(flight.touchSpeed_m_s! / by.touchSpeed! - 1)).toBeLessThan(0.05)
    expect(flight.flySpeedAtTurn_m_s === null).toBe(by.turn === null)
    expect(Math.abs(flight.timeOfTurn_s! - by.turn!.time)).toBeLessThan(2e-3)
    expect(Math.abs(flight.flySpeedAtTurn_m_s! / by.turn!.speed - 1)).toBeLessThan(0.1)
  })

  it('frames hold every node and no more', () => {
    const flight = runCast({ ...caseFor(VARIED[0]!), endTime_s: 0.05 }, { frameEvery_s: 0.01 })
    expect(flight.frames.length).toBeGreaterThan(3)
    for (const { x, y } of flight.frames) {
      expect(x.length).toBe(flight.nodes)
      expect(y.length).toBe(flight.nodes)
    }
    expect(flight.frames[0]!.time_s).toBe(0)
  })
})

describe('edge cases of the measures', () => {
  const input = (patch: Partial<CastCase> = {}) =>
    bareCase({
      line: [strand(1, 1e-3)],
      segments: [strand(1, 0.3e-3)],
      gravity_m_s2: G,
      endTime_s: 1,
      mesh: 'usual',
      ...patch,
    })

  /** A flight from rest with every link in a direction of our own, the tip so high. */
  function drop(
    angle: (link: number, links: number) => number,
    height_m: number,
    patch: Partial<CastCase> = {},
    options: RunOptions = {},
  ) {
    const case_ = input(patch)
    const chain = buildChain(case_)
    const state = stateOf(chain, (k) => angle(k, chain.links))
    const shift = height_m - state.y[0]!
    for (let k = 0; k <= chain.links; k++) state.y[k] = state.y[k]! + shift
    return flyFrom(chain, state, case_, options)
  }

  it('never ahead of the butt: no extension, nothing unrolled, no turn', () => {
    const flight = drop(() => Math.PI, 0.4)
    expect(flight.status).toBe('ok')
    expect(flight.touchTime_s).not.toBeNull()
    expect(flight.extension).toBe(0)
    expect(flight.timeOfExtension_s).toBeNull()
    expect(flight.unrolledFraction).toBe(0)
    expect(flight.flySpeedAtTurn_m_s).toBeNull()
  })

  it('touches before turning: the chord at touch does not count behind the butt', () => {
    const flight = drop((k, n) => (k <= n / 2 ? 0 : Math.PI), 0.3)
    expect(flight.touchTime_s).not.toBeNull()
    expect(flight.extension).toBe(0)
    expect(flight.flySpeedAtTurn_m_s).toBeNull()
  })

  it('already straight at the start: extension 1 at time 0, all forward, no turn', () => {
    const flight = drop(() => 0, 0.6)
    expect(flight.extension).toBeCloseTo(1, 6)
    expect(flight.unrolledFraction).toBeCloseTo(1, 6)
    expect(flight.flySpeedAtTurn_m_s).toBeNull()
  })

  it('touches when a stone would', () => {
    // A level strand falls freely (its end is drawn back, but not up, by what hangs from the tip): 1 ms is a step.
    const flight = drop(() => 0, 0.3)
    expect(Math.abs(flight.touchTime_s! - Math.sqrt(0.6 / G))).toBeLessThan(1e-3)
  })

  it('the chord at touch counts where it is the largest ahead', () => {
    // A leader bent like a roof, which its fall is still opening when the fly touches.
    const { butt, links: fly, leaderLength_m } = buildChain(input())
    const roof = (k: number) => (k <= butt ? 0 : k <= (butt + fly) / 2 ? 1.2 : -1.2)
    const flight = drop(roof, 0.4, {}, { frameEvery_s: 1e-9 })
    const looks = flight.frames.map(({ x, y }) => ({
      chord: Math.hypot(x[fly]! - x[butt]!, y[fly]! - y[butt]!) / leaderLength_m,
      height: y[fly]!,
    }))
    const touch = looks.findIndex(({ height }) => height <= 0)
    const [above, below] = [looks[touch - 1]!, looks[touch]!]
    const share = above.height / (above.height - below.height)
    const atTouch = above.chord + share * (below.chord - above.chord)
    // Frames are kept in single precision.
    expect(atTouch).toBeGreaterThan(Math.max(...looks.slice(0, touch).map(({ chord }) => chord)))
    expect(Math.abs(flight.extension - atTouch)).toBeLessThan(1e-5)
    expect(flight.timeOfExtension_s).toBe(flight.touchTime_s)
  })

  it('stopped early there is no slack to tell, and a flight without water has no touch', () => {
    const early = drop(() => 0, 0.6, {}, { stopWhenStraight: true })
    expect(early.slackOnWater).toBeNull()
    const high = drop(() => 0, 50)
    expect(high.touchTime_s).toBeNull()
    expect(high.touchSpeed_m_s).toBeNull()
  })

  it('a fly still in the loop, or before it, keeps what rolling gives it', () => {
    for (const loopStart_m of [1.999, 2.5, 1.5]) {
      const case_ = input({ cast: { ...input().cast, loopStart_m, tipHeight_m: 2 } })
      const flight = runCast(case_, { frameEvery_s: 1e-9 })
      expect(flight.status).toBe('ok')
      expect(flight.frames[0]!.flySpeed_m_s).toBeLessThanOrEqual(case_.cast.lineSpeed_m_s * 1.05)
    }
  })
})

describe('stopping early says the same of turning over as the whole flight', () => {
  it.each(VARIED.map((v) => [v.file, v.caster, v] as const))('%s, %s', (_file, _caster, varied) => {
    const input = caseFor(varied)
    const whole = runCast(input)
    const early = runCast(input, { stopWhenStraight: true })
    expect(early.steps).toBeLessThan(whole.steps)
    expect(early.extension >= 0.95).toBe(whole.extension >= 0.95)
    if (whole.extension < 0.95) expect(early.extension).toBe(whole.extension)
  })
})
