// @vitest-environment node
import { AS_TYPED, UNITS } from './fixtures'
import type { Judgement, NotAsked } from '../../../src/engine/delivery'
import { madeJudgement } from '../../engine/delivery/made'
import { describe, expect, it } from 'vitest'
import { evaluate } from '../../../src/engine/evaluate'
import { diameter_m } from '../../../src/engine/leader'
import { AXIS_LEFT, AXIS_RIGHT, distanceAt, pixelAt } from '../../../src/features/bench/axis'
import { drawingOf } from '../../../src/features/bench/drawing'
import { insertedSegment } from '../../../src/features/bench/inserted'
import { placeDistance, placeText, rowsOf } from '../../../src/features/bench/rows'
import { spokenUnits, totalUnit } from '../../../src/wording'
import { bandItems } from '../../../src/features/bench/verdict'
import { sayIn } from '../../../src/wording'
import { leaderOf, q, size, soundLeader, withPiece } from '../../engine/build'

const leader = soundLeader()
const evaluation = evaluate(leader)
const say = sayIn(UNITS)

describe('axis', () => {
  it('runs from the left margin to the right one', () => {
    expect(pixelAt(0, 3, 800)).toBe(AXIS_LEFT)
    expect(pixelAt(3, 3, 800)).toBe(800 - AXIS_RIGHT)
  })

  it('finds the distance under a pixel again', () => {
    for (const m of [0, 0.3, 1.7, 2.74])
      expect(distanceAt(pixelAt(m, 2.74, 640), 2.74, 640)).toBeCloseTo(m, 9)
  })

  it('takes a pixel just beside an end for the end, and one well beside it for nothing', () => {
    expect(distanceAt(AXIS_LEFT - 3, 2, 800)).toBe(0)
    expect(distanceAt(800 - AXIS_RIGHT + 3, 2, 800)).toBe(2)
    expect(distanceAt(AXIS_LEFT - 30, 2, 800)).toBeNull()
    expect(distanceAt(799, 2, 800)).toBeNull()
  })
})

describe('drawing', () => {
  const drawing = drawingOf(evaluation, 800)

  it('puts the bars end to end along the axis, to length', () => {
    const { bars } = drawing
    expect(bars[0]?.x).toBe(AXIS_LEFT)
    bars.slice(1).forEach((bar, i) => {
      const above = bars[i]
      expect(bar.x).toBeCloseTo((above?.x ?? 0) + (above?.width ?? 0), 9)
    })
    expect((bars[0]?.width ?? 0) / (bars[1]?.width ?? 1)).toBeCloseTo(38 / 12, 9)
  })

  it('draws diameters in proportion, the thickest 40 pixels', () => {
    const { bars, perMetre, lineThickness } = drawing
    expect(Math.max(lineThickness, ...bars.map((bar) => bar.thickness))).toBeCloseTo(40, 9)
    expect(bars[0]?.thickness).toBeCloseTo(20 * 2.54e-5 * perMetre, 9)
  })

  it('has a joint at either end of every bar', () => {
    expect(drawing.joints).toHaveLength(leader.segments.length + 1)
    expect(drawing.joints.at(-1)?.x).toBeCloseTo(800 - AXIS_RIGHT, 9)
    expect(drawing.joints[1]?.x).toBeCloseTo(drawing.bars[1]?.x ?? 0, 9)
  })

  it('keeps a hair beside a rope visible', () => {
    const uneven = leaderOf([
      { length: '1 m', diameter: '2 mm', part: 'butt' },
      { length: '1 m', diameter: '0.02 mm', part: 'tippet' },
    ])
    expect(drawingOf(evaluate(uneven), 800).bars[1]?.thickness).toBe(1.5)
  })

  it('says how much thicker than long it draws', () => {
    const lengthScale = (800 - AXIS_LEFT - AXIS_RIGHT) / evaluation.profile.total_m
    const factor = drawing.perMetre / lengthScale
    expect(Math.abs(drawing.exaggeration - factor)).toBeLessThanOrEqual(5)
  })
})

describe('rows', () => {
  const row = (i: number, of = evaluation) => rowsOf(of, say)[i]!

  it('that read as before are the same objects, and the others are not', () => {
    const before = rowsOf(evaluation, say)
    const longer = withPiece(leader, 6, { length: q('25 in') })
    const after = rowsOf(evaluate(longer), say, before)
    expect(after.map((one, i) => one === before[i])).toEqual([
      ...Array<boolean>(6).fill(true),
      false,
    ])
  })

  it('says step, cut and strength of a piece in words', () => {
    const { step, cut, holds } = row(1)
    // .0175 of .020 in.
    expect(step).toBe('88 %')
    expect(cut).toMatch(/^\d+(\.\d)? in$/)
    expect(Number.parseFloat(cut)).toBeGreaterThan(12)
    expect(holds).toMatch(/^\d+(\.\d)? lb$/)
  })

  it('has no step at the line where no line is chosen', () => {
    const { outfit: _, ...rest } = leader
    expect(row(0, evaluate({ ...rest, outfit: {} })).step).toBe('–')
  })

  it('marks a row with the severest finding at the piece or the knot above it', () => {
    expect(row(3).severity).toBeUndefined()
    const wrongKnot = withPiece(leader, 3, {
      joint: { knot: 'improved-clinch' },
      length: q('2 in'),
    })
    const spoiled = evaluate(wrongKnot)
    expect(row(3, spoiled).severity).toBe('fault')
    expect(row(1, spoiled).severity).toBeUndefined()
  })

  it.each([
    [{ kind: 'leader', index: 0 }, 'The whole leader'],
    [{ kind: 'segment', index: 6 }, 'Piece 7, tippet'],
    [{ kind: 'joint', index: 0 }, 'Joint at the line'],
    [{ kind: 'joint', index: 3 }, 'Joint of pieces 3 and 4'],
    [{ kind: 'joint', index: 7 }, 'Knot at the fly'],
  ] as const)('points at %o as "%s"', (place, words) => {
    expect(placeText(place, leader)).toBe(words)
  })

  it('finds places along the leader: the middle of a piece, a joint, the middle of all', () => {
    const inches = (m: number) => m / 0.0254
    const at = (kind: 'leader' | 'segment' | 'joint', index: number) =>
      inches(placeDistance({ kind, index }, evaluation))
    expect(at('segment', 1)).toBeCloseTo(44, 6)
    expect(at('joint', 2)).toBeCloseTo(50, 6)
    expect(at('joint', 7)).toBeCloseTo(108, 6)
    expect(at('leader', 0)).toBeCloseTo(54, 6)
  })
})

describe('units', () => {
  it('speaks in what the leader is mostly written in', () => {
    const metric = leaderOf([
      { length: '1 m', diameter: '0.5 mm', part: 'butt' },
      { length: '40 cm', diameter: '0.3 mm', part: 'mid-section' },
      { length: '60 cm', diameter: '5X', part: 'tippet' },
    ])
    expect(spokenUnits(AS_TYPED, leader)).toEqual({
      diameter: 'in',
      length: 'in',
      force: 'lb',
      speed: 'm/s',
    })
    expect(spokenUnits(AS_TYPED, metric)).toMatchObject({ diameter: 'mm', length: 'cm' })
  })

  it('speaks in what was chosen, whatever the leader is written in', () => {
    const choice = {
      diameterUnit: 'X',
      lengthUnit: 'm',
      forceUnit: 'kg',
      speedUnit: 'mph',
    } as const
    const spoken = { diameter: 'X', length: 'm', force: 'kg', speed: 'mph' }
    expect(spokenUnits(choice, leader)).toEqual(spoken)
  })

  it('says totals in feet and inches or in metres', () => {
    expect(['in', 'ft', 'ft-in', 'cm', 'mm', 'm'].map((unit) => totalUnit(unit as 'in'))).toEqual([
      'ft-in',
      'ft-in',
      'ft-in',
      'm',
      'm',
      'm',
    ])
  })
})

describe('verdict', () => {
  const items = (of = leader, judgement: Judgement = madeJudgement()) =>
    bandItems(of, evaluate(of), say, UNITS, judgement)

  it('gives length, weakest place and delivery, each with what it rests on', () => {
    expect(items().map(({ name }) => name)).toEqual([
      'Finished length',
      'Weakest place, wet',
      'How it is delivered',
    ])
    expect(items()[0]?.figure).toBe("9'")
    expect(items()[0]?.rest).toMatch(/^7 pieces; cut /)
    expect(items()[1]?.figure).toMatch(/^[\d.]+ lb \([\d.]+ kg\)$/)
    expect(items()[2]?.figure).toBe('Goes over easily: parachute dry 18')
    expect(items()[2]?.rest).toContain('An ordinary caster lays out 70 of 100 casts')
  })

  it('says how much power it asks for beside a leader that one casts, once both were thrown', () => {
    const yardstick = { name: 'Mine', rank: 'harder' } as const
    const rest = (judgement: Judgement) =>
      bandItems(leader, evaluation, say, UNITS, judgement, yardstick)[2]?.rest
    expect(rest(madeJudgement())).toMatch(/It asks for more power than “Mine”\.$/)
    expect(rest({ kind: 'checking' })).not.toContain('Mine')
  })

  it('asks for fly or line where nothing can be thrown', () => {
    const asked = (because: NotAsked) => items(leader, { kind: 'not-asked', because })[2]
    expect(asked('no-fly')?.figure).toBe('Choose a fly')
    expect(asked('no-line')?.figure).toBe('Choose a fly line')
  })

  it('writes metres and kilograms first to metric readers', () => {
    const units = { diameter: 'mm', length: 'cm', force: 'kg', speed: 'm/s' } as const
    const metric = bandItems(leader, evaluation, sayIn(units), units, madeJudgement())
    // 9 ft.
    expect(metric[0]?.figure).toBe('2.743 m')
    expect(metric[1]?.figure).toMatch(/^[\d.]+ kg \([\d.]+ lb\)$/)
  })

  it('leaves no hole in any figure, even of a single bare piece', () => {
    const bare = leaderOf([{ length: '2 m', diameter: '20 thou', part: 'butt' }])
    const text = items(bare).flatMap(({ figure, rest }) => [figure, rest])
    expect(text.filter((words) => /NaN|undefined|Infinity|–/.test(words))).toEqual([])
  })
})

describe('inserted', () => {
  it('is between its neighbours in size and like the one above in the rest', () => {
    const next = insertedSegment(leader, 3)
    const added = next.segments[3]
    expect(next.segments).toHaveLength(8)
    expect(added).toMatchObject({ part: 'mid-section', joint: { knot: 'blood' } })
    expect(added?.length.text).toBe('9 in')
    expect(added && diameter_m(added)).toBeLessThan(size('.015 in').si)
    expect(added && diameter_m(added)).toBeGreaterThan(size('.012 in').si)
  })

  it('is like the last at the end and like the first at the start', () => {
    expect(insertedSegment(leader, 7).segments[7]?.diameter.text).toBe('5X')
    expect(insertedSegment(leader, 0).segments[0]?.diameter.text).toBe('.020 in')
  })

  it('leaves the leader it was given as it was', () => {
    const before = JSON.stringify(leader)
    insertedSegment(leader, 2)
    expect(JSON.stringify(leader)).toBe(before)
  })
})
