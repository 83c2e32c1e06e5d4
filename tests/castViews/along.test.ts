import { describe, expect, it } from 'vitest'
import { ALONG, alongCurves, topOf } from '../../src/castViews/along'
import { stand } from '../support/fixture'
import { fixtures } from './fixtures'
import { overloaded, sound } from './flights'

const lengthOf = (flight: typeof sound) => flight.input.segments.reduce((m, s) => m + s.length_m, 0)

describe.each(ALONG.map(({ id }) => id))('%s along the leader', (id) => {
  it('runs from butt to fly of each leader', () => {
    const curves = alongCurves([sound, overloaded], id, 0.3)
    expect(curves.map(({ of }) => of)).toEqual([0, 1])
    for (const [i, flight] of [sound, overloaded].entries()) {
      const { points } = curves[i]!
      expect(points[0]?.x).toBe(0)
      expect(points.at(-1)?.x).toBeCloseTo(lengthOf(flight), 2)
      for (const { y } of points) expect(Number.isFinite(y)).toBe(true)
    }
  })

  it('has an axis that holds nearly all of it', () => {
    const top = topOf([sound], id)
    expect(top).toBeGreaterThan(0)
    const start = alongCurves([sound], id, 0.1)[0]!.points.map(({ y }) => y)
    expect(Math.max(...start)).toBeLessThan(top * 3)
  })
})

describe('what runs along the leader', () => {
  it('has the energy of its nodes: together, and with the line’s, what the ledger has in motion', () => {
    const { frames, nodeMass_kg } = sound.flown
    const [first, next] = frames
    const dt = next!.time_s - first!.time_s
    let sum = 0
    for (const [k, m] of nodeMass_kg.entries()) {
      const v = Math.hypot(next!.x[k]! - first!.x[k]!, next!.y[k]! - first!.y[k]!) / dt
      sum += (m * v * v) / 2
    }
    // Means over a sixtieth of a second, so within some hundredths.
    expect(sum / first!.kinetic_J).toBeGreaterThan(0.9)
    expect(sum / first!.kinetic_J).toBeLessThan(1.05)
    const along = alongCurves([sound], 'energy', 0)[0]!.points.reduce((s, p) => s + p.y, 0)
    expect(along / 1e3).toBeLessThan(sum)
    expect(along).toBeGreaterThan(0)
  })

  it('flies at line speed while the loop is far away', () => {
    const { lineSpeed_m_s } = sound.input.cast
    const speeds = alongCurves([sound], 'speed', 0.02)[0]!.points.map(({ y }) => y)
    for (const v of speeds) expect(v / lineSpeed_m_s).toBeCloseTo(1, 0)
  })

  it('is drawn as three strips that move with time', async () => {
    const strips = stand(fixtures['AlongStrips.vue']!)
    const lines = () => strips.findAll('polyline').map((one) => one.attributes('points'))
    expect(lines()).toHaveLength(3)
    const before = lines()
    await strips.setProps({ time_s: 0.6 })
    expect(lines()).not.toEqual(before)
    expect(strips.text()).toMatch(/Tension along the leader up to [\d.]+ N/)
    expect(strips.html()).not.toContain('NaN')
    strips.unmount()
  })
})
