import { afterEach, describe, expect, it, vi } from 'vitest'
import type { VueWrapper } from '@vue/test-utils'
import { flushPromises, mount } from '@vue/test-utils'
import { createPinia } from 'pinia'
import CastView from '../../../src/features/cast/View.vue'
import OwnCast from '../../../src/features/cast/OwnCast.vue'
import type { Shown } from '../../../src/castViews/shown'
import WhatHelps from '../../../src/features/cast/WhatHelps.vue'
import { useBench } from '../../../src/stores/bench'
import { useCasts } from '../../../src/stores/casts'
import { useSettings } from '../../../src/stores/settings'
import { useLibrary } from '../../../src/stores/library'
import type { Ways } from '../../worker/inProcess'
import { overloadedLeader, soundLeader } from '../../worker/casts'
import { easyFlight } from '../../worker/easyFlight'
import { inProcessPool } from '../../worker/inProcess'
import { sayIn } from '../../../src/wording'
import { madeJudgement } from '../../engine/delivery/made'
import { UNITS } from '../bench/fixtures'

const { chart } = vi.hoisted(() => ({ chart: { name: 'ScatterStub', props: ['data', 'options'] } }))
// Happy-dom has no canvas: here the data are looked at that the chart is given.
vi.mock('vue-chartjs', () => ({ Scatter: { ...chart, template: '<i></i>' } }))

const standing: VueWrapper[] = []
afterEach(() => {
  for (const wrapper of standing.splice(0)) wrapper.unmount()
  vi.restoreAllMocks()
})

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

/** The view over stores whose casts are flown in this process. */
function standView(ways: Ways = { answers: { extensions: [0.5] } }) {
  const pinia = createPinia()
  const [bench, library] = [useBench(pinia), useLibrary(pinia)]
  const { pool, asked } = inProcessPool(ways)
  useCasts(pinia).start(pool)
  const mounted: unknown = mount(CastView, {
    attachTo: document.body,
    global: { plugins: [pinia] },
  })
  const view = mounted as VueWrapper
  standing.push(view)
  return { view, bench, library, asked, pinia }
}
const flightsOf = (view: VueWrapper): readonly Shown[] => {
  const player: VueWrapper = view.findComponent({ name: 'CastPlayer' })
  return player.exists() ? (player.props() as { flights: readonly Shown[] }).flights : []
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
    const { view } = standView()
    expect(view.find('.scene').exists()).toBe(false)
    await seen(view, '.sentence')
    expect(sentence(view)).toContain(
      'At 12 m/s (10° up) “Middle Sallow riffles 9 ft 5X” straightens',
    )
    expect(view.findAll('.play button').map((one) => one.text())).toEqual([
      'Play',
      'Frame back',
      'Frame on',
    ])
    expect(view.findAllComponents({ name: 'ScatterStub' })).toHaveLength(4)
    const rows = view.findAll('.charts tbody tr')
    expect(rows).toHaveLength((flightsOf(view)[0]?.leader.segments.length ?? 0) + 2)
    expect(view.text()).not.toMatch(/NaN|undefined|Infinity/)
  })

  it('flies it anew at another line speed', async () => {
    const { view } = standView()
    await seen(view, '.sentence')
    await field(view, 'Line speed').setValue('7.5')
    await vi.waitFor(() => expect(sentence(view)).toContain('At 7.5 m/s'), { timeout: 20_000 })
  })

  it('gives the verdict in the words of the bench, and throws the delivery that it is of', async () => {
    const { view, bench } = standView({ silent: ['extensions', 'flight'] })
    expect(view.get('.delivery').text()).toContain('Checking')
    const best = { lineSpeed_m_s: 8.25, launchAngle_deg: 4 }
    const judgement = madeJudgement({ best })
    bench.readDeliveries({ judgement, flown: undefined, yardstick: undefined })
    await flushPromises()
    expect(view.get('.delivery').text()).toContain('Goes over easily')
    await button(view, 'Throw it so').trigger('click')
    expect([valueOf(view, 'Line speed'), valueOf(view, 'Launch')]).toEqual(['8.25', '4'])
  })

  it('passes every field of the cast on', async () => {
    const { view, asked } = standView({ silent: ['extensions', 'flight'] })
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

  it('takes and shows speeds in the unit that was chosen, as they were typed', async () => {
    const { view, asked, pinia } = standView({ silent: ['extensions', 'flight'] })
    useSettings(pinia).change({ speedUnit: 'ft/s' })
    await flushPromises()
    await field(view, 'Line speed, ft/s').setValue('25.5')
    await flushPromises()
    const job = asked().at(-1)
    if (job?.kind !== 'flight') throw new Error('no flight was asked for')
    // A foot is 0.3048 m (NIST Special Publication 811, 2008, appendix B).
    expect(job.input.cast.lineSpeed_m_s).toBeCloseTo(25.5 * 0.3048, 12)
    expect(valueOf(view, 'Line speed')).toBe('25.5')
    expect(view.text()).toContain('Keep 26 ft/s')
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
    const { view } = standView()
    await seen(view, '.sentence')
    const frames = flightsOf(view)[0]!.flown.frames
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
    const { view } = standView()
    await seen(view, '.sentence')
    const ticks: FrameRequestCallback[] = []
    vi.spyOn(window, 'requestAnimationFrame').mockImplementation((tick) => ticks.push(tick))
    vi.spyOn(performance, 'now').mockReturnValue(1000)
    await view.get('.play select').setValue('0.1')
    await button(view, 'Play').trigger('click')
    ticks.at(-1)?.(1100)
    await flushPromises()
    expect(momentOf(view)).toBeCloseTo(0.01, 2)
    expect(button(view, 'Pause')).toBeTruthy()
    // A page that was held up for a second goes on from where it stood.
    ticks.at(-1)?.(2100)
    await flushPromises()
    expect(momentOf(view)).toBeCloseTo(0.02, 2)
    for (let now = 2200; now < 80_000; now += 100) ticks.at(-1)?.(now)
    await flushPromises()
    expect(momentOf(view)).toBeCloseTo(flightsOf(view)[0]!.flown.frames.at(-1)!.time_s, 2)
    // From the end it begins anew.
    await button(view, 'Play').trigger('click')
    await flushPromises()
    expect(momentOf(view)).toBe(0)
  })

  it('lays a second leader over, and takes it away again', async () => {
    const { view, library } = standView()
    await library.start()
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
    expect(flightsOf(view)).toHaveLength(1)
  })

  it('begins anew with one leader when it is opened again', async () => {
    const first = standView()
    await first.library.start()
    await field(first.view, 'Lay over it').setValue('shipped:saturday-class-level-line')
    await vi.waitFor(() => expect(flightsOf(first.view)).toHaveLength(2), { timeout: 20_000 })
    first.view.unmount()
    standing.length = 0
    const again: unknown = mount(CastView, { global: { plugins: [first.pinia] } })
    standing.push(again as VueWrapper)
    await flushPromises()
    // The one that was flown before is there at once.
    expect(flightsOf(again as VueWrapper)).toHaveLength(1)
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
    const stills = view.get('.stills')
    expect(stills.attributes('open')).toBeUndefined()
    expect(view.find('.strip').exists()).toBe(false)
    ;(stills.element as HTMLDetailsElement).open = true
    await stills.trigger('toggle')
    expect(view.findAll('.strip figcaption').at(-1)?.text()).toContain('the fly on the water')
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

  it('keeps a cast of one’s own with the leader, which undo takes back', async () => {
    const { view, bench } = standView({ silent: ['flight', 'extensions'] })
    await field(view, 'Line speed').setValue('10.5')
    await button(view, 'Keep 10.5 m/s and 0.8 m as your cast').trigger('click')
    expect(bench.leader.outfit.ownCast).toEqual({ lineSpeed_m_s: 10.5, loopHeight_m: 0.8 })
    expect(valueOf(view, 'Line speed')).toBe('10.5')
    bench.undo()
    await flushPromises()
    expect(bench.leader.outfit.ownCast).toBeUndefined()
    expect(valueOf(view, 'Line speed')).toBe('12')
  })

  it('leads back, and to how it is computed', async () => {
    const { view } = standView({ silent: ['flight'] })
    await button(view, 'How this is computed').trigger('click')
    await button(view, 'Back to the bench').trigger('click')
    expect(view.emitted()).toMatchObject({ go: [['model'], ['bench']] })
  })
})

describe('OwnCast', () => {
  function standOwn(props: object = {}) {
    const mounted: unknown = mount(OwnCast, {
      props: { cast: { lineSpeed_m_s: 11, loopHeight_m: 0.9 }, kept: undefined, ...props },
    })
    const wrapper = mounted as VueWrapper
    standing.push(wrapper)
    return wrapper
  }

  it('takes the line as twice as fast as the front of its loop', async () => {
    const wrapper = standOwn()
    await field(wrapper, 'The loop runs').setValue(3)
    await field(wrapper, 'in, s').setValue(0.5)
    await button(wrapper, 'Take 12 m/s').trigger('click')
    expect(wrapper.emitted('speed')).toEqual([[12]])
  })

  it('takes no speed that no line flies at, and says so', async () => {
    const wrapper = standOwn()
    await field(wrapper, 'The loop runs').setValue(30)
    await field(wrapper, 'in, s').setValue(0.5)
    expect(button(wrapper, 'Take 120 m/s').attributes('disabled')).toBeDefined()
    expect(wrapper.get('[role="alert"]').text()).toContain('3 m/s to 40 m/s')
  })

  it('keeps what is set once, and forgets it', async () => {
    const wrapper = standOwn()
    const keep = 'Keep 11 m/s and 0.9 m as your cast'
    await button(wrapper, keep).trigger('click')
    expect(wrapper.emitted('keep')).toEqual([[{ lineSpeed_m_s: 11, loopHeight_m: 0.9 }]])
    await wrapper.setProps({ kept: { lineSpeed_m_s: 11, loopHeight_m: 0.9 } })
    expect(button(wrapper, keep).attributes('disabled')).toBeDefined()
    await button(wrapper, 'Back to an ordinary caster').trigger('click')
    expect(wrapper.emitted('forget')).toHaveLength(1)
  })
})

describe('WhatHelps', () => {
  function standHelps(ways: Ways = {}, leader = overloadedLeader()) {
    const pinia = createPinia()
    const { pool, asked } = inProcessPool({ flying: easyFlight, ...ways })
    useCasts(pinia).start(pool)
    const mounted: unknown = mount(WhatHelps, {
      props: { leader, limits: {}, say: sayIn(UNITS) },
      global: { plugins: [pinia] },
    })
    const helps = mounted as VueWrapper
    standing.push(helps)
    return { helps, asked }
  }
  const THROW = 'Throw the changes that might help'
  const items = (helps: VueWrapper) => helps.findAll('li')

  it('asks nothing until it is told to, then lists what helps with a button each', async () => {
    const { helps, asked } = standHelps()
    await flushPromises()
    expect(asked()).toEqual([])
    await button(helps, THROW).trigger('click')
    await vi.waitFor(() => expect(helps.find('[role="status"]').exists()).toBe(false), 20_000)
    // By the law of these casts nothing but a smaller fly brings this popper over.
    expect(items(helps).map((item) => item.text())).toEqual([
      expect.stringMatching(
        /^A size [68] instead Goes over .*: \d+ of 100 casts come over; half of them from [\d.]+ m\/s on\.$/,
      ),
    ])
    await items(helps)[0]!.get('button').trigger('click')
    expect(helps.emitted('apply')).toEqual([
      [expect.stringMatching(/^A size/), expect.objectContaining({ id: 'smaller-fly' })],
    ])
  })

  it('says that nothing helps within the tie, and by another goal what does', async () => {
    const { helps } = standHelps({}, soundLeader())
    await button(helps, THROW).trigger('click')
    await vi.waitFor(
      () => expect(helps.text()).toMatch(/None of \d+ changes brings more than 5 of 100 casts/),
      20_000,
    )
    expect(items(helps)).toEqual([])
    await field(helps, 'To get').setValue('less-power')
    expect(items(helps).length).toBeGreaterThan(0)
  })

  it('can be stopped, and begun again', async () => {
    const { helps } = standHelps({ silent: ['errand'] })
    await button(helps, THROW).trigger('click')
    expect(helps.get('[role="status"]').text()).toContain('0 of the changes thrown')
    await button(helps, 'Stop').trigger('click')
    expect(button(helps, THROW)).toBeTruthy()
  })

  it('is forgotten, and stopped, for another leader', async () => {
    const { helps, asked } = standHelps({ silent: ['errand'] })
    await button(helps, THROW).trigger('click')
    await helps.setProps({ leader: soundLeader() })
    expect(button(helps, THROW)).toBeTruthy()
    const before = asked().length
    await new Promise((resolve) => setTimeout(resolve, 50))
    expect(asked()).toHaveLength(before)
  })

  it('has nothing to throw of a leader that cannot be cast', () => {
    const { helps } = standHelps({}, { ...overloadedLeader(), outfit: {} })
    expect(helps.find('section').exists()).toBe(false)
  })
})
