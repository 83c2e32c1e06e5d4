import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest'
import type { VueWrapper } from '@vue/test-utils'
import { flushPromises, mount } from '@vue/test-utils'
import type { ChartData } from 'chart.js'
import { createPinia } from 'pinia'
import FlightView from '../../../src/features/flight/View.vue'
import WhatHelps from '../../../src/features/flight/WhatHelps.vue'
import { extentOf, polylines } from '../../../src/features/flight/scene'
import { useBench } from '../../../src/stores/bench'
import { useFlights } from '../../../src/stores/flights'
import { useLibrary } from '../../../src/stores/library'
import { stand } from '../../support/fixture'
import type { Ways } from '../../worker/inProcess'
import { overloadedLeader, soundLeader } from '../../worker/casts'
import { inProcessPool } from '../../worker/inProcess'
import { fixtures } from './fixtures'
import { overloaded, sound } from './flights'

const { chart } = vi.hoisted(() => ({ chart: { name: 'ScatterStub', props: ['data', 'options'] } }))
// Happy-dom has no canvas: here the data are looked at that the chart is given.
vi.mock('vue-chartjs', () => ({ Scatter: { ...chart, template: '<i></i>' } }))

const standing: VueWrapper[] = []
afterEach(() => {
  for (const wrapper of standing.splice(0)) wrapper.unmount()
  vi.restoreAllMocks()
})

function show(file: string, patch: object = {}): VueWrapper {
  const fixture = fixtures[file]
  if (!fixture) throw new Error(`no fixture for ${file}`)
  const wrapper = stand(fixture, patch)
  standing.push(wrapper)
  return wrapper
}

const button = (wrapper: VueWrapper, text: string) => {
  const found = wrapper.findAll('button').find((one) => one.text() === text)
  if (!found) throw new Error(`no button "${text}"`)
  return found
}
const field = (wrapper: VueWrapper, text: string) => {
  const found = wrapper.findAll('label').find((one) => one.text().startsWith(text))
  if (!found) throw new Error(`no field "${text}"`)
  return found.get('input, select')
}
const valueOf = (wrapper: VueWrapper, text: string) =>
  (field(wrapper, text).element as HTMLInputElement).value

describe('FlightScene', () => {
  it('draws rod, water, line, leader, every joint and the fly, at the moment asked for', () => {
    const scene = show('FlightScene.vue')
    const { flight, buttNode } = sound.flown
    const { line, leader } = polylines(flight.frames[0]!, buttNode)
    expect(scene.get('.fly-line').attributes('points')).toBe(line)
    expect(scene.get('.leader').attributes('points')).toBe(leader)
    expect(scene.findAll('.knot')).toHaveLength(sound.leader.segments.length)
    expect(scene.find('.rod').exists()).toBe(true)
    expect(scene.find('.water').exists()).toBe(true)
    expect(scene.get('.hook').attributes('transform')).toContain(String(flight.frames[0]!.x.at(-1)))
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
    expect(dots).toBeLessThan(sound.flown.flight.nodes / 3)
  })

  it('lays a second cast over the first, marked as the second', () => {
    const flights = [sound, overloaded]
    const scene = show('FlightScene.vue', { flights, extent: extentOf(flights) })
    expect(scene.findAll('.fly-line')).toHaveLength(2)
    expect(scene.findAll('g.two .knot')).toHaveLength(overloaded.leader.segments.length)
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
      isWater: i > 0,
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

/** The view over stores whose casts are flown in this process. */
function standView(ways: Ways = { silent: ['speeds'] }) {
  const pinia = createPinia()
  const [bench, flights, library] = [useBench(pinia), useFlights(pinia), useLibrary(pinia)]
  const { pool, asked } = inProcessPool(ways)
  flights.start(pool)
  const mounted: unknown = mount(FlightView, {
    attachTo: document.body,
    global: { plugins: [pinia] },
  })
  const view = mounted as VueWrapper
  standing.push(view)
  return { view, bench, flights, library, asked, pinia }
}
const seen = (view: VueWrapper, selector: string) =>
  vi.waitFor(() => expect(view.find(selector).exists()).toBe(true), { timeout: 20_000 })
const sentence = (view: VueWrapper) => view.get('.sentence').text()
const momentOf = (view: VueWrapper) =>
  Number(
    (
      view
        .get('.now')
        .text()
        .match(/^[\d.]+/) ?? ['NaN']
    )[0],
  )

describe('the cast view', () => {
  it('flies the leader on the bench and says in a sentence what came of it', async () => {
    const { view, flights } = standView()
    expect(view.find('.scene').exists()).toBe(false)
    await seen(view, '.sentence')
    expect(sentence(view)).toContain('At 12.0 m/s “Middle Sallow riffles 9 ft 5X” straightens')
    expect(view.findAll('.play button').map((one) => one.text())).toEqual([
      'Play',
      'Frame back',
      'Frame on',
    ])
    expect(view.findAllComponents({ name: 'ScatterStub' })).toHaveLength(3)
    const rows = view.findAll('.charts tbody tr')
    expect(rows).toHaveLength((flights.first?.leader.segments.length ?? 0) + 2)
    expect(view.text()).not.toMatch(/NaN|undefined|Infinity/)
  })

  it('flies it anew at another line speed', async () => {
    const { view } = standView()
    await seen(view, '.sentence')
    await field(view, 'Line speed').setValue('7.5')
    await vi.waitFor(() => expect(sentence(view)).toContain('At 7.5 m/s'), { timeout: 20_000 })
  })

  it('passes every field of the cast on', async () => {
    const { view, asked } = standView({ silent: ['speeds', 'flight'] })
    const typed = [
      ['Line speed', '15'],
      ['Loop height', '1.2'],
      ['Wind', '-3'],
      ['Line out', '11'],
      ['Rod tip', '2.5'],
      ['Launch', '4'],
      ['Curl', '6'],
    ] as const
    for (const [name, value] of typed) await field(view, name).setValue(value)
    await flushPromises()
    const job = asked().at(-1)
    if (job?.kind !== 'flight') throw new Error('no flight was asked for')
    expect(job.input).toMatchObject({
      wind_m_s: -3,
      cast: { lineSpeed_m_s: 15, loopHeight_m: 1.2, tipHeight_m: 2.5, launchAngle_deg: 4 },
    })
    expect(job.input.segments.map(({ curl_1_m }) => curl_1_m)).toEqual(Array(7).fill(6))
    expect(job.input.line.reduce((sum, s) => sum + s.length_m, 0)).toBeCloseTo(11, 6)
  })

  it('never shows a figure that is not flown: out of bounds it puts the last one back', async () => {
    const { view } = standView()
    await seen(view, '.sentence')
    await field(view, 'Line speed').setValue('100')
    expect(valueOf(view, 'Line speed')).toBe('12')
    await field(view, 'Line speed').setValue('9')
    await field(view, 'Line speed').setValue('2')
    expect(valueOf(view, 'Line speed')).toBe('9')
  })

  it('leaves what is being typed alone while the picture moves', async () => {
    const { view } = standView()
    await seen(view, '.sentence')
    const typing = field(view, 'Line speed').element as HTMLInputElement
    typing.value = '7'
    await button(view, 'Frame on').trigger('click')
    await flushPromises()
    expect(typing.value).toBe('7')
  })

  it('goes back to the standard cast where a field is emptied', async () => {
    const { view, asked } = standView({ silent: ['flight'] })
    await field(view, 'Launch').setValue('3')
    await field(view, 'Launch').setValue('')
    await flushPromises()
    expect(valueOf(view, 'Launch')).toBe('10')
    expect(asked().at(-1)).toMatchObject({ input: { cast: { launchAngle_deg: 10 } } })
  })

  it('steps frame by frame, by button and by key, and stops at both ends', async () => {
    const { view, flights } = standView()
    await seen(view, '.sentence')
    const frames = flights.first!.flown.flight.frames
    await button(view, 'Frame on').trigger('click')
    expect(momentOf(view)).toBeCloseTo(frames[1]!.time_s, 2)
    const key = (name: string, more: object = {}) => {
      const event = new KeyboardEvent('keydown', {
        key: name,
        bubbles: true,
        cancelable: true,
        ...more,
      })
      document.body.dispatchEvent(event)
      return event
    }
    expect(key('ArrowRight').defaultPrevented).toBe(true)
    await flushPromises()
    expect(momentOf(view)).toBeCloseTo(frames[2]!.time_s, 2)
    // Alt with an arrow is the browser's way back, and stays it.
    expect(key('ArrowLeft', { altKey: true }).defaultPrevented).toBe(false)
    for (let i = 0; i < 4; i++) key('ArrowLeft')
    await flushPromises()
    expect(momentOf(view)).toBe(0)
    await view.get('#moment').setValue(String(frames.at(-1)!.time_s))
    await button(view, 'Frame on').trigger('click')
    expect(momentOf(view)).toBeCloseTo(frames.at(-1)!.time_s, 2)
  })

  it('leaves arrows and space to fields and buttons', async () => {
    const { view } = standView()
    await seen(view, '.sentence')
    const event = new KeyboardEvent('keydown', {
      key: 'ArrowRight',
      bubbles: true,
      cancelable: true,
    })
    field(view, 'Line speed').element.dispatchEvent(event)
    expect(event.defaultPrevented).toBe(false)
    await flushPromises()
    expect(momentOf(view)).toBe(0)
  })

  it('plays at the speed chosen and ends at the end', async () => {
    const { view, flights } = standView()
    await seen(view, '.sentence')
    const ticks: FrameRequestCallback[] = []
    vi.spyOn(window, 'requestAnimationFrame').mockImplementation((tick) => ticks.push(tick))
    vi.spyOn(performance, 'now').mockReturnValue(1000)
    await view.get('.play select').setValue('0.1')
    await button(view, 'Play').trigger('click')
    ticks.at(-1)?.(2000)
    await flushPromises()
    expect(momentOf(view)).toBeCloseTo(0.1, 2)
    expect(button(view, 'Pause')).toBeTruthy()
    ticks.at(-1)?.(60_000)
    await flushPromises()
    expect(momentOf(view)).toBeCloseTo(flights.first!.flown.flight.frames.at(-1)!.time_s, 2)
    // From the end it begins anew.
    await button(view, 'Play').trigger('click')
    await flushPromises()
    expect(momentOf(view)).toBe(0)
  })

  it('lays a second leader over, and takes it away again', async () => {
    const { view, library, flights } = standView()
    await library.start(Promise.reject(new Error('no storage')))
    await seen(view, '.sentence')
    const select = field(view, 'Lay over it')
    const options = select.findAll('option').map((one) => one.attributes('value'))
    expect(options).toContain('shipped:saturday-class-level-line')
    // Nobody compares a leader with itself.
    expect(options).not.toContain('shipped:middle-sallow-9ft-5x')
    await select.setValue('shipped:saturday-class-level-line')
    await vi.waitFor(() => expect(view.findAll('.sentence')).toHaveLength(2), { timeout: 20_000 })
    expect(view.findAll('.scene')[0]?.findAll('.leader')).toHaveLength(2)
    await select.setValue('')
    expect(view.findAll('.sentence')).toHaveLength(1)
    expect(flights.second).toBeUndefined()
  })

  it('begins anew with one leader when it is opened again', async () => {
    const first = standView()
    void first.flights.fly('second', overloadedLeader(), {})
    await vi.waitFor(() => expect(first.flights.second).toBeDefined(), { timeout: 20_000 })
    first.view.unmount()
    standing.length = 0
    const again: unknown = mount(FlightView, { global: { plugins: [first.pinia] } })
    standing.push(again as VueWrapper)
    await flushPromises()
    expect(first.flights.second).toBeUndefined()
  })

  it('says what is missing instead of an empty picture', async () => {
    const { view, bench } = standView()
    await seen(view, '.sentence')
    bench.edit('no fly', (leader) => ({ ...leader, tip: { joint: leader.tip.joint } }))
    await flushPromises()
    expect(view.get('[role="alert"]').text()).toContain('carries no fly')
    expect(view.find('.scene').exists()).toBe(false)
  })

  it('has stills of the moments that matter, open for those who want no motion', async () => {
    const { view } = standView()
    await seen(view, '.sentence')
    expect(view.findAll('.strip figcaption').at(-1)?.text()).toContain('the fly on the water')
    expect(view.get('.stills').attributes('open')).toBeUndefined()
    vi.spyOn(window, 'matchMedia').mockImplementation(
      (query) =>
        ({
          matches: query.includes('reduce'),
          addEventListener() {},
          removeEventListener() {},
        }) as unknown as MediaQueryList,
    )
    const { view: still } = standView()
    await seen(still, '.sentence')
    expect(still.get('.stills').attributes('open')).toBeDefined()
  })

  it('leads back, and to how it is computed', async () => {
    const { view } = standView({ silent: ['flight'] })
    await button(view, 'How this is computed').trigger('click')
    await button(view, 'Back to the bench').trigger('click')
    expect(view.emitted()).toMatchObject({ model: [[]], close: [[]] })
  })
})

describe('WhatHelps', () => {
  function standHelps(ways: Ways = {}) {
    const pinia = createPinia()
    const flights = useFlights(pinia)
    const { pool, asked } = inProcessPool(ways)
    flights.start(pool)
    const mounted: unknown = mount(WhatHelps, {
      props: { leader: overloadedLeader(), choices: {} },
      global: { plugins: [pinia] },
    })
    const helps = mounted as VueWrapper
    standing.push(helps)
    return { helps, asked }
  }
  const WORK = 'Work out which change helps most'
  let rows: (helps: VueWrapper) => number
  beforeEach(() => {
    rows = (helps) => helps.findAll('tbody tr').length
  })

  it('works out a row for each piece, and how far tippet and fly may go', async () => {
    const { helps } = standHelps()
    await button(helps, WORK).trigger('click')
    await vi.waitFor(() => expect(helps.text()).toContain('Finest tippet:'), {
      timeout: 30_000,
    })
    expect(rows(helps)).toBe(3)
    expect(helps.text()).toMatch(/Finest tippet: (\d|however)/)
    for (const cell of helps.findAll('td').map((one) => one.text()))
      expect(cell).toMatch(/^([+-]?\d+\.\d\d|–)$/)
    expect(helps.find('button').exists()).toBe(false)
  })

  it('can be stopped, and begun again', async () => {
    const { helps } = standHelps({ silent: ['sensitivity', 'reach'] })
    await button(helps, WORK).trigger('click')
    expect(helps.get('[role="status"]').text()).toContain('0 %')
    await button(helps, 'Stop').trigger('click')
    await flushPromises()
    expect(button(helps, WORK)).toBeTruthy()
  })

  it('is forgotten, and stopped, when leader or cast change', async () => {
    const { helps, asked } = standHelps({ silent: ['reach'] })
    await button(helps, WORK).trigger('click')
    await vi.waitFor(() => expect(rows(helps)).toBeGreaterThan(0), { timeout: 30_000 })
    await helps.setProps({ leader: soundLeader() })
    expect(rows(helps)).toBe(0)
    await new Promise((resolve) => setTimeout(resolve, 500))
    // Nothing of the leader before comes in late.
    expect(rows(helps)).toBe(0)
    expect(button(helps, WORK)).toBeTruthy()
    // Stopped before its second question: the reach is not worked out any more.
    expect(asked()).toHaveLength(1)
  })
})
