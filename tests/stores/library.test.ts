// @vitest-environment node
import 'fake-indexeddb/auto'
import { IDBFactory } from 'fake-indexeddb'
import { readdirSync } from 'node:fs'
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest'
import { problemText, readFormulaText, writeFormula } from '../../src/documents'
import { startingLeader } from '../../src/stores/startingLeader'
import { get, list, put, putAll } from '../support/formulaStorage'
import { closeTabs, FIRST, openTab } from './tab'

const leader = (name: string) => startingLeader(name)
const damaged = (id: string) => ({
  id,
  savedAt: '2025-05-01T08:00:00.000Z',
  file: { name: 'Damaged', segments: 'gone' },
})

beforeEach(() => {
  vi.stubGlobal('indexedDB', new IDBFactory())
})

afterEach(async () => {
  vi.restoreAllMocks()
  await closeTabs()
  vi.unstubAllGlobals()
})

describe('shipped formulas', () => {
  it('are all listed, and every one of them reads', async () => {
    const { library } = await openTab()
    const files = readdirSync('formulas').filter((file) => file.endsWith('.json'))
    const ids = files.map((file) => `shipped:${file.replace('.json', '')}`)
    expect(library.entries.map(({ id }) => id).sort()).toEqual(ids.sort())
    expect(ids).toContain(FIRST)
    const problems = library.entries.flatMap(({ id, problem = [] }) =>
      problem.map((each) => `${id}: ${problemText(each)}`),
    )
    expect(problems).toEqual([])
  })

  it('cannot be removed or renamed', async () => {
    const { library } = await openTab()
    const before = library.entries
    await library.remove([FIRST])
    await library.rename(FIRST, 'Another')
    expect(library.entries).toEqual(before)
  })
})

describe('own formulas', () => {
  it('are listed with what the library shows of them', async () => {
    const { library } = await openTab()
    const id = await library.add(leader('Evening Rise'))
    const entry = library.entries.find((each) => each.id === id)
    expect(entry).toMatchObject({
      shipped: false,
      name: 'Evening Rise',
      purpose: 'general-dry',
      materials: ['nylon-stiff', 'nylon-supple'],
      segments: 6,
    })
    expect(entry?.total_m).toBeCloseTo(108 * 0.0254, 9)
    expect(entry?.tippet_m).toBeCloseTo(0.007 * 0.0254, 9)
    expect(entry?.searchText).toContain('evening rise')
  })

  it('are there again after a reload', async () => {
    const id = await (await openTab()).library.add(leader('Kept'))
    expect((await openTab()).library.leaderOf(id)).toEqual(leader('Kept'))
  })

  it('are renamed and duplicated, each copy under a name of its own', async () => {
    const { library } = await openTab()
    const id = await library.add(leader('One'))
    await library.rename(id, 'Two')
    const copies = [await library.duplicate(id), await library.duplicate(id)]
    const names = [id, ...copies].map((each) => library.leaderOf(each ?? '')?.name)
    expect(names).toEqual(['Two', 'Two (copy)', 'Two (copy 2)'])
  })

  it('are renamed on top of what another tab has written meanwhile', async () => {
    const { library, storage } = await openTab()
    const id = await library.add(leader('One'))
    const { revision } = (await get(storage, id)) ?? { revision: 0 }
    const file = writeFormula({ ...leader('One'), notes: 'by the other tab' })
    await put(storage, { id, basedOn: revision, savedAt: '', file })
    await library.rename(id, 'Two')
    expect(library.leaderOf(id)).toMatchObject({ name: 'Two', notes: 'by the other tab' })
  })

  it('are removed and restored as they were', async () => {
    const { library, storage } = await openTab()
    const ids = await library.addAll([leader('One'), leader('Two')])
    const before = await list(storage)
    const restore = await library.remove(ids)
    expect(await list(storage)).toEqual([])
    await restore()
    const after = await list(storage)
    expect(after.map(({ revision: _, ...rest }) => rest)).toEqual(
      before.map(({ revision: _, ...rest }) => rest),
    )
    expect(library.leaderOf(ids[0] ?? '')?.name).toBe('One')
  })

  it('that come back under a taken id get another', async () => {
    const { library, storage } = await openTab()
    const id = await library.add(leader('Removed'))
    const restore = await library.remove([id])
    await put(storage, { ...damaged(id), basedOn: undefined })
    await restore()
    expect(await list(storage)).toHaveLength(2)
    expect(library.search({ text: 'removed' })).toHaveLength(1)
  })

  it('are not removed where another tab has changed them, and the library says so', async () => {
    const { library, storage } = await openTab()
    const id = await library.add(leader('One'))
    const { revision } = (await get(storage, id)) ?? { revision: 0 }
    const file = writeFormula(leader('Changed elsewhere'))
    await put(storage, { id, basedOn: revision, savedAt: '', file })
    await library.remove([id])
    expect(library.notice).toContain('not removed')
    expect(library.leaderOf(id)?.name).toBe('Changed elsewhere')
  })

  it('that another tab adds or removes appear and go', async () => {
    const [one, two] = [await openTab(), await openTab()]
    const id = await one.library.add(leader('From one'))
    await vi.waitFor(() => expect(two.library.leaderOf(id)?.name).toBe('From one'))
    await one.library.remove([id])
    await vi.waitFor(() => expect(two.library.leaderOf(id)).toBeUndefined())
  })
})

describe('word of a formula that is known already', () => {
  it('changes nothing, so that it is not read again', async () => {
    const [one, two] = [await openTab(), await openTab()]
    const id = await one.library.add(leader('Known'))
    const before = one.library.formulaOf(id)
    const channel = new BroadcastChannel('taperwright')
    channel.postMessage({ items: [{ kind: 'formula', id }] })
    const later = await two.library.add(leader('Later'))
    await vi.waitFor(() => expect(one.library.leaderOf(later)).toBeDefined())
    expect(one.library.formulaOf(id)).toBe(before)
    channel.close()
  })
})

describe('a stored formula that does not read', () => {
  it('is listed with its problems, found by name and exported as it lies', async () => {
    const first = await openTab()
    await putAll(first.storage, [damaged('x')])
    const { library } = await openTab()
    const [entry] = library.search({ text: 'damaged' })
    expect(entry).toMatchObject({ id: 'x', name: 'Damaged', purpose: null, total_m: null })
    expect(entry?.problem?.length).toBeGreaterThan(0)
    expect(JSON.parse(library.exportText(['x']))).toEqual(damaged('x').file)
    await library.rename('x', 'Other')
    expect(JSON.parse(library.exportText(['x']))).toEqual(damaged('x').file)
  })
})

describe('export and import', () => {
  it('one formula goes out as its file', async () => {
    const { library } = await openTab()
    const id = await library.add(leader('One'))
    expect(readFormulaText(library.exportText([id]))).toEqual({ ok: true, leader: leader('One') })
  })

  it('several go out as a set that comes back the same, and nothing is stored by reading', async () => {
    const { library, storage } = await openTab()
    const ids = await library.addAll([leader('One'), leader('Two')])
    const text = library.exportText(ids)
    const imported = library.importText('set.json', text)
    expect(imported).toEqual({ leaders: [leader('One'), leader('Two')], problems: [] })
    expect(await list(storage)).toHaveLength(2)
    await library.addAll(imported.leaders)
    expect(await list(storage)).toHaveLength(4)
  })
})
