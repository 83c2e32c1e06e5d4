import { afterEach, describe, expect, it } from 'vitest'
import type { VueWrapper } from '@vue/test-utils'
import { flushPromises } from '@vue/test-utils'
import type { Entry } from '../../../src/stores/entry'
import { describeEntry, fileNameOf, windowOf } from '../../../src/features/library/listing'
import { stand } from '../../support/fixture'
import { fixtures } from './fixtures'

const UNITS = { diameter: 'in', length: 'ft-in', force: 'lb', speed: 'm/s' } as const
const ENTRY: Entry = {
  id: 'a',
  shipped: false,
  name: 'A',
  purpose: 'nymph',
  total_m: 2.7432,
  tippet_m: 0.1524e-3,
  tippetText: '5X',
  isMetric: false,
  materials: [],
  segments: 7,
  searchText: 'a',
}

describe('describeEntry', () => {
  it('says purpose, length, tippet and pieces', () => {
    expect(describeEntry(ENTRY, UNITS)).toBe("Nymph · 9' · tippet .006 in · 7 pieces")
  })

  it('lists a formula in the units it is written in, where none are chosen', () => {
    const typed = { diameter: 'typed', length: 'typed' } as const
    expect(describeEntry(ENTRY, typed)).toContain("9' · tippet 5X")
    expect(describeEntry({ ...ENTRY, isMetric: true }, typed)).toContain('2.743 m')
  })

  it('says so where there is no tippet', () => {
    expect(describeEntry({ ...ENTRY, tippet_m: null }, UNITS)).toContain('no tippet')
  })

  it('says of a formula that does not read that it is kept', () => {
    expect(describeEntry({ ...ENTRY, purpose: null, problem: [] }, UNITS)).toMatch(
      /^Could not be read\. It is kept/,
    )
  })
})

describe('windowOf', () => {
  it('is as high as all rows together, wherever it is scrolled', () => {
    for (const scrolled of [0, 59, 60, 4000, 299_400]) {
      const { first, last, before, after } = windowOf(5000, scrolled, 600, 60)
      expect(before + (last - first) * 60 + after).toBe(5000 * 60)
      expect(before).toBeLessThanOrEqual(scrolled)
    }
  })

  it('holds every row in sight and few others', () => {
    const { first, last } = windowOf(5000, 6000, 600, 60)
    expect(first).toBeLessThanOrEqual(100)
    expect(last).toBeGreaterThanOrEqual(110)
    expect(last - first).toBeLessThanOrEqual(25)
  })

  it('shows a list that has become shorter than it was scrolled', () => {
    const { first, last, before, after } = windowOf(3, 6000, 600, 60)
    expect([first, last, before, after]).toEqual([0, 3, 0, 0])
  })

  it('holds nothing of an empty list', () => {
    expect(windowOf(0, 0, 600, 60)).toEqual({ first: 0, last: 0, before: 0, after: 0 })
  })
})

describe('fileNameOf', () => {
  it.each([
    ['Middle Sallow riffles 9 ft 5X', 'middle-sallow-riffles-9-ft-5x.json'],
    ['  ../etc: "x"?', 'etc-x.json'],
    ['漢字', 'leader.json'],
    ['', 'leader.json'],
  ])('"%s" becomes %s', (name, file) => {
    expect(fileNameOf(name)).toBe(file)
  })
})

describe('the library', () => {
  let library: VueWrapper
  afterEach(() => library.unmount())

  function show() {
    const fixture = fixtures['View.vue']
    if (!fixture) throw new Error('no fixture')
    library = stand(fixture)
  }

  it('begins in its search field', () => {
    show()
    expect(document.activeElement).toBe(library.get('[type="search"]').element)
  })

  it('says how many it found, and what to do where it found none', async () => {
    show()
    expect(library.get('.count').text()).toBe('1 of 1 formulas')
    await library.get('[type="search"]').setValue('no such thing')
    expect(library.get('.count').text()).toBe('0 of 1 formulas')
    expect(library.text()).toContain('No formula fits. Leave out a word or a filter.')
  })

  it('offers to delete no formula that came with the app', async () => {
    show()
    await library.get('[type="checkbox"]').setValue(true)
    const remove = library.findAll('button').find((one) => one.text() === 'Delete')
    expect(remove?.attributes('disabled')).toBe('')
  })

  it('goes back to the bench when a formula is opened or begun', async () => {
    show()
    await library.get('.list button').trigger('click')
    await library.get('button.main').trigger('click')
    await flushPromises()
    expect(library.emitted('go')).toHaveLength(2)
  })
})
