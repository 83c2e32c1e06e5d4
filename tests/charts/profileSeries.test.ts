// @vitest-environment node
import { describe, expect, it } from 'vitest'
import type { ProfileSeries } from '../../src/charts'
import { distanceTicks, FAMILY_DASHES, profileSeries } from '../../src/charts'
import { evaluate } from '../../src/engine/evaluate'
import { FAMILIES } from '../../src/engine/materials'
import { leaderOf } from '../engine/build'

const leader = leaderOf([
  { length: '1 m', diameter: '0.5 mm', part: 'butt', material: 'nylon-stiff' },
  { length: '50 cm', diameter: '0.25 mm', part: 'mid-section', material: 'copolymer' },
  { length: '50 cm', diameter: '0.2 mm', part: 'tippet', material: 'fluorocarbon' },
])
const evaluation = evaluate(leader)
const inMetres = profileSeries(evaluation, { diameter: 'mm', force: 'kg' })

function seriesOf(id: ProfileSeries['id'], all = inMetres): ProfileSeries {
  const found = all.find((one) => one.id === id)
  if (!found) throw new Error(`no series ${id}`)
  return found
}

const ys = (points: ProfileSeries['points']) => points.map(({ y }) => y)

describe('profileSeries', () => {
  it('draws diameter, stiffness, density and strength, in this order', () => {
    expect(inMetres.map(({ id }) => id)).toEqual(['diameter', 'stiffness', 'density', 'strength'])
  })

  it.each(['diameter', 'stiffness', 'density', 'strength'] as const)(
    '%s has two points a piece, level, from joint to joint',
    (id) => {
      const { points } = seriesOf(id)
      expect(points.map(({ x }) => x)).toEqual([0, 1, 1, 1.5, 1.5, 2])
      expect([0, 2, 4].map((i) => points[i]?.y)).toEqual([1, 3, 5].map((i) => points[i]?.y))
    },
  )

  it('writes diameters in millimetres to metric readers', () => {
    const { points, unit } = seriesOf('diameter')
    expect(unit).toBe('mm')
    for (const [i, y] of [0.5, 0.5, 0.25, 0.25, 0.2, 0.2].entries()) {
      expect(points[i]?.y).toBeCloseTo(y, 9)
    }
  })

  it.each(['in', 'thou', 'X'] as const)(
    'writes diameters in thousandths to readers of %s',
    (diameter) => {
      const { points, unit } = seriesOf(
        'diameter',
        profileSeries(evaluation, { diameter, force: 'lb' }),
      )
      expect(unit).toBe('thousandths of an inch')
      // 25.4 mm to the inch.
      expect(points[0]?.y).toBeCloseTo(0.5 / 0.0254, 9)
    },
  )

  it('sets stiffness on a log scale, wet below dry, in N mm²', () => {
    const { points, second, isLog } = seriesOf('stiffness')
    expect(isLog).toBe(true)
    expect(points[0]?.y).toBe((evaluation.pieces[0]?.profile.stiffness_N_m2 ?? 0) * 1e6)
    expect(second?.title).toBe('wet')
    expect(second?.points.every(({ y }, i) => y <= (points[i]?.y ?? 0))).toBe(true)
    expect(second?.points[0]?.y).toBeLessThan(points[0]?.y ?? 0)
  })

  it('halving nylon’s diameter would leave a sixteenth of the stiffness and a quarter of the density', () => {
    const halved = leaderOf([
      { length: '1 m', diameter: '0.5 mm', part: 'butt' },
      { length: '1 m', diameter: '0.25 mm', part: 'tippet' },
    ])
    const all = profileSeries(evaluate(halved), { diameter: 'mm', force: 'kg' })
    const drop = (id: ProfileSeries['id']) => {
      const [first = NaN, , second = NaN] = ys(seriesOf(id, all).points)
      return second / first
    }
    expect(drop('stiffness')).toBeCloseTo(1 / 16, 9)
    expect(drop('density')).toBeCloseTo(1 / 4, 9)
  })

  it('marks every knot at its place, from line to fly, in the unit of the strands', () => {
    const { marks, unit } = seriesOf('strength')
    expect(unit).toBe('kg')
    expect(marks?.points.map(({ x }) => x)).toEqual([0, 1, 1.5, 2])
    expect(marks?.points[3]?.y).toBeCloseTo(evaluation.tip.strength.wet.value / 9.80665, 9)
  })

  it('gives a pound 1/2.2046 of the figure of a kilogram', () => {
    const inPounds = seriesOf(
      'strength',
      profileSeries(evaluation, { diameter: 'mm', force: 'lb' }),
    )
    expect((inPounds.points[0]?.y ?? 0) / (seriesOf('strength').points[0]?.y ?? 1)).toBeCloseTo(
      1 / 0.45359237,
      6,
    )
  })

  it('draws each material in a line style of its own', () => {
    expect(seriesOf('diameter').dashes).toEqual([
      FAMILY_DASHES.nylon,
      FAMILY_DASHES.copolymer,
      FAMILY_DASHES.fluorocarbon,
    ])
    expect(new Set(FAMILIES.map((family) => FAMILY_DASHES[family].join())).size).toBe(
      FAMILIES.length,
    )
  })
})

describe('distanceTicks', () => {
  it('stands at every foot of a nine-foot leader, the last one included', () => {
    expect(distanceTicks(9 * 0.3048, 'in').map((m) => Math.round(m / 0.3048))).toEqual([
      0, 1, 2, 3, 4, 5, 6, 7, 8, 9,
    ])
  })

  it.each(['m', 'cm', 'mm'] as const)('stands at whole quarters of a metre in %s', (unit) => {
    expect(distanceTicks(2, unit)).toEqual([0, 0.25, 0.5, 0.75, 1, 1.25, 1.5, 1.75, 2])
  })

  it.each([0.02, 0.4, 1, 2.74, 6, 15, 30])('is few enough to read on %d m', (total) => {
    for (const unit of ['in', 'ft-in', 'cm', 'm'] as const) {
      const ticks = distanceTicks(total, unit)
      expect(ticks[0]).toBe(0)
      expect(ticks.length).toBeLessThanOrEqual(11)
      expect(ticks.at(-1)).toBeLessThanOrEqual(total + 1e-9)
      if (total >= 0.4) expect(ticks.length).toBeGreaterThan(1)
    }
  })
})
