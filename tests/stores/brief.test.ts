// @vitest-environment node
import 'fake-indexeddb/auto'
import { IDBFactory } from 'fake-indexeddb'
import { createPinia } from 'pinia'
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest'
import { useBrief } from '../../src/stores/brief'
import { useInUse } from '../../src/stores/inUse'
import { useItems } from '../../src/stores/items'
import { startStores } from '../../src/stores/boot'
import type { Storage } from '../../src/storage'
import { openStorage } from '../../src/storage'
import { q, size } from '../engine/build'
import { storesOf } from './tab'

const open: Storage[] = []

async function tab() {
  const storage = await openStorage()
  open.push(storage)
  const pinia = createPinia()
  await startStores(pinia, Promise.resolve(storage))
  return {
    ...storesOf(pinia),
    brief: useBrief(pinia),
    use: useInUse(pinia),
    items: useItems(pinia),
  }
}

beforeEach(() => {
  vi.stubGlobal('indexedDB', new IDBFactory())
})

afterEach(async () => {
  await Promise.all(open.splice(0).map((storage) => storage.close()))
  vi.unstubAllGlobals()
})

describe('the brief', () => {
  it('is filled in once and there again in the next tab', async () => {
    const { brief, items } = await tab()
    brief.setFly({ fly: { style: 'midge', hook: 22 } })
    brief.setConditions({ water: 'flat', wariness: 'pressured' })
    brief.setOutfit({ fish: q('2 lb', 'mass') })
    brief.setOutfit({ rod: undefined })
    await items.settled()
    const again = await tab()
    await vi.waitFor(() => expect(again.brief.draft.outfit.rod).toBeUndefined())
    expect(again.brief.draft).toEqual(brief.draft)
    expect(again.brief.draft.fly.fly).toEqual({ style: 'midge', hook: 22 })
  })

  it('its leader goes to the bench as a formula of its own, with the brief in it', async () => {
    const { brief, bench, library } = await tab()
    brief.setConditions({ water: 'flat' })
    const advice = brief.adviceFor(brief.draft, 'For the flat')
    expect(await brief.openOnBench(advice.tries[0]!)).toBe(true)
    expect(bench.leader.name).toBe('For the flat (brief)')
    expect(bench.leader.brief).toMatchObject({ water: 'flat', wind: 'calm' })
    expect(library.entries.filter((e) => !e.shipped)).toHaveLength(1)
    expect(bench.leader.tip.fly).toEqual(brief.draft.fly)
  })

  it('starts from own formulas too', async () => {
    const { brief, library } = await tab()
    const { from } = brief.adviceFor(brief.draft, 'x').tries[0]!
    await library.add({ ...from.leader, name: 'Mine' })
    const ids = library.entries.map((e) => e.id)
    expect(ids).toContain(brief.adviceFor(brief.draft, 'x').tries[0]!.from.id)
  })

  it('a fly put in the box stays, and one taken out can be put back', async () => {
    const { brief, items } = await tab()
    brief.putFly('Small dark', { fly: { style: 'midge', hook: 24 } })
    await items.settled()
    const again = await tab()
    expect(again.brief.box.map((f) => f.name)).toEqual(['Small dark'])
    const restore = again.brief.removeFly(again.brief.box[0]!)
    expect(again.brief.box).toEqual([])
    restore()
    expect(again.brief.box.map((f) => f.name)).toEqual(['Small dark'])
  })

  it('the reel is kept', async () => {
    const { brief, items } = await tab()
    brief.setReel({ arbor: q('30 mm') })
    brief.setReel({ backing: 'braid-30' })
    await items.settled()
    expect((await tab()).brief.reel).toEqual({ arbor: q('30 mm'), backing: 'braid-30' })
  })
})

describe('a leader in use', () => {
  it('is not there until one is started', async () => {
    const { use } = await tab()
    expect(use.inUse).toBeUndefined()
    use.changeFly()
    use.undo()
    expect(use.status).toBeUndefined()
  })

  it('keeps what happens, across tabs, and takes back the last', async () => {
    const { use, bench, items } = await tab()
    use.start(bench.leader)
    const began = use.status!.tippet_m
    use.changeFly()
    use.breakOff()
    expect(use.status!.tippet_m).toBeCloseTo(began - 9 * 0.0254, 6)
    use.undo()
    expect(use.status!.tippet_m).toBeCloseTo(began - 3 * 0.0254, 6)
    await items.settled()
    const again = await tab()
    await vi.waitFor(() => expect(again.use.inUse?.events).toHaveLength(1))
    expect(again.use.status?.tippet_m).toBe(use.status!.tippet_m)
  })

  it('what was tied on in one go is taken back in one go', async () => {
    const { use, bench } = await tab()
    use.start(bench.leader)
    const piece = {
      material: 'nylon-supple',
      diameter: size('5X'),
      length: q('20 in'),
      knot: 'surgeons-triple',
    } as const
    use.add([piece, piece], true)
    expect(use.inUse?.events.map((e) => e.kind)).toEqual(['replaced', 'added'])
    use.undo()
    expect(use.inUse?.events).toEqual([])
  })

  it('clips what the angler says it clips', async () => {
    const { use, bench } = await tab()
    use.start(bench.leader)
    use.set({ clip: q('2 in') })
    const began = use.status!.tippet_m
    use.changeFly()
    expect(began - use.status!.tippet_m).toBeCloseTo(0.0508, 6)
  })
})
