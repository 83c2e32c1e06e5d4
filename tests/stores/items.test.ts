// @vitest-environment node
import 'fake-indexeddb/auto'
import { IDBFactory } from 'fake-indexeddb'
import { createPinia, setActivePinia } from 'pinia'
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest'
import type { Lesson } from '../../src/documents/lesson'
import type { Storage } from '../../src/storage'
import { beginBatch, putSpool, setCut } from '../../src/engine/tying'
import { openStorage } from '../../src/storage'
import { unreadableItems } from '../../src/stores/backup'
import { startStores } from '../../src/stores/boot'
import { useBrief } from '../../src/stores/brief'
import { useInUse } from '../../src/stores/inUse'
import { useInventory } from '../../src/stores/inventory'
import { useItems } from '../../src/stores/items'
import { useLessons } from '../../src/stores/lessons'
import { useLibrary } from '../../src/stores/library'
import { useSettings } from '../../src/stores/settings'
import { soundLeader } from '../engine/build'
import { shelf, simple } from '../engine/tying/shelf'
import { seeded } from '../support/seeded'

type News = 'working' | 'delayed' | 'dead'
const open: Storage[] = []

/** One tab over the storage that all share; what it hears of the others may come late, or never. */
async function openTab(news: News = 'working', change: (storage: Storage) => void = () => {}) {
  const storage = await openStorage()
  open.push(storage)
  const onChange = storage.onChange.bind(storage)
  if (news === 'dead') storage.onChange = () => () => undefined
  if (news === 'delayed')
    storage.onChange = (listener) => onChange((each) => setTimeout(() => listener(each), 20))
  change(storage)
  const pinia = createPinia()
  setActivePinia(pinia)
  await startStores(pinia, Promise.resolve(storage))
  const items = useItems(pinia)
  return {
    storage,
    items,
    library: useLibrary(pinia),
    brief: useBrief(pinia),
    inUse: useInUse(pinia),
    inventory: useInventory(pinia),
    lessons: useLessons(pinia),
    settings: useSettings(pinia),
  }
}

const LESSON: Lesson = {
  title: 'Own',
  question: 'Which goes over?',
  predictions: ['A', 'B'],
  shows: 0,
  leaders: ['A', 'B'].map((label) => ({ label, formula: 'saturday-class-even-taper' })),
  cast: {},
  look: 'Look.',
  seen: 'Seen.',
  why: ['Why.'],
  exercise: 'Cast.',
  claims: [],
}

beforeEach(() => vi.stubGlobal('indexedDB', new IDBFactory()))
afterEach(async () => {
  await Promise.all(open.splice(0).map((storage) => storage.close()))
  vi.unstubAllGlobals()
  vi.restoreAllMocks()
})

describe('two tabs', () => {
  it.each(['working', 'delayed', 'dead'] as const)(
    'lose none of 1,000 interleaved actions on every kind of kept thing, with the news %s',
    async (news) => {
      const first = await openTab(news)
      first.inUse.start(soundLeader())
      const [spool] = shelf()
      first.inventory.act('spool', (s) => putSpool(s, spool!))
      await first.items.settled()
      const tabs = [first, await openTab(news)]
      const random = seeded(20_261_126)
      const told = {
        events: 0,
        lessons: 0,
        flies: 0,
        formulas: 0,
        limits: new Set<string>(),
        spools: new Set(['butt']),
      }
      for (let i = 0; i < 1000; i++) {
        const tab = tabs[random() < 0.5 ? 0 : 1]!
        const what = Math.floor(random() * 7)
        if (what === 0) {
          tab.inUse.changeFly()
          told.events++
        } else if (what === 1) {
          tab.lessons.keep({ ...LESSON, title: `Own ${i}` })
          told.lessons++
        } else if (what === 2) {
          tab.brief.putFly(`Fly ${i}`, { fly: { style: 'midge', hook: 20 } })
          told.flies++
        } else if (what === 3) {
          tab.brief.setReel({ holdsBacking: `${i} m` })
          tab.brief.setConditions({ wind: i % 2 ? 'calm' : 'breeze' })
        } else if (what === 6) {
          void tab.library.add({ ...soundLeader(), name: `Own ${i}` })
          told.formulas++
        } else if (what === 4) {
          const id = (['stepSize', 'rodsHigh', 'tippetLongest', 'fishPull'] as const)[i % 4]!
          tab.settings.setLimit(id, i)
          told.limits.add(id)
        } else {
          const id = `spool ${i}`
          tab.inventory.act('spool', (s) => putSpool(s, { ...spool!, id }))
          told.spools.add(id)
        }
        // Now and then a tab comes to rest; mostly both are in the middle of something.
        if (random() < 0.05) await tab.items.settled()
      }
      await Promise.all(tabs.map(({ items }) => items.settled()))
      const third = await openTab()
      await vi.waitFor(() =>
        expect(Object.keys(third.settings.limits)).toHaveLength(told.limits.size),
      )
      expect(told.events).toBeGreaterThan(100)
      expect(third.inUse.inUse?.events).toHaveLength(told.events)
      expect(third.lessons.entries.filter(({ isOwn }) => isOwn)).toHaveLength(told.lessons)
      expect(third.brief.box).toHaveLength(told.flies)
      expect(third.library.entries.filter(({ shipped }) => !shipped)).toHaveLength(told.formulas)
      expect(new Set(third.inventory.inventory.spools.map(({ id }) => id))).toEqual(told.spools)
    },
  )

  it('change two fields of one brief, and both changes are kept', async () => {
    const [one, two] = [await openTab('dead'), await openTab('dead')]
    one.brief.setConditions({ water: 'flat' })
    two.brief.setConditions({ wind: 'breeze' })
    await one.items.settled()
    await two.items.settled()
    expect((await openTab()).brief.draft.conditions).toMatchObject({
      water: 'flat',
      wind: 'breeze',
    })
  })

  it('cut from one spool in turn, and every cut is taken off', async () => {
    const one = await openTab('dead')
    one.inventory.act('spool', (s) => putSpool(s, shelf()[0]!))
    await one.items.settled()
    const two = await openTab('dead')
    const take = (tab: typeof one) =>
      tab.inventory.act('cut', (s) => ({
        ...s,
        spools: s.spools.map((each) => ({ ...each, taken_m: each.taken_m + 1 })),
      }))
    for (let i = 0; i < 5; i++) {
      take(one)
      take(two)
    }
    await two.items.settled()
    await one.items.settled()
    await two.items.settled()
    expect((await openTab()).inventory.inventory.spools[0]?.taken_m).toBe(10)
  })
})

describe('storage that fails', () => {
  it('once while reading: later steps are kept, and what was wrong is no longer said', async () => {
    let fails = 1
    const tab = await openTab('working', (storage) => {
      const list = storage.list.bind(storage)
      storage.list = (kind) => (fails-- > 0 ? Promise.reject(new Error('no read')) : list(kind))
    })
    tab.inventory.act('spool', (s) => putSpool(s, shelf()[0]!))
    await tab.items.settled()
    expect(tab.items.problem.value).toBeUndefined()
    expect(await tab.storage.list('spool')).toHaveLength(1)
  })

  it('while writing: says so, keeps what waits in sight, and tries again by itself', async () => {
    let fails = 2
    const tab = await openTab('working', (storage) => {
      const change = storage.change.bind(storage)
      storage.change = (changes) =>
        fails-- > 0 ? Promise.reject(new Error('no room')) : change(changes)
    })
    vi.useFakeTimers({ toFake: ['setTimeout', 'clearTimeout'] })
    tab.inventory.act('spool', (s) => putSpool(s, shelf()[0]!))
    await tab.items.settled()
    expect(tab.items.problem.value).toBe('no room')
    expect(tab.items.unkept.value.size).toBe(1)
    expect(tab.inventory.inventory.spools).toHaveLength(1)
    await vi.advanceTimersByTimeAsync(1000)
    await tab.items.settled()
    expect(tab.items.problem.value).toBe('no room')
    await vi.advanceTimersByTimeAsync(60_000)
    vi.useRealTimers()
    await tab.items.settled()
    expect(tab.items.problem.value).toBeUndefined()
    expect(tab.items.unkept.value.size).toBe(0)
    expect(await tab.storage.list('spool')).toHaveLength(1)
  })

  it('that writes something else than it was given is not called saved', async () => {
    const tab = await openTab()
    // A disk that spoils what it was given: the record is written over between writing and reading back.
    const spoiled = vi.spyOn(IDBObjectStore.prototype, 'put').mockImplementation(function (
      this: IDBObjectStore,
      value: { file?: unknown },
    ) {
      return this.name === 'items' ? this.add({ ...value, file: { kind: 'lost' } }) : this.get('x')
    })
    tab.inventory.act('spool', (s) => putSpool(s, shelf()[0]!))
    await tab.items.settled()
    spoiled.mockRestore()
    expect(tab.items.problem.value).toContain('could not keep')
    expect(tab.items.unkept.value.size).toBe(1)
  })

  it('opened late: what was changed meanwhile is a change of what is kept, not in its place', async () => {
    const before = await openTab()
    before.brief.setConditions({ water: 'flat' })
    await before.items.settled()
    let release = () => {}
    const pinia = createPinia()
    const storage = await openStorage()
    open.push(storage)
    const late = new Promise<Storage>((resolve) => (release = () => resolve(storage)))
    void startStores(pinia, late)
    const brief = useBrief(pinia)
    brief.setConditions({ wind: 'breeze' })
    expect(brief.draft.conditions.wind).toBe('breeze')
    release()
    await useItems(pinia).settled()
    expect(brief.draft.conditions).toMatchObject({ water: 'flat', wind: 'breeze' })
  })
})

describe('what cannot be read', () => {
  it('stays as it lies beside what is made since', async () => {
    const first = await openTab()
    const file = { from: 'tomorrow' }
    const of = { kind: 'brief', id: 'brief', savedAt: '', basedOn: undefined }
    await first.storage.change([{ ...of, file }])
    const tab = await openTab()
    tab.brief.setConditions({ wind: 'breeze' })
    await tab.items.settled()
    expect((await tab.storage.get({ kind: 'brief', id: 'brief' }))?.file).toEqual(file)
    const again = await openTab()
    expect(again.brief.draft.conditions.wind).toBe('breeze')
    expect(unreadableItems().map(({ id }) => id)).toEqual(['brief'])
  })

  it('is refused before it is kept, saying what would be accepted', async () => {
    const tab = await openTab()
    const note = 'x'.repeat(20_001)
    expect(tab.inventory.act('spool', (s) => putSpool(s, { ...shelf()[0]!, note }))).toBe(false)
    expect(tab.inventory.notice).toContain('at most 20000 characters')
    expect(tab.inventory.inventory.spools).toEqual([])
    tab.lessons.keep({ ...LESSON, title: 'x'.repeat(20_001) })
    expect(tab.items.problem.value).toContain('Not kept')
    expect(tab.lessons.entries.filter(({ isOwn }) => isOwn)).toEqual([])
  })
})

describe('a batch', () => {
  it('is ticked in two tabs at once, and both ticks stand and are off the spool', async () => {
    const one = await openTab('dead')
    const orders = [{ formula: 'x', leader: simple, count: 2 }]
    one.inventory.act('shelf', (s) => shelf().reduce((all, spool) => putSpool(all, spool), s))
    one.inventory.act('batch', (s) =>
      beginBatch(s, { id: 'b', name: 'b', begun: '2026-11-26', orders, spoilage: 0 }),
    )
    await one.items.settled()
    const two = await openTab('dead')
    for (const [tab, copy] of [
      [one, 0],
      [two, 1],
    ] as const)
      tab.inventory.act('cut', (s) => setCut(s, 'b', { order: 0, copy, segment: 0 }, true))
    await Promise.all([one.items.settled(), two.items.settled()])
    const { batches, spools } = (await openTab()).inventory.inventory
    const cut = batches[0]!.pieces.filter((piece) => piece.isCut)
    expect(cut).toHaveLength(2)
    const butt = spools.find(({ id }) => id === 'butt')!
    expect(butt.taken_m).toBeCloseTo(2 * cut[0]!.cut_m, 9)
  })
})
