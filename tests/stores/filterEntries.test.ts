// @vitest-environment node
import { describe, expect, it } from 'vitest'
import type { Entry } from '../../src/stores/entry'
import { filterEntries } from '../../src/stores/filterEntries'

const entry = (id: string, fields: Partial<Entry> = {}): Entry => ({
  id,
  shipped: false,
  name: id,
  purpose: 'general-dry',
  total_m: 2.7432,
  tippet_m: 0.006 * 0.0254,
  materials: ['nylon-stiff', 'nylon-supple'],
  tippetText: '5X',
  isMetric: false,
  segments: 7,
  searchText: id,
  ...fields,
})

const found = (entries: Entry[], query: Parameters<typeof filterEntries>[1]) =>
  filterEntries(entries, query).map(({ id }) => id)

describe('searching the library', () => {
  it('gives everything, in order, where nothing is asked', () => {
    expect(found([entry('b'), entry('a')], {})).toEqual(['b', 'a'])
  })

  it('finds all the words, in any order and case', () => {
    const entries = [
      entry('both', { searchText: 'evening rise' }),
      entry('one', { searchText: 'rise' }),
    ]
    expect(found(entries, { text: ' Rise EVENING ' })).toEqual(['both'])
  })

  it('takes lengths at their limits, whatever the last bit says', () => {
    const sum = Array.from({ length: 108 }, () => 0.0254).reduce((a, b) => a + b)
    const entries = [entry('nine feet', { total_m: sum }), entry('longer', { total_m: 2.76 })]
    expect(found(entries, { minLength_m: 2.7432, maxLength_m: 2.7432 })).toEqual(['nine feet'])
    expect(found(entries, { minLength_m: 2.75 })).toEqual(['longer'])
  })

  it('takes .006 in and 0.15 mm as one tippet and .0065 in as another', () => {
    const sizes = [0.006 * 0.0254, 0.15e-3, 0.0065 * 0.0254]
    const entries = sizes.map((tippet_m, i) => entry(`${i}`, { tippet_m }))
    expect(found(entries, { tippet_m: 0.006 * 0.0254 })).toEqual(['0', '1'])
  })

  it('tells by purpose, material and whose it is', () => {
    const entries = [
      entry('nymph', { purpose: 'nymph' }),
      entry('fluoro', { materials: ['fluorocarbon'] }),
      entry('shipped', { shipped: true }),
    ]
    expect(found(entries, { purpose: 'nymph' })).toEqual(['nymph'])
    expect(found(entries, { material: 'fluorocarbon' })).toEqual(['fluoro'])
    expect(found(entries, { own: false })).toEqual(['shipped'])
    expect(found(entries, { own: true })).toEqual(['nymph', 'fluoro'])
  })

  it('does not take a formula that does not read for a short one', () => {
    const entries = [entry('unreadable', { total_m: null, tippet_m: null, purpose: null })]
    expect(found(entries, { maxLength_m: 3 })).toEqual([])
    expect(found(entries, { tippet_m: 1e-4 })).toEqual([])
  })

  it('finds the one among 5,000 formulas', () => {
    const entries = Array.from({ length: 5000 }, (_, i) =>
      entry(`${i}`, { searchText: `formula ${i} for the middle beat `.repeat(20) }),
    )
    expect(found(entries, { text: 'beat 4999', minLength_m: 2 })).toEqual(['4999'])
  })
})
