// @vitest-environment node
import { describe, expect, it } from 'vitest'
import type { Inventory } from '../../../src/engine/tying'
import {
  beginBatch,
  cutList,
  EMPTY_INVENTORY,
  finish,
  freeSpools,
  left_m,
  putSpool,
  replan,
  setCut,
  setTied,
  InventoryError,
  spoil,
  takeFromStock,
} from '../../../src/engine/tying'
import { q } from '../build'
import { shelf, simple } from './shelf'

const cut_m = cutList(simple).map((piece) => piece.cut_m)
const begun = (count = 2, left = '20 m'): Inventory => {
  const inventory = shelf(left).reduce(putSpool, EMPTY_INVENTORY)
  const orders = [{ formula: 'f', leader: simple, count }]
  return beginBatch(inventory, {
    id: 'b',
    name: 'Evening',
    begun: '2026-11-25',
    orders,
    spoilage: 0,
  })
}
const key = (segment: number, copy = 0) => ({ order: 0, copy, segment })
const leftOn = (inventory: Inventory, id: string) =>
  left_m(inventory.spools.find((s) => s.id === id)!)
const into = { stockId: 's', wallet: 'Boat 1', tied: '2026-11-25' }
const allCut = (inventory: Inventory) =>
  [0, 1, 2].reduce((made, i) => setCut(made, 'b', key(i), true), inventory)

describe('the shed', () => {
  it('takes what is cut off its spool, and puts it back', () => {
    const cut = setCut(begun(), 'b', key(0), true)
    expect(leftOn(cut, 'butt')).toBeCloseTo(20 - cut_m[0]!, 12)
    expect(leftOn(setCut(cut, 'b', key(0), false), 'butt')).toBe(20)
    expect(setCut(cut, 'b', key(0), true)).toBe(cut)
  })

  it('takes a spoiled piece a second time', () => {
    const spoiled = spoil(setCut(begun(), 'b', key(2), true), 'b', key(2))
    expect(leftOn(spoiled, 'tip')).toBeCloseTo(20 - 2 * cut_m[2]!, 12)
    expect(() => spoil(begun(), 'b', key(2))).toThrow(InventoryError)
  })

  it('refuses to cut more than there is', () => {
    const inventory = begun()
    const short = putSpool(inventory, { ...shelf()[0]!, left: q('0.5 m', 'spool-length') })
    expect(() => setCut(short, 'b', key(0), true)).toThrow(/no longer holds/)
  })

  it('starts a length anew when it is stated anew, and not when something else is', () => {
    const cut = setCut(begun(), 'b', key(0), true)
    const [butt] = shelf()
    expect(leftOn(putSpool(cut, { ...butt!, note: 'by the window' }), 'butt')).toBeLessThan(20)
    expect(leftOn(putSpool(cut, { ...butt!, left: q('18 m', 'spool-length') }), 'butt')).toBe(18)
  })

  it('keeps what one batch has planned from the next', () => {
    const free = freeSpools(begun(2)).find(({ id }) => id === 'butt')
    expect(free?.left.si).toBeCloseTo(20 - 2 * cut_m[0]!, 9)
    expect(freeSpools(begun(2), 'b')[0]?.left.si).toBe(20)
  })

  it('plans what is uncut anew when a spool has come, and leaves alone what is cut', () => {
    const short = begun(3, '3 m')
    const missing = (inventory: Inventory) =>
      inventory.batches[0]!.pieces.filter(({ spool }) => !spool).length
    expect(missing(short)).toBe(1)
    const cut = setCut(short, 'b', key(0), true)
    const bought = putSpool(cut, { ...shelf()[0]!, id: 'new butt' })
    const planned = replan(bought, 'b')
    expect(missing(planned)).toBe(0)
    expect(planned.batches[0]!.pieces[0]).toEqual(cut.batches[0]!.pieces[0])
  })

  it('puts a finished leader into its wallet, with its joints tied', () => {
    const done = finish(allCut(begun()), 'b', { order: 0, copy: 0 }, into)
    expect(done.stock).toMatchObject([{ formula: 'f', wallet: 'Boat 1', count: 1 }])
    expect(done.batches[0]!.joints).toHaveLength(3)
    expect(finish(done, 'b', { order: 0, copy: 0 }, into)).toBe(done)
  })

  it('counts leaders of one formula in one wallet together', () => {
    const first = finish(allCut(begun()), 'b', { order: 0, copy: 0 }, into)
    const cut = [0, 1, 2].reduce((made, i) => setCut(made, 'b', key(i, 1), true), first)
    const second = finish(cut, 'b', { order: 0, copy: 1 }, { ...into, stockId: 't' })
    expect(second.stock).toMatchObject([{ id: 's', count: 2 }])
    expect(takeFromStock(second, 's', 2).stock[0]?.count).toBe(0)
    expect(() => takeFromStock(second, 's', 3)).toThrow('Only 2 left')
  })

  it('does not finish a leader that lacks pieces', () => {
    expect(() => finish(begun(), 'b', { order: 0, copy: 0 }, into)).toThrow('lacks pieces')
  })

  it('ticks joints on and off', () => {
    const joint = { order: 0, copy: 1, joint: 2 }
    const tied = setTied(begun(), 'b', joint, true)
    expect(tied.batches[0]!.joints).toEqual([joint])
    expect(setTied(tied, 'b', joint, false).batches[0]!.joints).toEqual([])
  })

  it('touches nothing that it was given', () => {
    const inventory = begun()
    const before = structuredClone(inventory)
    finish(allCut(inventory), 'b', { order: 0, copy: 0 }, into)
    replan(inventory, 'b')
    expect(inventory).toEqual(before)
  })
})
