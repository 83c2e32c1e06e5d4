// @vitest-environment node
import 'fake-indexeddb/auto'
import { IDBFactory } from 'fake-indexeddb'
import { createPinia, setActivePinia } from 'pinia'
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest'
import type { Storage } from '../../src/storage'
import { beginBatch, left_m, putSpool, removeSpool, setCut } from '../../src/engine/tying'
import { openStorage } from '../../src/storage'
import { useItems } from '../../src/stores/items'
import { useInventory } from '../../src/stores/inventory'
import { shelf, simple } from '../engine/tying/shelf'

const open: Storage[] = []

/** A tab: stores of its own over the one database. */
async function tab() {
  const opening = openStorage()
  open.push(await opening)
  setActivePinia(createPinia())
  await useItems().start(opening)
  return useInventory()
}

const key = (segment: number) => ({ order: 0, copy: 0, segment })
const orders = [{ formula: 'f', leader: simple, count: 1 }]
const batch = { id: 'b', name: 'Evening', begun: '2026-11-25', orders, spoilage: 0 }
const [butt, mid, tip] = shelf()

async function filled() {
  const inventory = await tab()
  for (const spool of [butt, mid, tip]) inventory.act('spool', (s) => putSpool(s, spool!))
  inventory.act('batch', (s) => beginBatch(s, batch))
  await inventory.settled()
  return inventory
}

const leftOn = (inventory: Awaited<ReturnType<typeof tab>>, id: string) =>
  left_m(inventory.inventory.spools.find((spool) => spool.id === id)!)

beforeEach(() => vi.stubGlobal('indexedDB', new IDBFactory()))
afterEach(async () => {
  await Promise.all(open.splice(0).map((storage) => storage.close()))
  vi.unstubAllGlobals()
})

describe('the shed', () => {
  it('is there again after a reload, with the progress of the batch', async () => {
    const inventory = await filled()
    inventory.act('cut', (s) => setCut(s, 'b', key(0), true))
    await inventory.settled()
    const again = await tab()
    expect(again.inventory.batches[0]?.pieces.map(({ isCut }) => isCut)).toEqual([
      true,
      false,
      false,
    ])
    expect(leftOn(again, 'butt')).toBeLessThan(20)
  })

  it('takes a step back and does it again, spool and batch together', async () => {
    const inventory = await filled()
    inventory.act('cut', (s) => setCut(s, 'b', key(0), true))
    expect(inventory.undoLabel).toBe('cut')
    inventory.undo()
    expect(leftOn(inventory, 'butt')).toBe(20)
    expect(inventory.inventory.batches[0]?.pieces[0]?.isCut).toBe(false)
    inventory.redo()
    await inventory.settled()
    expect(leftOn(await tab(), 'butt')).toBeLessThan(20)
  })

  it('says why a step is refused, and changes nothing', async () => {
    const inventory = await filled()
    inventory.act('short', (s) =>
      putSpool(s, { ...butt!, left: { ...butt!.left, si: 0.1, text: '0.1 m' } }),
    )
    expect(inventory.act('cut', (s) => setCut(s, 'b', key(0), true))).toBe(false)
    expect(inventory.notice).toContain('no longer holds')
    expect(inventory.undoLabel).toBe('short')
  })

  it('in two tabs keeps what both have cut', async () => {
    const one = await filled()
    const two = await tab()
    one.act('cut', (s) => setCut(s, 'b', key(0), true))
    await one.settled()
    two.act('cut', (s) => setCut(s, 'b', key(1), true))
    await two.settled()
    const kept = await tab()
    expect(kept.inventory.batches[0]?.pieces.map(({ isCut }) => isCut)).toEqual([true, true, false])
    expect(leftOn(kept, 'mid')).toBeLessThan(20)
  })

  it('does not take back what another tab has changed since', async () => {
    const one = await filled()
    one.act('cut', (s) => setCut(s, 'b', key(0), true))
    await one.settled()
    const two = await tab()
    two.act('gone', (s) => removeSpool(s, 'butt'))
    await two.settled()
    await vi.waitFor(() => expect(one.inventory.spools).toHaveLength(2))
    one.undo()
    expect(one.notice).toContain('Another tab')
    expect(one.inventory.batches[0]?.pieces[0]?.isCut).toBe(true)
  })

  it('leaves what it cannot read as it lies', async () => {
    const inventory = await filled()
    const odd = { kind: 'spool', version: 99, id: 'odd' }
    await open[0]?.change([
      { kind: 'spool', id: 'odd', file: odd, savedAt: '', basedOn: undefined },
    ])
    const again = await tab()
    expect(again.unreadable.map(({ id }) => id)).toEqual(['odd'])
    again.act('cut', (s) => setCut(s, 'b', key(2), true))
    await again.settled()
    expect((await open[0]?.list('spool'))?.find(({ id }) => id === 'odd')?.file).toEqual(odd)
    await inventory.settled()
  })

  it('works in memory where there is no storage, and says so', async () => {
    setActivePinia(createPinia())
    const inventory = useInventory()
    await useItems().start(Promise.reject(new Error('nothing is kept here')))
    expect(inventory.problem).toBe('nothing is kept here')
    expect(inventory.act('spool', (s) => putSpool(s, butt!))).toBe(true)
    expect(inventory.inventory.spools).toHaveLength(1)
  })
})
