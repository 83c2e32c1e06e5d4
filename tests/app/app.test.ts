import { afterEach, describe, expect, it, vi } from 'vitest'
import type { VueWrapper } from '@vue/test-utils'
import { flushPromises } from '@vue/test-utils'
import App from '../../src/app/App.vue'
import HelpDialog from '../../src/app/HelpDialog.vue'
import { placeOf } from '../../src/app/places'
import type { Storage } from '../../src/storage'
import { useNews } from '../../src/stores/news'
import { app as words } from '../../src/wording/rooms/app'
import { useSettings } from '../../src/stores/settings'
import { isEditing, shortcutOf } from '../../src/app/shortcuts'
import { stand } from '../support/fixture'

vi.mock('vue-chartjs', () => ({ Scatter: { template: '<i></i>' } }))

const key = (name: string, more: KeyboardEventInit = {}) =>
  new KeyboardEvent('keydown', { key: name, bubbles: true, cancelable: true, ...more })

describe('shortcuts', () => {
  it.each([
    ['z', { ctrlKey: true }, 'undo'],
    ['z', { metaKey: true }, 'undo'],
    ['Z', { ctrlKey: true, shiftKey: true }, 'redo'],
    ['y', { ctrlKey: true }, 'redo'],
    ['k', { ctrlKey: true }, 'library'],
    ['z', {}, undefined],
    ['z', { ctrlKey: true, altKey: true }, undefined],
    ['s', { ctrlKey: true }, undefined],
  ] as const)('%s with %o is %s', (name, more, shortcut) => {
    expect(shortcutOf(key(name, more))).toBe(shortcut)
  })

  /** A key in a field; a field for figures says whether its text is committed. */
  function inField(isDraft?: boolean): KeyboardEvent {
    const input = document.createElement('input')
    if (isDraft !== undefined) input.dataset['draft'] = String(isDraft)
    const event = key('z', { ctrlKey: true })
    input.dispatchEvent(event)
    return event
  }

  it('leave undo to a text that is being changed', () => {
    expect(isEditing(inField(true))).toBe(true)
    expect(isEditing(inField())).toBe(true)
  })

  it('take undo where a field holds what is committed', () => {
    expect(isEditing(inField(false))).toBe(false)
  })

  it('take undo where no text is', () => {
    const event = key('z', { ctrlKey: true })
    document.createElement('button').dispatchEvent(event)
    expect(isEditing(event)).toBe(false)
  })
})

describe('the shell', () => {
  let app: VueWrapper
  afterEach(() => {
    app.unmount()
    window.location.hash = ''
  })

  async function show(hash = '') {
    window.location.hash = hash
    app = stand({ component: App, shows: '' })
    await flushPromises()
  }

  const name = () => app.get<HTMLInputElement>('input.name')
  const press = (text: string) =>
    app
      .findAll('button')
      .find((one) => one.text() === text)
      ?.trigger('click')

  function leave(): Event {
    const leaving = new Event('beforeunload', { cancelable: true })
    window.dispatchEvent(leaving)
    return leaving
  }

  it('renames the leader as an own copy, which Ctrl Z takes back', async () => {
    await show()
    expect(app.get('.saved').text()).toContain('Shipped')
    await name().setValue('Ford pool')
    expect(name().element.value).toBe('Ford pool')
    expect(app.get('.saved').text()).not.toContain('Shipped')
    window.dispatchEvent(key('z', { ctrlKey: true }))
    await flushPromises()
    expect(name().element.value).toMatch(/mine/)
  })

  it('takes no empty name', async () => {
    await show()
    const before = name().element.value
    await name().setValue('  ')
    await flushPromises()
    expect(name().element.value).toBe(before)
  })

  it('changes what the leader is for', async () => {
    await show()
    await app.get('select.purpose').setValue('nymph')
    expect(app.get<HTMLSelectElement>('select.purpose').element.value).toBe('nymph')
    await press('Undo')
    expect(app.get<HTMLSelectElement>('select.purpose').element.value).toBe('general-dry')
  })

  it('shows the leader in the units chosen under View', async () => {
    await show()
    const diameter = () => app.get<HTMLInputElement>('[aria-label="Diameter of piece 7"]').element
    expect(diameter().value).toBe('5X')
    await app.get('.panel select').setValue('mm')
    expect(diameter().value).toBe('0.152 mm')
  })

  it('tells the page which look was chosen', async () => {
    await show()
    await app.findAll('.panel select').at(-1)?.setValue('dark')
    expect(document.documentElement.dataset['theme']).toBe('dark')
  })

  it('opens the formulas by address, and the bench without', async () => {
    await show('#library')
    await vi.waitFor(() => expect(app.find('main.library').exists()).toBe(true))
    window.location.hash = ''
    window.dispatchEvent(new HashChangeEvent('hashchange'))
    await vi.waitFor(() => expect(app.find('main.bench').exists()).toBe(true))
  })

  it('asks before it is left while nothing could be kept', async () => {
    await show()
    await name().setValue('Ford pool')
    await flushPromises()
    expect(leave().defaultPrevented).toBe(true)
    expect(app.get('.saved').text()).toBe('Not kept: export it')
  })

  it('asks before it is left while a choice is being written', async () => {
    await show()
    const settings = useSettings()
    void settings.start(new Promise(() => undefined))
    expect(leave().defaultPrevented).toBe(false)
    settings.change({ theme: 'dark' })
    expect(leave().defaultPrevented).toBe(true)
  })

  it('tells those who used it before why verdicts differ, until they close it', async () => {
    await show()
    expect(app.text()).not.toContain(words.news.title)
    const before = {
      readSettings: () => Promise.resolve({ lastOpened: 'own' }),
      list: () => Promise.resolve([]),
    }
    await useNews().start(Promise.resolve(before as unknown as Storage))
    await vi.waitFor(() => expect(app.text()).toContain(words.news.title))
    await press(words.news.close)
    await flushPromises()
    expect(app.text()).not.toContain(words.news.title)
  })

  it('lets go without asking where nothing was changed', async () => {
    await show()
    expect(leave().defaultPrevented).toBe(false)
  })
})

describe('HelpDialog', () => {
  it('names every key of the table and says what to take care of', () => {
    const help = stand({ component: HelpDialog, shows: '' })
    const text = help.text()
    for (const keys of ['Alt Enter', 'Alt Delete', 'Alt D, Alt S, Alt J', 'Ctrl K', 'Escape'])
      expect(text).toContain(keys)
    expect(text).toContain('overhead lines')
    help.unmount()
  })
})

describe('an address', () => {
  it.each(['#constructor', '#toString', '#__proto__', '#hasOwnProperty', '#valueOf', '#', '#x'])(
    '%s that names no place opens the bench',
    (hash) => expect(placeOf(hash)).toBe('bench'),
  )

  it('names a place, with more behind it', () => expect(placeOf('#cast/more')).toBe('cast'))
})
