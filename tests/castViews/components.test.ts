import { afterEach, describe, expect, it, vi } from 'vitest'
import type { VueWrapper } from '@vue/test-utils'
import type { ChartData } from 'chart.js'
import { lossRows } from '../../src/castViews/curves'
import { extentOf, polylines } from '../../src/castViews/scene'
import { stand } from '../support/fixture'
import { fixtures } from './fixtures'
import { overloaded, sound } from './flights'

const { chart } = vi.hoisted(() => ({ chart: { name: 'ScatterStub', props: ['data', 'options'] } }))
// Happy-dom has no canvas: here the data are looked at that the chart is given.
vi.mock('vue-chartjs', () => ({ Scatter: { ...chart, template: '<i></i>' } }))

const standing: VueWrapper[] = []
afterEach(() => {
  for (const wrapper of standing.splice(0)) wrapper.unmount()
})

function show(file: string, patch: object = {}): VueWrapper {
  const fixture = fixtures[file]
  if (!fixture) throw new Error(`no fixture for ${file}`)
  const wrapper = stand(fixture, patch)
  standing.push(wrapper)
  return wrapper
}

describe('FlightScene', () => {
  it('draws rod, water, line, leader, every joint and the fly, at the moment asked for', () => {
    const scene = show('FlightScene.vue')
    const { frames, buttNode } = sound.flown
    const { line, leader } = polylines(frames[0]!, buttNode)
    expect(scene.get('.fly-line').attributes('points')).toBe(line)
    expect(scene.get('.leader').attributes('points')).toBe(leader)
    expect(scene.findAll('.knot')).toHaveLength(sound.leader.segments.length)
    expect(scene.find('.rod').exists()).toBe(true)
    expect(scene.find('.water').exists()).toBe(true)
    expect(scene.get('.hook').attributes('transform')).toContain(String(frames[0]!.x.at(-1)))
    expect(scene.get('.rod').attributes('y2')).toBe('-2')
  })

  it('moves with time', async () => {
    const scene = show('FlightScene.vue')
    const before = scene.get('.leader').attributes('points')
    await scene.setProps({ time_s: 0.4 })
    expect(scene.get('.leader').attributes('points')).not.toBe(before)
  })

  it('dots what moves fast: some of the strand, not all', () => {
    const dots = show('FlightScene.vue', { time_s: 0.3 }).findAll('.moving').length
    expect(dots).toBeGreaterThan(0)
    expect(dots).toBeLessThan(sound.flown.nodes / 3)
  })

  it('lays a second cast over the first, each with its letter', () => {
    const flights = [sound, overloaded]
    const scene = show('FlightScene.vue', { flights, extent: extentOf(flights) })
    expect(scene.findAll('.fly-line')).toHaveLength(2)
    expect(scene.findAll('g.two .knot')).toHaveLength(overloaded.leader.segments.length)
    expect(scene.findAll('.letter').map((one) => one.text())).toEqual(['A', 'B'])
  })

  it('has a name, and one scale for both axes', () => {
    const scene = show('FlightScene.vue')
    expect(scene.attributes('aria-label')).toBeTruthy()
    const [left, , width, height] = (scene.attributes('viewBox') ?? '').split(' ').map(Number)
    const extent = extentOf([sound])
    expect([left, width, height]).toEqual([
      extent.left,
      extent.right - extent.left,
      extent.top - extent.bottom,
    ])
    expect(scene.attributes('preserveAspectRatio') ?? '').not.toContain('none')
  })

  it('stands without any flight', () => {
    expect(show('FlightScene.vue', { flights: [] }).findAll('polyline')).toHaveLength(0)
  })
})

describe('LineChart', () => {
  const dataOf = (wrapper: VueWrapper) =>
    wrapper.getComponent({ name: 'ScatterStub' }).props('data') as ChartData<'scatter'>

  it('gives each curve its points and its own dash, and marks the moment', () => {
    const curves = ['one', 'two', 'three'].map((name, i) => ({
      name,
      points: [{ x: i, y: 4 }],
      of: i,
    }))
    const { datasets } = dataOf(show('LineChart.vue', { curves, marker: 0.7 }))
    expect(datasets).toHaveLength(4)
    expect(datasets.slice(0, 3).map(({ data }) => data)).toEqual(curves.map((c) => c.points))
    const dashes = datasets
      .slice(0, 3)
      .map((one) => JSON.stringify((one as { borderDash?: unknown }).borderDash))
    expect(new Set(dashes).size).toBe(3)
    expect(datasets[3]?.data).toEqual([
      { x: 0.7, y: 0 },
      { x: 0.7, y: 4 },
    ])
  })

  it('without a marker or a curve draws none', () => {
    expect(dataOf(show('LineChart.vue', { curves: [], marker: undefined })).datasets).toEqual([])
    // A marker among no curves stays finite.
    const { datasets } = dataOf(show('LineChart.vue', { curves: [] }))
    expect(datasets[0]?.data).toEqual([
      { x: 0.5, y: 0 },
      { x: 0.5, y: 0.01 },
    ])
  })

  it('names its curves in words', () => {
    expect(show('LineChart.vue').get('.legend').text()).toContain('Sound')
  })
})

describe('LossChart', () => {
  it('draws a bar for each of line, pieces and fly, and writes the figures beside it', () => {
    const wrapper = show('LossChart.vue')
    const rows = lossRows(sound)
    const { datasets } = wrapper
      .getComponent({ name: 'ScatterStub' })
      .props('data') as ChartData<'scatter'>
    const ends = (y: number) =>
      datasets.flatMap((one) => (one.data as { x: number; y: number }[]).filter((p) => p.y === y))
    for (const [i, row] of rows.entries()) {
      const xs = ends(i).map(({ x }) => x)
      const { cross_mJ: a, axial_mJ: b, bending_mJ: c } = row
      expect(xs).toEqual([0, a, a, a + b, a + b, a + b + c])
    }
    expect(wrapper.findAll('tbody tr')).toHaveLength(rows.length)
  })
})
