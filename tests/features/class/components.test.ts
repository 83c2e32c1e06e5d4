import { afterEach, describe, expect, it, vi } from 'vitest'
import type { Component } from 'vue'
import type { VueWrapper } from '@vue/test-utils'
import { flushPromises, mount } from '@vue/test-utils'
import { createPinia } from 'pinia'
import LessonRun from '../../../src/features/class/LessonRun.vue'
import OneChange from '../../../src/features/class/OneChange.vue'
import SideBySide from '../../../src/features/class/SideBySide.vue'
import { nearest, outwardFrom, pointsOver } from '../../../src/features/class/exploration'
import { LESSON_STEPS, outcomeText, stepFrom } from '../../../src/features/class/lessonSteps'
import { spanOf } from '../../../src/engine/explore'
import { useClassroom } from '../../../src/stores/classroom'
import { useFlown } from '../../../src/stores/flown'
import { useLibrary } from '../../../src/stores/library'
import { stand } from '../../support/fixture'
import { soundLeader } from '../../engine/build'
import { inProcessPool } from '../../worker/inProcess'
import { fixtures } from './fixtures'

// Happy-dom has no canvas: here the data are looked at that the chart is given.
vi.mock('vue-chartjs', () => ({
  Scatter: { name: 'ScatterStub', props: ['data', 'options'], template: '<i></i>' },
}))

const standing: VueWrapper[] = []
afterEach(() => {
  for (const wrapper of standing.splice(0)) wrapper.unmount()
})

/** A part of the class over stores whose casts are flown in this process. */
async function standClass(component: Component, props: object = {}) {
  const pinia = createPinia()
  const library = useLibrary(pinia)
  const { pool, asked } = inProcessPool()
  useFlown(pinia).start(pool)
  await library.start(Promise.reject(new Error('no storage')))
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
    expect(asked()).toHaveLength(2)
    room.setSeat(1, { source: 'bench', change: { what: { id: 'tippet-length' }, value: 0.3 } })
    await vi.waitFor(() => expect(asked()).toHaveLength(3), SOON)
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
    expect(asked()).toHaveLength(33)
    const figure = () => wrapper.get('.slide strong').text()
    expect(figure()).toBe('26 in')
    await wrapper.get('.slide input').setValue('32')
    expect(figure()).toBe('94.5 in')
    expect(asked()).toHaveLength(33)
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
  const lesson = (props as { entry: { lesson: never } }).entry.lesson

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
    expect(wrapper.findAll('.names li')[1]?.text()).toMatch(/comes round at \d+\.\d m\/s/)
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
