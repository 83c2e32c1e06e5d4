import { describe, expect, it } from 'vitest'
import { chartSvg, drawingSvg, profileSeries } from '../../../src/charts'
import { evaluate } from '../../../src/engine/evaluate'
import { baseFrom, isOnlyHere } from '../../../src/stores/links'
import { soundLeader } from '../../engine/build'
import { stand } from '../../support/fixture'
import { fixtures } from './fixtures'

describe('where links lead', () => {
  it.each([
    ['http://localhost:4173/', true],
    ['http://127.0.0.1/', true],
    ['http://[::1]:80/', true],
    ['file:///home/a/index.html', true],
    ['https://leaders.example.org/', false],
  ])('%s is only here: %s', (base, is) => expect(isOnlyHere(base)).toBe(is))

  it('is an address or a message', () => {
    expect(baseFrom(' https://a.example/b/#x ')).toEqual({ base: 'https://a.example/b/' })
    expect(baseFrom('javascript:alert(1)')).toHaveProperty('problem')
    expect(baseFrom('my page')).toHaveProperty('problem')
  })

  it('is told where it is only this machine', () => {
    const wrapper = stand(fixtures['LinkBase.vue']!)
    expect(wrapper.text()).toContain('this machine only')
    wrapper.unmount()
  })
})

describe('pictures', () => {
  const evaluation = evaluate(soundLeader())
  const parse = (svg: string) =>
    new DOMParser().parseFromString(svg, 'image/svg+xml').documentElement

  it('draw every piece to length', () => {
    const svg = parse(drawingSvg(evaluation, [], 'a <b> & "c"', { width: 1000, height: 100 }))
    const widths = [...svg.querySelectorAll('rect[stroke]')].map((r) =>
      Number(r.getAttribute('width')),
    )
    expect(widths).toHaveLength(7)
    // 38 in of 108.
    expect(widths[0]! / widths.reduce((a, b) => a + b)).toBeCloseTo(38 / 108, 3)
    expect(svg.querySelector('title')?.textContent).toBe('a <b> & "c"')
  })

  it.each(
    profileSeries(evaluation, { diameter: 'in', force: 'lb' }).map((s) => [s.title, s] as const),
  )('%s is a curve within its frame', (_, series) => {
    const svg = parse(chartSvg(series, evaluation.profile.total_m, [], { width: 400, height: 200 }))
    const points = [...svg.querySelectorAll('polyline')]
      .at(-1)!
      .getAttribute('points')!
      .split(' ')
      .map((point) => point.split(',').map(Number))
    expect(points).toHaveLength(14)
    for (const [x, y] of points) {
      expect(x).toBeGreaterThanOrEqual(54)
      expect(x).toBeLessThanOrEqual(388)
      expect(y).toBeGreaterThanOrEqual(22)
      expect(y).toBeLessThanOrEqual(174)
    }
  })
})
