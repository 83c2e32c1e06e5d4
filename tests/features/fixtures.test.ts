import { afterEach, describe, expect, it, vi } from 'vitest'
import { flushPromises } from '@vue/test-utils'
import type { Fixtures } from '../support/fixture'
import { stand } from '../support/fixture'

// Happy-dom has no canvas: what a chart is given is tested beside it, its pixels in the browser.
vi.mock('vue-chartjs', () => ({ Scatter: { template: '<i></i>' } }))

const components = Object.keys(import.meta.glob('../../src/{ui,stage,features}/**/*.vue')).map(
  (path) => path.replace('../../src/', ''),
)

const modules = import.meta.glob<{ fixtures: Fixtures }>('../{ui,stage,features/*}/fixtures.ts', {
  eager: true,
})

/** Fixtures by the place of their component under src. */
const all = Object.entries(modules).flatMap(([path, { fixtures }]) => {
  const folder = path
    .replace(/^\.\.\//, '')
    .replace(/^\.\//, 'features/')
    .replace('fixtures.ts', '')
  return Object.entries(fixtures).map(([file, fixture]) => [`${folder}${file}`, fixture] as const)
})

const wrappers: { unmount: () => void }[] = []
afterEach(() => {
  for (const wrapper of wrappers.splice(0)) wrapper.unmount()
})

describe('fixtures', () => {
  it('exist for every component of ui and features, and for nothing else', () => {
    expect(all.map(([name]) => name).sort()).toEqual([...components].sort())
  })

  it.each(all)('%s stands alone, without a warning, and shows its text', async (_, fixture) => {
    const asked = vi.spyOn(globalThis, 'fetch')
    const warned = vi.spyOn(console, 'warn')
    const wrapper = stand(fixture)
    wrappers.push(wrapper)
    await flushPromises()
    wrapper.vm.$forceUpdate()
    await flushPromises()
    expect(wrapper.html().length).toBeGreaterThan(0)
    expect(document.body.textContent).toContain(fixture.shows)
    expect(asked).not.toHaveBeenCalled()
    expect(warned.mock.calls).toEqual([])
  })
})
