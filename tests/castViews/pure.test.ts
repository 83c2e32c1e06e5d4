import { describe, expect, it } from 'vitest'
import type { Frame } from '../../src/engine/cast'
import type { ShownFlight } from '../../src/features/cast/flights'
import { speedCurves } from '../../src/features/cast/speedCurves'
import { energyCurves, extensionCurves, lossRows } from '../../src/castViews/curves'
import {
  chordOf,
  extentOf,
  frameAt,
  keyMoments,
  leaderLength_m,
  polylines,
  speedsAt,
} from '../../src/castViews/scene'
import { flightSentence } from '../../src/castViews/words'
import type { SpokenUnits } from '../../src/wording'
import { sayIn } from '../../src/wording'
import { UNITS } from '../features/bench/fixtures'
import { overloaded, sound } from './flights'

const frame = (time_s: number, x: number[], y: number[]): Frame => ({
  time_s,
  x: Float32Array.from(x),
  y: Float32Array.from(y),
  tension_N: new Float32Array(y.length),
  flySpeed_m_s: 0,
  kinetic_J: 0,
  lost_J: { fly: 0, cross: 0, axial: 0, bending: 0 },
})

/** A flight with some of its results changed. */
function withResults(flight: ShownFlight, patch: Partial<ShownFlight['flown']>) {
  const { flown } = flight
  return { ...flight, flown: { ...flown, ...patch } }
}

describe('the scene', () => {
  it('holds every node of every frame, rod tip and water, with a margin', () => {
    const extent = extentOf([sound, overloaded])
    for (const { flown } of [sound, overloaded]) {
      for (const { x, y } of flown.frames) {
        expect(Math.min(...x)).toBeGreaterThan(extent.left)
        expect(Math.max(...x)).toBeLessThan(extent.right)
        expect(Math.max(...y)).toBeLessThan(extent.top)
      }
    }
    expect(extent.bottom).toBeLessThan(0)
    expect(extentOf([]).top).toBeGreaterThan(2)
    // The line is some 9 m long and the leader 2.7: they land no farther than they reach.
    expect(extent.right).toBeGreaterThan(9)
    expect(extent.right).toBeLessThan(13)
  })

  it.each([
    [-1, 0],
    [0, 0],
    [0.099, 0],
    [0.1, 1],
    [0.19, 1],
    [0.35, 2],
    [99, 2],
  ])('at %s s shows frame %i', (time_s, expected) => {
    const frames = [0, 0.1, 0.2].map((t) => frame(t, [0], [0]))
    expect(frameAt(frames, time_s)).toBe(expected)
  })

  it('without frames has no frame to show, but a number', () => {
    expect(frameAt([], 1)).toBe(0)
  })

  it('draws line and leader as one, y downward, meeting at the butt', () => {
    const one = frame(0, [0, 1, 2, 3], [2, 1, 0.5, 0.25])
    expect(polylines(one, 2)).toEqual({
      line: '0.000,-2.000 1.000,-1.000 2.000,-0.500',
      leader: '2.000,-0.500 3.000,-0.250',
    })
  })

  it('measures the chord from butt to fly, negative while the fly is behind', () => {
    expect(chordOf(frame(0, [0, 1, 4], [0, 0, 4]), 1, 10)).toBeCloseTo(0.5, 6)
    expect(chordOf(frame(0, [0, 4, 1], [0, 0, 4]), 1, 10)).toBeCloseTo(-0.5, 6)
  })

  it('knows the length of a leader', () => {
    // Nine feet, as it says.
    expect(leaderLength_m(sound)).toBeCloseTo(2.7432, 6)
  })

  it('tells how fast each node moves until the next frame', () => {
    const frames = [frame(0, [0, 0], [0, 0]), frame(0.5, [0, 3], [0, 4])]
    expect(speedsAt(frames, 0)).toEqual([0, 10])
    expect(speedsAt(frames, 1)).toEqual([])
    expect(speedsAt([], 0)).toEqual([])
  })
})

describe('the moments worth a still', () => {
  const timesOf = (flight: ShownFlight) => keyMoments(flight).map(({ time_s }) => time_s)

  it('are in order, from the loop as formed to the fly on the water', () => {
    for (const flight of [sound, overloaded]) {
      const times = timesOf(flight)
      expect(times[0]).toBe(0)
      expect(times).toEqual([...new Set(times)].sort((a, b) => a - b))
    }
    expect(keyMoments(sound).map(({ name }) => name)).toEqual([
      'the loop as formed',
      'the loop runs out the line',
      'the last piece stands upright',
      'greatest extension',
      'the fly on the water',
    ])
  })

  it('come in their own order also where the chord is greatest before the turn', () => {
    const early = withResults(sound, { timeOfTurn_s: 0.8, timeOfExtension_s: 0.6 })
    expect(keyMoments(early).map(({ time_s }) => time_s)).toEqual([
      0,
      expect.closeTo(0.48),
      0.6,
      0.8,
      sound.flown.touchTime_s,
    ])
  })

  it('are shown once where two fall together', () => {
    const both = withResults(sound, { timeOfExtension_s: 1.5, touchTime_s: 1.5 })
    expect(timesOf(both).filter((t) => t === 1.5)).toHaveLength(1)
  })

  it('leave out what never came', () => {
    const never = { timeOfTurn_s: null, timeOfExtension_s: null, touchTime_s: null }
    expect(timesOf(withResults(sound, never))).toEqual([0])
  })
})

describe('the curves', () => {
  const last = (points: readonly { y: number }[] | undefined) => points?.at(-1)?.y ?? NaN

  it('of energy begin with all of it in motion, and what is taken never comes back', () => {
    const [motion, ...taken] = energyCurves(sound)
    const { ledger } = sound.flown
    expect(motion?.points[0]?.y).toBeCloseTo((ledger?.start_J ?? NaN) * 1e3, 0)
    expect(taken).toHaveLength(4)
    for (const { points } of taken) {
      expect(points[0]?.y).toBe(0)
      for (const [i, { y }] of points.entries())
        expect(y).toBeGreaterThanOrEqual((points[i - 1]?.y ?? 0) - 1e-9)
    }
    expect(last(taken[0]?.points)).toBeCloseTo((ledger?.fly_J ?? NaN) * 1e3, 6)
  })

  it('of extension peak where the flight says, one for each leader, told apart', () => {
    const curves = extensionCurves([sound, overloaded])
    expect(curves.map(({ name, of }) => [name, of])).toEqual([
      ['Sound', 0],
      ['Overloaded', 1],
    ])
    for (const [i, flight] of [sound, overloaded].entries()) {
      const { extension, touchTime_s } = flight.flown
      const before = curves[i]?.points.filter(({ x }) => x < (touchTime_s ?? Infinity)) ?? []
      // A frame each sixtieth of a second catches a peak of milliseconds to within a tenth.
      expect(extension - Math.max(...before.map(({ y }) => y))).toBeLessThan(0.1)
      expect(curves[i]?.points[0]?.y).toBeLessThan(0)
    }
  })

  it('of speeds have a point for each speed that has arrived', () => {
    const [curve] = speedCurves([sound], 'm/s')
    expect(curve?.points.map(({ x }) => x)).toEqual([5, 6, 7])
    expect(curve?.points.map(({ y }) => y)).toEqual(sound.extensions)
    expect(speedCurves([{ ...sound, extensions: [] }], 'm/s')[0]?.points).toEqual([])
  })

  it('of loss name line, pieces and fly, and add up to what the ledger lost', () => {
    const rows = lossRows(sound)
    expect(rows.map(({ name }) => name)).toEqual([
      'line',
      '1 butt',
      '2 butt',
      '3 mid-section',
      '4 mid-section',
      '5 mid-section',
      '6 mid-section',
      '7 tippet',
      'fly',
    ])
    const { ledger } = sound.flown
    if (!ledger) throw new Error('no ledger')
    const sum = (column: Float64Array) => column.reduce((total, part) => total + part, 0)
    const total_J = sum(ledger.cross_J) + sum(ledger.axial_J) + sum(ledger.bending_J) + ledger.fly_J
    const shown = rows.reduce((s, r) => s + r.cross_mJ + r.axial_mJ + r.bending_mJ, 0)
    expect(shown / 1e3).toBeCloseTo(total_J, 6)
  })

  it('of loss without an account has the fly alone, with nothing', () => {
    const bare = { ...sound, flown: { ...sound.flown, ledger: null } }
    expect(lossRows(bare)).toEqual([{ name: 'fly', cross_mJ: 0, axial_mJ: 0, bending_mJ: 0 }])
  })
})

describe('the sentence', () => {
  const BASE = {
    extension: 0.97,
    unrolledFraction: 1,
    timeOfTurn_s: 0.8,
    flySpeedAtTurn_m_s: 6,
    touchTime_s: 1.52,
  }
  const tell = (patch: object, units: SpokenUnits = UNITS) =>
    flightSentence(withResults(sound, { ...BASE, ...patch }), sayIn(units))

  it('says speed, aim, leader, shape, turn, touch and how it lies', () => {
    const patch = { lay: 0.83, touchSpeedRatio: 1.1, touchOrder: ['line', 'leader', 'fly'] }
    expect(tell(patch)).toBe(
      'At 12 m/s (10° up) “Sound” straightens in the air, to 97 % of its length; the tip comes round after 0.80 s; the fly comes down softly after 1.52 s, after line and leader; the leader lies nearly straight, 83 % of its length out.',
    )
    expect(tell({ ...patch, lay: -0.2 })).toContain('lies in a heap behind its butt.')
    expect(tell({ ...patch, touchSpeedRatio: 9 })).toContain('the fly comes down hard')
  })

  it('says speeds in the units that were chosen', () => {
    // 12 m/s: 43.2 km/h, 39.4 ft/s, 26.8 mph (NIST Special Publication 811, 2008, appendix B).
    const at = (speed: SpokenUnits['speed']) =>
      /^At ([^(]+) \(/.exec(tell({}, { ...UNITS, speed }))?.[1]
    expect((['km/h', 'ft/s', 'mph'] as const).map(at)).toEqual(['43 km/h', '39 ft/s', '27 mph'])
  })

  it.each([
    [0.95, 'straightens'],
    [0.949, 'turns over lazily'],
    [0.85, 'turns over lazily'],
    [0.84, 'collapses'],
  ])('at %s of its length says it %s', (extension, words) => {
    expect(tell({ extension })).toContain(words)
  })

  it('calls a chord of a leader that has not unrolled a collapse, as the verdict does', () => {
    expect(tell({ extension: 0.97, unrolledFraction: 0.5 })).toContain(
      'collapses in the air, to 0 %',
    )
  })

  it('says what never came', () => {
    const gone = { timeOfTurn_s: null, touchTime_s: null, lay: null, touchOrder: null }
    const text = tell(gone)
    expect(text).toContain('the tip never comes round')
    expect(text).toContain('still in the air')
    expect(text).not.toMatch(/null|NaN|undefined/)
  })
})
