import { afterEach, describe, expect, it, vi } from 'vitest'
import type { Component } from 'vue'
import type { VueWrapper } from '@vue/test-utils'
import { flushPromises, mount } from '@vue/test-utils'
import { createPinia } from 'pinia'
import LessonEditor from '../../../src/features/class/LessonEditor.vue'
import LessonRun from '../../../src/features/class/LessonRun.vue'
import OneChange from '../../../src/features/class/OneChange.vue'
import SideBySide from '../../../src/features/class/SideBySide.vue'
import {
  bandCurves,
  casesOver,
  likelyCases,
  nearest,
  outwardFrom,
  pointsOver,
  sampledPoints,
} from '../../../src/features/class/exploration'
import { EMPTY_LESSON } from '../../../src/features/class/lessonDraft'
import { writeLessonText } from '../../../src/documents/lesson'
import { useLessons } from '../../../src/stores/lessons'
import { LESSON_STEPS, outcomeText, stepFrom } from '../../../src/features/class/lessonSteps'
import { spanOf } from '../../../src/engine/explore'
import { useClassroom } from '../../../src/stores/classroom'
import { useCasts } from '../../../src/stores/casts'
import { useLibrary } from '../../../src/stores/library'
import { stand } from '../../support/fixture'
import { soundLeader } from '../../engine/build'
import { inProcessPool } from '../../worker/inProcess'
import { fixtures } from './fixtures'

// Happy-dom has no canvas: here the data are looked at that the chart is given.
vi.mock('vue-chartjs', () => ({
  Scatter: { name: 'ScatterStub', props: ['data', 'options'], template: '<i></i>' },
}))

const { lesson } = (fixtures['LessonRun.vue']!.props as { entry: { lesson: never } }).entry

const standing: VueWrapper[] = []
afterEach(() => {
  for (const wrapper of standing.splice(0)) wrapper.unmount()
})

/** A part of the class over stores whose casts are flown in this process. */
async function standClass(component: Component, props: object = {}) {
  const pinia = createPinia()
  const library = useLibrary(pinia)
  const { pool, asked } = inProcessPool()
  useCasts(pinia).start(pool)
  await library.start()
  const mounted: unknown = mount(component, {
    attachTo: document.body,
    props,
    global: { plugins: [pinia] },
  })
  const wrapper = mounted as VueWrapper
  standing.push(wrapper)
  return { wrapper, asked, room: useClassroom(pinia) }
}
const SOON = { timeout: 30_000 }
const press = (key: string) =>
  document.body.dispatchEvent(
    new KeyboardEvent('keydown', { key, bubbles: true, cancelable: true }),
  )

describe('side by side', () => {
  it('flies both under one cast and says what differs, worst first', async () => {
    const { wrapper } = await standClass(SideBySide)
    await vi.waitFor(() => expect(wrapper.findAll('.scene .letter')).toHaveLength(2), SOON)
    expect(wrapper.text()).toContain('“B: Saturday class: level line”')
    const items = wrapper.findAll('.differences li').map((one) => one.text())
    expect(items.length).toBeGreaterThan(2)
    expect(items.join()).toMatch(/finer at the line/)
    expect(wrapper.text()).not.toMatch(/NaN|undefined|Infinity/)
  })

  it('flies only what has changed when one leader is changed', async () => {
    const { wrapper, asked, room } = await standClass(SideBySide)
    await vi.waitFor(() => expect(wrapper.find('.scene').exists()).toBe(true), SOON)
    const flights = () => asked().filter(({ kind }) => kind === 'flight')
    expect(flights()).toHaveLength(2)
    room.setSeat(1, { source: 'bench', change: { what: { id: 'tippet-length' }, value: 0.3 } })
    await vi.waitFor(() => expect(flights()).toHaveLength(3), SOON)
    await vi.waitFor(() => expect(wrapper.text()).toContain('shorter in the tippet'), SOON)
  })

  it('takes up to four leaders and leaves out any but the last', async () => {
    const { wrapper } = await standClass(SideBySide)
    const add = () => wrapper.findAll('.seats > button')
    await add()[0]?.trigger('click')
    await add()[0]?.trigger('click')
    expect(wrapper.findAll('fieldset')).toHaveLength(4)
    expect(add()).toHaveLength(0)
    for (let n = 0; n < 3; n++) await wrapper.get('fieldset button').trigger('click')
    expect(wrapper.findAll('fieldset')).toHaveLength(1)
    expect(wrapper.find('fieldset button').exists()).toBe(false)
  })

  it('says which leader cannot be cast, and why', async () => {
    const { wrapper, room } = await standClass(SideBySide)
    const { tip, ...rest } = soundLeader()
    room.setSeat(1, { source: 'given', leader: { ...rest, tip: { joint: tip.joint } } })
    await flushPromises()
    expect(wrapper.get('[role="alert"]').text()).toContain('B cannot be cast: it has no fly')
  })
})

describe('one thing at a time', () => {
  it('flies the whole range, and shows a flown cast as soon as the slider stands on it', async () => {
    const { wrapper, asked } = await standClass(OneChange)
    await vi.waitFor(() => expect(wrapper.text()).toContain('All 33 casts'), SOON)
    expect(asked().filter(({ kind }) => kind === 'flight')).toHaveLength(33)
    const figure = () => wrapper.get('.slide strong').text()
    expect(figure()).toBe('26 in')
    await wrapper.get('.slide input').setValue('32')
    expect(figure()).toBe('94.5 in')
    expect(asked().filter(({ kind }) => kind === 'flight')).toHaveLength(33)
    const curves = wrapper.findAllComponents({ name: 'ScatterStub' })
    expect(curves).toHaveLength(4)
    const { datasets } = curves[1]?.props('data') as { datasets: { data: { y: number }[] }[] }
    const speeds = datasets[0]?.data.map(({ y }) => y) ?? []
    expect(speeds).toHaveLength(33)
    // Common practice: the longer the tippet, the softer the fly comes round.
    expect(speeds.at(-1)).toBeLessThan((speeds[0] ?? 0) / 2)
  })

  it('stops when told to, and says how far it came', async () => {
    const { wrapper } = await standClass(OneChange)
    await wrapper.get('.progress button').trigger('click')
    expect(wrapper.get('.progress').text()).toMatch(/Stopped at \d+ of 33 casts/)
  })

  it('offers only what this leader has', async () => {
    const { wrapper, room } = await standClass(OneChange)
    const { segments } = soundLeader()
    room.subject = { source: 'given', leader: { ...soundLeader(), segments: segments.slice(-1) } }
    await flushPromises()
    const offered = wrapper.findAll('select').at(1)?.text() ?? ''
    expect(offered).toContain('Length of the tippet')
    expect(offered).not.toContain('Share of butt')
  })
})

describe('the points of a range', () => {
  const posed = { leader: soundLeader(), choices: {} }
  const what = { id: 'tippet-length' } as const
  const points = pointsOver(posed, what, spanOf(posed, what)!)

  it('are wanted outward from where one looks', () => {
    const order = outwardFrom(points, 10).map((point) => points.indexOf(point))
    expect(order.slice(0, 3).toSorted((a, b) => a - b)).toEqual([9, 10, 11])
    expect(order[0]).toBe(10)
    expect(order).toHaveLength(points.length)
  })

  it('hold the present', () => {
    expect(points[nearest(points, 0.6604)]?.value).toBeCloseTo(0.6604, 6)
  })
})

describe('a lesson', () => {
  const { props } = fixtures['LessonRun.vue']!

  it('is gone through by keys, once a prediction is made', async () => {
    const { wrapper } = await standClass(LessonRun, props)
    const step = () => wrapper.get('[aria-current="step"]').text()
    press('PageDown')
    await flushPromises()
    expect(step()).toBe('The question')
    press('2')
    press('PageDown')
    await flushPromises()
    expect(step()).toBe('The cast')
    await vi.waitFor(() => expect(wrapper.find('.scene').exists()).toBe(true), SOON)
    press('PageDown')
    await flushPromises()
    expect(wrapper.get('.outcome').text()).toBe('As predicted: Harder.')
    expect(wrapper.findAll('.why li')).toHaveLength(3)
    expect(wrapper.findAll('.names li')[1]?.text()).toMatch(/comes round at \d+(\.\d)? m\/s/)
    expect(wrapper.text()).toContain('Judged in the air, not as it lies')
    press('PageDown')
    press('PageDown')
    await flushPromises()
    expect(step()).toBe('On the grass')
    press('PageUp')
    await flushPromises()
    expect(step()).toBe('What was seen, and why')
  })

  it('hands its leaders to the other places of the class', async () => {
    const { wrapper, room } = await standClass(LessonRun, props)
    press('1')
    for (let n = 0; n < 3; n++) press('PageDown')
    await flushPromises()
    const [, seats, change] = wrapper.findAll('.more a')
    await seats?.trigger('click')
    expect(room.seats.map(({ leader }) => leader?.name)).toEqual([
      'Fresh tippet',
      'Six inches left',
    ])
    await change?.trigger('click')
    expect(room.explored.id).toBe('tippet-length')
    expect(room.subject.leader?.name).toBe('Fresh tippet')
  })

  it('goes on only with a prediction, and its ends hold', () => {
    expect(stepFrom('question', 1, false)).toBe('question')
    expect(stepFrom('question', -1, true)).toBe('question')
    expect(stepFrom('exercise', 1, true)).toBe('exercise')
    expect(LESSON_STEPS.slice(0, 3).map((id) => stepFrom(id, 1, true))).toEqual(
      LESSON_STEPS.slice(1),
    )
  })

  it('tells a wrong prediction from a right one', () => {
    expect(outcomeText(lesson, 0)).toMatch(/^Predicted: Softer.* The cast shows: Harder\.$/)
    expect(outcomeText(lesson, undefined)).toBe('The cast shows: Harder.')
  })
})

describe('over two quantities', () => {
  it('flies a grid and says how much of it turns over', async () => {
    const { wrapper, asked } = await standClass(OneChange)
    await wrapper.findAll('.map select')[0]?.setValue('line-speed')
    await vi.waitFor(() => expect(wrapper.find('.map .spoken').exists()).toBe(true), SOON)
    await vi.waitFor(() => expect(wrapper.find('.map [role="status"]').exists()).toBe(false), {
      timeout: 55_000,
    })
    const cases = asked().flatMap((job) => (job.kind === 'extensions' ? job.inputs : []))
    expect(cases.filter((one) => one.cast.lineSpeed_m_s < 4.1).length).toBeGreaterThanOrEqual(15)
    const [, straight = '0'] =
      /(\d+) % of this range turns over straight/.exec(wrapper.text()) ?? []
    // Slow casts fall short and fast ones do not, so it is some of the range and not all.
    expect(Number(straight)).toBeGreaterThan(20)
    expect(Number(straight)).toBeLessThan(95)
    expect(wrapper.find('.map path.straight').attributes('d')).toMatch(/^M[\d.,LMZ]+$/)
  })

  it('keeps the order of a grid: across first, then up', () => {
    const posed = { leader: soundLeader(), choices: {} }
    const cases = casesOver(
      posed,
      [{ id: 'line-speed' }, { id: 'wind' }],
      [
        [8, 9],
        [-1, 1],
      ],
    )
    expect(cases.map((one) => [one.cast.lineSpeed_m_s, one.wind_m_s])).toEqual([
      [8, -1],
      [9, -1],
      [8, 1],
      [9, 1],
    ])
  })

  it('bands lie about the middle of what was sampled, for values that are known whole', () => {
    const posed = { leader: soundLeader(), choices: {} }
    const points = pointsOver(posed, { id: 'wind' }, spanOf(posed, { id: 'wind' })!)
    const sampled = sampledPoints(points)
    expect(sampled[0]).toBe(points[0])
    expect(sampled.at(-1)).toBe(points.at(-1))
    const perValue = likelyCases(sampled).length / sampled.length
    const known = Array.from({ length: perValue * 2 + 3 }, (_, i) => (i % perValue) / perValue)
    const [low, high] = bandCurves(sampled, known, 1)
    expect(low?.points).toHaveLength(2)
    expect(low?.points[0]?.y).toBeCloseTo(0.1, 6)
    expect(high?.points[0]?.y).toBeCloseTo(0.85, 6)
    expect(bandCurves(sampled, [], 1)).toEqual([])
  })
})

describe('a lesson of one’s own', () => {
  const write = async (wrapper: VueWrapper, name: string, text: string) => {
    const label = wrapper.findAll('label').find((one) => one.text().startsWith(name))
    await label?.get('input, textarea').setValue(text)
  }

  it('is written, kept under an id, read back, taken out and put back', async () => {
    const { wrapper } = await standClass(LessonEditor, { lesson: EMPTY_LESSON })
    await write(wrapper, 'Title', 'Short and stout')
    await write(wrapper, 'What may be predicted', 'Yes\n\nNo\nMaybe')
    await wrapper.get('form').trigger('submit')
    const [[written]] = (wrapper.emitted('save') ?? [[]]) as [[typeof EMPTY_LESSON]]
    expect(written).toMatchObject({ title: 'Short and stout', predictions: ['Yes', 'No', 'Maybe'] })
    expect(written.leaders.map(({ formula }) => formula)).toEqual([
      'saturday-class-even-taper',
      'saturday-class-level-line',
    ])
    const lessons = useLessons(createPinia())
    const shipped = lessons.entries.length
    const id = lessons.keep(written)
    expect(lessons.byId(id)).toEqual({ id, lesson: written, isOwn: true })
    lessons.keep({ ...written, title: 'Stouter' }, id)
    expect(lessons.entries).toHaveLength(shipped + 1)
    const back = lessons.remove(id)
    expect(lessons.byId(id)).toBeUndefined()
    back()
    expect(lessons.byId(id)?.lesson.title).toBe('Stouter')
    expect(lessons.importText('no lesson')).toMatchObject({ ok: false })
    expect(lessons.importText(writeLessonText(written)).ok).toBe(true)
    expect(lessons.entries).toHaveLength(shipped + 2)
  })

  it('that is copied keeps its leaders with their fly and change', async () => {
    const { wrapper } = await standClass(LessonEditor, { lesson })
    await write(wrapper, 'Title', 'My worn tippet')
    await wrapper.get('form').trigger('submit')
    const [[written]] = (wrapper.emitted('save') ?? [[]]) as [[typeof EMPTY_LESSON]]
    const posed = useLessons(createPinia()).posedOf(written)
    expect(posed.map((one) => one?.leader.tip.fly?.fly)).toEqual([
      { style: 'parachute', hook: 14 },
      { style: 'parachute', hook: 14 },
    ])
    expect(posed[1]?.leader.segments.at(-1)?.length.si).toBeCloseTo(0.152, 2)
  })

  it('says what is wrong with it, and keeps nothing', async () => {
    const { wrapper } = await standClass(LessonEditor, { lesson: EMPTY_LESSON })
    await write(wrapper, 'What may be predicted', ' ')
    await wrapper.get('form').trigger('submit')
    expect(wrapper.get('[role="alert"]').text()).toContain('predictions')
    expect(wrapper.emitted('save')).toBeUndefined()
  })
})

it('a seat passes on another leader, a change, its value and that it goes', async () => {
  const seat = stand(fixtures['SeatChoice.vue']!)
  standing.push(seat)
  const [leader, what] = seat.findAll('select')
  await leader?.setValue('shipped:one')
  await what?.setValue('')
  await what?.setValue('line-speed')
  await seat.get('input').setValue('1')
  await seat.get('button').trigger('click')
  expect(seat.emitted('set')?.flat()).toEqual([
    { source: 'shipped:one' },
    { source: 'bench' },
    { source: 'bench', change: { what: { id: 'line-speed', piece: 1 }, value: 12 } },
    expect.objectContaining({
      change: { what: { id: 'tippet-length' }, value: expect.closeTo(1, 1) as number },
    }),
  ])
  expect(seat.emitted('remove')).toHaveLength(1)
})
