import { flushPromises, mount } from '@vue/test-utils'
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest'
import { h } from 'vue'
import { lazyPart } from '../../src/ui/lazyPart'

const PART = { render: () => 'the part' }

beforeEach(() => {
  vi.useFakeTimers()
  // Vue tells the console of a part that did not come.
  vi.spyOn(console, 'error').mockReturnValue()
})
afterEach(() => {
  vi.useRealTimers()
  vi.restoreAllMocks()
})

/** A part that does not come so many times. */
async function shown(failures: number) {
  let asked = 0
  const part = lazyPart(() =>
    asked++ < failures ? Promise.reject(new Error('404')) : Promise.resolve(PART),
  )
  const wrapper = mount(() => h('div', h(part)))
  for (let i = 0; i < 10; i++) {
    await flushPromises()
    await vi.advanceTimersByTimeAsync(5000)
  }
  return { asked, text: wrapper.text() }
}

describe('a part that is fetched', () => {
  it('comes when it was missing for a while', async () => {
    expect(await shown(3)).toEqual({ asked: 4, text: 'the part' })
  })

  it('that never comes says so, with a way to try again, and is not asked for without end', async () => {
    const { asked, text } = await shown(99)
    expect(asked).toBe(4)
    expect(text).toContain('could not be fetched')
    expect(text).toContain('Try again')
  })
})
