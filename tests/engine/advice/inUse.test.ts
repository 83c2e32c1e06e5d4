// @vitest-environment node
import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import type { OldPiece, UseEvent } from '../../../src/engine/advice'
import { leaderNow, rebuild, trimmed, useStatus } from '../../../src/engine/advice'
import { evaluate } from '../../../src/engine/evaluate'
import { diameter_m, totalLength_m } from '../../../src/engine/leader'
import { q, size, soundLeader } from '../build'

const IN = 0.0254
const clip = (inches = 3): UseEvent => ({ kind: 'fly-change', clipped_m: inches * IN })
const lost = (inches: number): UseEvent => ({ kind: 'break', lost_m: inches * IN })
const times = (n: number, event: UseEvent) => Array.from({ length: n }, () => event)

describe('a leader in use', () => {
  it('fresh, it counts the changes that are left', () => {
    // From memory: a 24 in tippet survives about 4 to 6 changes before it is half as long; here 26 in
    // down to 18 in by 3 in each.
    const status = useStatus(soundLeader(), [])
    expect(status.state).toBe('fresh')
    expect(status.changesLeft).toBe(2)
    expect(status.advice).toBeNull()
  })

  it('each change clips so much, each break so much', () => {
    const { tippet_m, total_m } = useStatus(soundLeader(), [clip(), clip(2), lost(6)])
    expect(tippet_m / IN).toBeCloseTo(26 - 3 - 2 - 6, 6)
    expect(total_m / IN).toBeCloseTo(108 - 11, 6)
  })

  it('says when it is too short, and what brings it back', () => {
    const { state, advice } = useStatus(soundLeader(), times(4, clip()))
    expect(state).toBe('short')
    expect(advice).toMatchObject({ replaces: false })
    expect(advice?.pieces).toHaveLength(1)
    expect(advice!.total_m / IN).toBeCloseTo(108, 0)
    expect(advice?.pieces[0]).toMatchObject({ knot: 'surgeons-triple', material: 'nylon-supple' })
  })

  it('a stub is cut off and the tippet tied on whole', () => {
    const { advice } = useStatus(soundLeader(), [lost(20)])
    expect(advice?.replaces).toBe(true)
    expect(advice!.pieces.reduce((sum, p) => sum + p.length.si, 0) / IN).toBeCloseTo(26, 0)
  })

  it('when the end has climbed into the taper it says what size it is now, and steps down again', () => {
    const status = useStatus(soundLeader(), [lost(26 + 7)])
    expect(status.state).toBe('in-taper')
    expect(status.tippet_m).toBe(0)
    expect(status.end_m / 2.54e-5).toBeCloseTo(10, 6)
    // From .010 to .006 in is 60 %: a step in between.
    expect(status.advice?.pieces).toHaveLength(2)
    const ratios = [status.end_m, ...status.advice!.pieces.map((p) => p.diameter.si)]
    for (let i = 1; i < ratios.length; i++)
      expect(ratios[i]! / ratios[i - 1]!).toBeGreaterThan(0.65)
    expect(status.advice!.strength_N).toBeGreaterThan(0)
    expect(status.advice!.total_m).toBeCloseTo(totalLength_m(status.advice!.leader), 12)
  })

  it('what is advised, done, is fresh again and no fault', () => {
    for (const events of [times(4, clip()), [lost(20)], [lost(33)], [lost(60)]]) {
      const { advice } = useStatus(soundLeader(), events)
      const done = advice!.pieces.map((piece, i): UseEvent =>
        i === 0 && advice!.replaces ? { kind: 'replaced', piece } : { kind: 'added', piece },
      )
      const after = useStatus(soundLeader(), [...events, ...done])
      expect(after.state).toBe('fresh')
      expect(after.total_m).toBeCloseTo(advice!.total_m, 6)
      expect(evaluate(after.leader).checks.findings.filter((f) => f.severity === 'fault')).toEqual(
        [],
      )
    }
  })

  it('never grows by clipping, never ends, and leaves the formula alone', () => {
    const start = soundLeader()
    fc.assert(
      fc.property(fc.array(fc.integer({ min: 1, max: 40 }), { maxLength: 12 }), (inches) => {
        const now = leaderNow(
          start,
          inches.map((n) => lost(n)),
        )
        const gone = inches.reduce((sum, n) => sum + n * IN, 0)
        expect(now.segments.length).toBeGreaterThan(0)
        expect(totalLength_m(now)).toBeGreaterThan(0)
        const left = Math.max(0.01, totalLength_m(start) - gone)
        // A stub under a centimetre goes with the clip; lengths are rounded to a tenth of an inch.
        expect(Math.abs(totalLength_m(now) - left)).toBeLessThan(0.02 + inches.length * 0.0013)
      }),
    )
    expect(totalLength_m(start)).toBe(totalLength_m(soundLeader()))
    expect(trimmed(start, 0)).toBe(start)
  })
})

describe('an old leader rebuilt', () => {
  const old = (diameter: string, length: string): OldPiece => ({
    diameter: size(diameter),
    length: q(length),
    material: 'nylon-supple',
  })
  const spools = ['.015 in', '.012 in', '.010 in', '.008 in', '5X'].map((d) => ({
    name: `spool ${d}`,
    material: 'nylon-supple',
    diameter: size(d),
  }))

  it('keeps what fits, cuts what is long, takes the rest from the spools', () => {
    const left = [old('.020 in', '40 in'), old('.0175 in', '12 in'), old('.015 in', '4 in')]
    const { leader, steps, saved_m, total_m } = rebuild(left, soundLeader(), spools)
    expect(steps.filter((s) => s.kind === 'keep').map((s) => s.old)).toEqual([0, 1])
    const [first] = steps
    expect(first?.kind === 'keep' ? first.cutOff_m : 0).toBeCloseTo(2 * IN, 9)
    expect(steps.filter((s) => s.kind === 'from-spool')).toHaveLength(5)
    // Four inches of .015 are too little for nine.
    expect(steps.at(-1)).toEqual({ kind: 'discard', old: 2, length_m: q('4 in').si })
    expect(saved_m / IN).toBeCloseTo(50, 6)
    expect(total_m / IN).toBeCloseTo(108, 6)
    expect(leader.segments.map(diameter_m)).toEqual(soundLeader().segments.map(diameter_m))
  })

  it('names what no spool has', () => {
    const { steps } = rebuild([], soundLeader(), spools)
    expect(steps.filter((s) => s.kind === 'no-spool').map((s) => s.piece)).toEqual([0, 1])
  })

  it('from nothing but the leader itself keeps all of it', () => {
    const pieces = soundLeader().segments.map(({ diameter, length, material }) => ({
      diameter,
      length,
      material,
    }))
    const { steps, saved_m } = rebuild(pieces, soundLeader(), [])
    expect(steps.every((s) => s.kind === 'keep')).toBe(true)
    expect(saved_m).toBeCloseTo(totalLength_m(soundLeader()), 9)
  })
})
