import { describe, expect, it } from 'vitest'
import { runCsv } from '../../src/castViews/runCsv'
import { extentOf, frameAt } from '../../src/castViews/scene'
import { pictureSize, sceneSvg } from '../../src/castViews/sceneSvg'
import { stand } from '../support/fixture'
import { fixtures } from './fixtures'
import { overloaded, sound } from './flights'

describe('a moment as SVG', () => {
  const flights = [sound, overloaded]
  const extent = extentOf(flights)
  const svg = (time_s: number) => {
    const text = sceneSvg(flights, extent, time_s, 1280)
    return new DOMParser().parseFromString(text, 'image/svg+xml').documentElement
  }

  it('holds both casts to scale, each told apart, and says when', () => {
    const root = svg(0.5)
    const [, , width = 0, height = 0] = root.getAttribute('viewBox')!.split(' ').map(Number)
    const drawn = Number(root.getAttribute('width')) / Number(root.getAttribute('height'))
    expect(drawn).toBeCloseTo(width / height, 1)
    expect(root.querySelectorAll('polyline')).toHaveLength(4)
    const strokes = [...root.querySelectorAll('polyline')].map((one) => one.getAttribute('stroke'))
    expect(new Set(strokes).size).toBe(2)
    const texts = [...root.querySelectorAll('text')].map((one) => one.textContent)
    expect(texts).toEqual(expect.arrayContaining(['A', 'B', '0.50 s', '4 m']))
  })

  it('has the fly where the flight has it', () => {
    const { frames } = sound.flown
    const frame = frames[frameAt(frames, 0.5)]!
    const circle = svg(0.5).querySelector('circle')!
    expect(Number(circle.getAttribute('cx'))).toBeCloseTo(frame.x.at(-1)!, 5)
    expect(Number(circle.getAttribute('cy'))).toBeCloseTo(-frame.y.at(-1)!, 5)
  })

  it('is of even size, as films want it', () => {
    expect(pictureSize(extent, 1280).height % 2).toBe(0)
  })
})

describe('the casts as CSV', () => {
  it('have a row a frame, of the same width, with the figures of the flight', () => {
    const lines = runCsv([sound, overloaded]).trimEnd().split('\r\n')
    const frames = [sound, overloaded].flatMap((one) => one.flown.frames)
    expect(lines).toHaveLength(frames.length + 1)
    expect(new Set(lines.map((line) => line.split(',').length))).toEqual(new Set([11]))
    const [name, time, x] = lines[3]!.split(',')
    expect(name).toBe('Sound')
    expect(Number(time)).toBeCloseTo(frames[2]!.time_s, 5)
    expect(Number(x)).toBeCloseTo(frames[2]!.x.at(-1)!, 4)
    expect(lines.join()).not.toMatch(/NaN|undefined|e-\d\d/)
  })

  it('quote a name that holds a comma or a quote', () => {
    const named = { ...sound, leader: { ...sound.leader, name: 'the "long", fine one' } }
    expect(runCsv([named])).toContain('\r\n"the ""long"", fine one",')
  })
})

it('hands out the moment and the table, and says where no film can be made', async () => {
  const take = stand(fixtures['TakeOut.vue']!)
  const button = (text: string) => take.findAll('button').find((one) => one.text() === text)!
  await button('This moment as SVG').trigger('click')
  await button('The casts as CSV').trigger('click')
  const files = take.emitted<[string, string, string]>('file') ?? []
  expect(files.map(([ending, , type]) => [ending, type])).toEqual([
    ['svg', 'image/svg+xml'],
    ['csv', 'text/csv'],
  ])
  expect(files[0]?.[1]).toContain('<svg')
  // Happy-dom has no recorder.
  expect(button('The casts as a film').attributes('disabled')).toBeDefined()
  expect(take.text()).toContain('makes no WebM films')
  take.unmount()
})
