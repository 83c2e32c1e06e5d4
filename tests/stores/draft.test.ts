// @vitest-environment happy-dom
import 'fake-indexeddb/auto'
import { createPinia, setActivePinia } from 'pinia'
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest'
import { startDrafts } from '../../src/stores/draft'
import { useBench } from '../../src/stores/bench'
import { keptDraft } from '../../src/storage/draft'
import { closeTabs, FIRST, openTab } from './tab'

/** A page with two fields of one name, of which the second is typed into. */
function page(): HTMLInputElement[] {
  document.body.innerHTML =
    '<input aria-label="Diameter" /><input aria-label="Diameter" data-draft="false" />'
  return [...document.querySelectorAll('input')]
}

function type(field: HTMLInputElement, text: string): void {
  field.value = text
  field.dataset['draft'] = 'true'
  field.dispatchEvent(new Event('input', { bubbles: true }))
}

beforeEach(() => {
  setActivePinia(createPinia())
  useBench().resume()
  localStorage.clear()
})
afterEach(() => (document.body.innerHTML = ''))

describe('a text that was typed and not entered', () => {
  it('stands in its field again after a reload, and is said to be not entered', async () => {
    startDrafts()
    type(page()[1]!, '.0235 in')
    // The page is gone, and another one comes.
    const again = page()
    startDrafts()
    await vi.waitFor(() => expect(again[1]!.value).toBe('.0235 in'))
    expect(again[0]!.value).toBe('')
    expect(useBench().notice).toContain('“.0235 in” was typed into Diameter')
  })

  it('is forgotten once it was entered', async () => {
    startDrafts()
    const [, field] = page()
    type(field!, '.0235 in')
    expect(localStorage.length).toBe(1)
    field!.dataset['draft'] = 'false'
    field!.dispatchEvent(new Event('change', { bubbles: true }))
    await vi.waitFor(() => expect(localStorage.length).toBe(0))
  })

  it('is not taken away by the formula opened last, where storage comes late', async () => {
    const { bench } = await openTab()
    bench.edit('Notes', (leader) => ({ ...leader, notes: 'mine' }))
    await bench.settled()
    const [, field] = page()
    type(field!, '.0235 in')
    expect((await openTab()).bench.id).toBe(FIRST)
    field!.dataset['draft'] = 'false'
    expect((await openTab()).bench.id).toBe(bench.id)
    await closeTabs()
  })

  it('is not forgotten with the text of the field before it', async () => {
    startDrafts()
    const [first, second] = page()
    type(first!, '.0235 in')
    first!.dataset['draft'] = 'false'
    first!.dispatchEvent(new Event('change', { bubbles: true }))
    type(second!, '5')
    await new Promise((resolve) => setTimeout(resolve))
    expect(keptDraft()).toMatchObject({ nth: 1, text: '5' })
  })

  it('is forgotten where it was entered without the browser telling of it', async () => {
    startDrafts()
    const [, field] = page()
    type(field!, '20 lb')
    // One of the meanings that were offered was chosen.
    field!.value = '.0175 in'
    field!.dataset['draft'] = 'false'
    await vi.waitFor(() => expect(keptDraft()).toBeUndefined())
  })

  it('waits for the formula opened last, and is not put into another', async () => {
    startDrafts()
    type(page()[1]!, '.0235 in')
    const again = page()
    setActivePinia(createPinia())
    startDrafts()
    await new Promise((resolve) => setTimeout(resolve, 200))
    expect(again[1]!.value).toBe('')
    useBench().resume()
    await vi.waitFor(() => expect(again[1]!.value).toBe('.0235 in'))
  })

  it('is at least said where its field is not there any more', async () => {
    startDrafts()
    type(page()[1]!, '.0235 in')
    document.body.innerHTML = ''
    vi.useFakeTimers()
    startDrafts()
    await vi.advanceTimersByTimeAsync(10_000)
    vi.useRealTimers()
    expect(useBench().notice).toContain('not open any more')
  })
})
