// @vitest-environment node
import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import type { PackItem } from '../../../src/engine/tying'
import { isBetter, pack, scoreOf } from '../../../src/engine/tying'

const USELESS = 25

type Bins = (number | null)[]

/** Every way of cutting there is: the optimum without any cleverness. */
function exhaustive(left: readonly number[], items: readonly PackItem[]) {
  const task = { items, useless: USELESS }
  let best = scoreOf(
    left,
    task,
    items.map(() => null),
  )
  const rest = [...left]
  const binOf: Bins = items.map(() => null)
  function visit(i: number): void {
    const item = items[i]
    if (!item) {
      const score = scoreOf(left, task, binOf)
      if (isBetter(score, best)) best = score
      return
    }
    visit(i + 1)
    for (const bin of item.bins) {
      if ((rest[bin] ?? 0) < item.length) continue
      rest[bin] = (rest[bin] ?? 0) - item.length
      binOf[i] = bin
      visit(i + 1)
      binOf[i] = null
      rest[bin] = (rest[bin] ?? 0) + item.length
    }
  }
  visit(0)
  return best
}

/** Up to four spools and seven pieces, of few lengths so that twins occur, each from some of the spools. */
const small = fc
  .record({
    left: fc.array(fc.integer({ min: 0, max: 300 }), { minLength: 1, maxLength: 4 }),
    lengths: fc.array(fc.constantFrom(17, 30, 41, 55, 76, 98, 120), { minLength: 1, maxLength: 7 }),
    from: fc.array(fc.integer({ min: 1, max: 15 }), { minLength: 7, maxLength: 7 }),
    mixed: fc.boolean(),
  })
  .map(({ left, lengths, from, mixed }) => {
    const all = left.map((_, bin) => bin)
    const items = lengths.map((length, i) => {
      const some = all.filter((bin) => ((from[i] ?? 15) >> bin) & 1)
      return { length, bins: mixed ? some : all }
    })
    return { left, items }
  })

function expectSound(left: readonly number[], items: readonly PackItem[], binOf: Readonly<Bins>) {
  const rest = [...left]
  for (const [i, bin] of binOf.entries()) {
    if (bin === null) continue
    expect(items[i]?.bins).toContain(bin)
    rest[bin] = (rest[bin] ?? 0) - (items[i]?.length ?? 0)
  }
  expect(Math.min(...rest)).toBeGreaterThanOrEqual(0)
}

describe('pieces into spools', () => {
  it('is the optimum of an exhaustive search on 400 small cases, and knows it', () => {
    fc.assert(
      fc.property(small, ({ left, items }) => {
        const found = pack(left, items, USELESS)
        expectSound(left, items, found.binOf)
        expect(found.score).toEqual(exhaustive(left, items))
        expect(found.isBest).toBe(true)
      }),
      { seed: 5, numRuns: 400 },
    )
  })

  it('by greed and exchange alone comes near it: nine cases in ten to the last piece', () => {
    let [cases, same] = [0, 0]
    fc.assert(
      fc.property(small, ({ left, items }) => {
        const found = pack(left, items, USELESS, 0)
        expectSound(left, items, found.binOf)
        const best = exhaustive(left, items)
        expect(isBetter(found.score, best)).toBe(false)
        cases++
        if (found.score.unplaced === best.unplaced) same++
      }),
      { seed: 6, numRuns: 400 },
    )
    expect(same / cases).toBeGreaterThan(0.9)
  })

  // Eilon and Christofides, Management Science 17 (1971), put the loading problem so; this instance is worked by
  // hand: 7+3 and 6+4 fill two spools of ten to the end, where the longest piece to the fullest spool does too.
  it('fills two spools to the end where that can be done', () => {
    const items = [7, 6, 4, 3].map((length) => ({ length, bins: [0, 1] }))
    const { score, binOf } = pack([10, 10], items, 2)
    expect(score).toEqual({ unplaced: 0, together: 0 })
    expect(binOf[0]).toBe(binOf[3])
  })

  // By hand: 6 + 5 and 4 + 3 + 2 fill both; best fit decreasing begins with 6 on the nine.
  it('finds what the greedy start misses', () => {
    const items = [6, 5, 4, 3, 2].map((length) => ({ length, bins: [0, 1] }))
    expect(pack([11, 9], items, 1).score.unplaced).toBe(0)
  })

  it('finishes the spool with least left first', () => {
    const items = [40, 40].map((length) => ({ length, bins: [0, 1, 2] }))
    expect(pack([5000, 80, 300], items, USELESS).binOf).toEqual([1, 1])
  })

  it('takes a large batch without coming to the end of the search', () => {
    const bins = Array.from({ length: 15 }, (_, i) => i)
    const items = Array.from({ length: 300 }, (_, i) => ({
      length: 2000 + ((i * 7919) % 9000),
      bins,
    }))
    const left = bins.map((bin) => 40_000 + bin * 17_000)
    const found = pack(left, items, 2500)
    expectSound(left, items, found.binOf)
    const room = left.reduce((a, b) => a + b)
    const wanted = items.reduce((a, { length }) => a + length, 0)
    // Nearly everything that there is room for is placed.
    expect(found.score.unplaced).toBeLessThan(Math.max(0, wanted - room) + 3000)
  })
})
