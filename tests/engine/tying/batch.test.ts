// @vitest-environment node
import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { cutList, inCutOrder, planBatch, tieable, USELESS_END_M } from '../../../src/engine/tying'
import { anyLeader, q } from '../build'
import { season, shelf, simple, spoolOf } from './shelf'

const byLength = (a: { cut_m: number }, b: { cut_m: number }) => b.cut_m - a.cut_m

describe('a batch', () => {
  it('cuts every piece of every leader with its knots, each from one spool', () => {
    const plan = planBatch([{ leader: simple, count: 4 }], shelf(), 0)
    expect(plan.pieces).toHaveLength(12)
    const cut = cutList(simple)
    for (const { segment, cut_m, spool } of plan.pieces) {
      expect(cut_m).toBe(cut[segment]?.cut_m)
      expect(spool).toBe(['butt', 'mid', 'tip'][segment])
    }
    expect(plan.shortages).toEqual([])
    expect(plan.cut_m).toBeCloseTo(4 * cut.reduce((sum, p) => sum + p.cut_m, 0), 9)
    expect(plan.trimmed_m).toBeCloseTo(4 * cut.reduce((sum, p) => sum + p.trimmed_m, 0), 9)
  })

  it('never cuts more off a spool than it holds, whatever is ordered', () => {
    const order = fc.record({ leader: anyLeader, count: fc.integer({ min: 0, max: 6 }) })
    const sizes = fc.constantFrom('.020 in', '.012 in', '5X', '4X', '0.30 mm')
    const spool = fc
      .record({ size: sizes, m: fc.integer({ min: 0, max: 900 }) })
      .map(({ size, m }) => ({ size, left: `${m / 100 + 0.01} m` }))
    fc.assert(
      fc.property(
        fc.array(order, { maxLength: 3 }),
        fc.array(spool, { maxLength: 5 }),
        (os, ss) => {
          const spools = ss.map((s, i) => spoolOf({ id: `${i}`, ...s }))
          const plan = planBatch(os, spools, 0.05)
          for (const { before_m, cut_m } of plan.uses) expect(cut_m).toBeLessThanOrEqual(before_m)
          const missing = plan.pieces.filter(({ spool: id }) => id === null).length
          expect(plan.shortages.reduce((n, s) => n + s.pieces, 0)).toBe(missing)
        },
      ),
      { numRuns: 60 },
    )
  })

  it('finishes a partly used spool before it opens another', () => {
    const begun = spoolOf({ id: 'begun', size: '.020 in', left: '2.6 m' })
    const plan = planBatch([{ leader: simple, count: 2 }], [...shelf(), begun], 0)
    const butts = plan.pieces.filter(({ segment }) => segment === 0)
    expect(butts.map(({ spool }) => spool)).toEqual(['begun', 'begun'])
    expect(plan.uses[0]?.spool.id).toBe('begun')
  })

  it('says what is thrown away', () => {
    const { cut_m } = cutList(simple)[0] ?? { cut_m: 0 }
    const begun = spoolOf({
      id: 'begun',
      size: '.020 in',
      left: `${(2 * cut_m + 0.1).toFixed(4)} m`,
    })
    const plan = planBatch([{ leader: simple, count: 2 }], [begun, ...shelf().slice(1)], 0)
    expect(plan.uses.find(({ spool }) => spool.id === 'begun')?.isFinished).toBe(true)
    expect(plan.ends_m).toBeCloseTo(0.1, 3)
    expect(plan.ends_m).toBeLessThan(USELESS_END_M)
  })

  it('buys whole spools for what is short, each piece in one length', () => {
    const [, mid, tip] = shelf()
    const butt = spoolOf({
      id: 'butt',
      size: '.020 in',
      left: '0.05 m',
      patch: { full: q('3 m', 'spool-length'), price: 4 },
    })
    const plan = planBatch([{ leader: simple, count: 5 }], [butt, mid!, tip!], 0)
    const { cut_m } = cutList(simple)[0] ?? { cut_m: 0 }
    // Two to a spool, since three do not go into three metres: so five pieces want three spools.
    expect(Math.floor(3 / cut_m)).toBe(2)
    expect(plan.shortages).toHaveLength(1)
    expect(plan.shortages[0]).toMatchObject({ pieces: 5, spools: 3, cost: 12, full_m: 3 })
  })

  it('buys for spoilage only where the shelf has nothing to spare', () => {
    const orders = [{ leader: simple, count: 4 }]
    expect(planBatch(orders, shelf('20 m'), 0.1).shortages).toEqual([])
    const exact = cutList(simple).map(({ cut_m }) => `${(4 * cut_m + 0.01).toFixed(3)} m`)
    const tight = shelf().map((spool, i) => ({ ...spool, left: q(exact[i] ?? '', 'spool-length') }))
    const { shortages } = planBatch(orders, tight, 0.1)
    expect(shortages.map(({ pieces, spools }) => ({ pieces, spools }))).toEqual(
      [0, 1, 2].map(() => ({ pieces: 0, spools: 1 })),
    )
    expect(shortages[0]?.spoilage_m).toBeCloseTo(0.4 * (cutList(simple)[0]?.cut_m ?? 0), 9)
  })

  it('costs a leader by the metre, spoilage included, and says what it leaves out', () => {
    const [butt, mid, tip] = shelf()
    const priced = { ...butt!, price: 5, full: q('25 m', 'spool-length') }
    const { costs } = planBatch([{ leader: simple, count: 3 }], [priced, mid!, tip!], 0.1)
    const { cut_m } = cutList(simple)[0] ?? { cut_m: 0 }
    expect(costs[0]?.perLeader).toBeCloseTo((5 / 25) * cut_m * 1.1, 9)
    expect(costs[0]?.unpriced).toBe(2)
    const [bare] = planBatch([{ leader: simple, count: 3 }], shelf(), 0.1).costs
    expect(bare).toEqual({ perLeader: null, unpriced: 3 })
  })

  it('orders the cuts by spool, longest first, or leader by leader', () => {
    const { orders, spools } = season()
    const plan = planBatch(orders, spools, 0)
    expect(inCutOrder(plan.pieces, 'leader', plan.uses)).toEqual(plan.pieces)
    const cuts = inCutOrder(plan.pieces, 'spool', plan.uses)
    const ids = cuts.map(({ spool }) => spool)
    expect(ids.filter((id, i) => id !== ids[i - 1])).toEqual(plan.uses.map((u) => u.spool.id))
    for (const { spool } of plan.uses) {
      const own = cuts.filter((piece) => piece.spool === spool.id)
      expect(own).toEqual([...own].sort(byLength))
    }
  })

  it('plans forty leaders of five formulas from fifteen spools without leaving a piece', () => {
    const { orders, spools } = season()
    const plan = planBatch(orders, spools, 0.05)
    expect(plan.pieces).toHaveLength(240)
    expect(plan.pieces.filter(({ spool }) => spool === null)).toEqual([])
  })
})

describe('what can be tied', () => {
  it('is as many leaders as the scarcest strand gives, each piece in one length', () => {
    const [butt, mid, tip] = shelf()
    const { cut_m } = cutList(simple)[0] ?? { cut_m: 0 }
    // Two ends of one and a half pieces give two leaders, not three.
    const ends = ['a', 'b'].map((id) =>
      spoolOf({ id, size: '.020 in', left: `${(1.5 * cut_m).toFixed(3)} m` }),
    )
    expect(tieable(simple, [...ends, mid!, tip!])).toEqual({ leaders: 2, missing: [] })
    expect(tieable(simple, [butt!, mid!, tip!], 10).leaders).toBe(10)
  })

  it('names what is missing and why', () => {
    const [butt, mid] = shelf()
    const crumb = spoolOf({ id: 'crumb', size: '.012 in', left: '0.1 m' })
    expect(tieable(simple, [butt!, crumb]).missing).toEqual([
      { segment: 1, why: 'short' },
      { segment: 2, why: 'none' },
    ])
    expect(tieable(simple, [butt!, mid!]).leaders).toBe(0)
  })
})
