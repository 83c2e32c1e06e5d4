// @vitest-environment node
import 'fake-indexeddb/auto'
import { IDBFactory } from 'fake-indexeddb'
import fc from 'fast-check'
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest'
import type { Leader } from '../../src/engine/leader'
import type { Storage } from '../../src/storage'
import { put } from '../support/formulaStorage'
import { closeTabs, FIRST, openTab, openTabWithoutStorage } from './tab'

const noted = (notes: string) => (leader: Leader) => ({ ...leader, notes })
const notesOf = (leader: Leader | undefined) => leader?.notes

type Tab = Awaited<ReturnType<typeof openTab>>

/** A tab with an own formula on the bench that is stored. */
async function tabWithOwn(notes = 'first'): Promise<Tab> {
  const tab = await openTab()
  tab.bench.edit('Notes', noted(notes))
  await tab.bench.settled()
  return tab
}

async function storedNotes(tab: Tab): Promise<(string | undefined)[]> {
  const stored = await tab.storage.list()
  return stored.map(({ file }) => (file as { notes?: string }).notes).sort()
}

type Result = Awaited<ReturnType<Storage['change']>>

const turn = () => new Promise<void>((resolve) => setTimeout(resolve))

/** Writes of a tab, of which each waits to be let through, and the notes that storage has. */
function writesByHand({ storage }: Tab, notes?: string) {
  const change = storage.change.bind(storage)
  const waiting: (() => Promise<unknown>)[] = []
  let kept = notes
  vi.spyOn(storage, 'change').mockImplementation(
    (changes) =>
      new Promise((resolve, reject) => {
        const write = change.bind(storage, changes)
        waiting.push(() => write().then(note).then(resolve, reject))
      }),
  )
  function note(result: Result): Result {
    if (result.ok) kept = (result.records[0]?.file as { notes?: string }).notes
    return result
  }
  async function letOne(): Promise<void> {
    await turn()
    await waiting.shift()?.()
    await turn()
  }
  return { begun: turn, letOne, kept: () => kept }
}

const ACTS = ['edit', 'undo', 'redo', 'write'] as const

beforeEach(() => {
  vi.stubGlobal('indexedDB', new IDBFactory())
})

afterEach(async () => {
  vi.restoreAllMocks()
  await closeTabs()
  vi.unstubAllGlobals()
})

describe('a shipped formula', () => {
  it('becomes an own copy at the first edit and stays as it was', async () => {
    const { bench, library } = await openTab()
    const shipped = bench.leader
    expect(bench.isShipped).toBe(true)
    bench.edit('Notes', noted('mine'))
    await bench.settled()
    expect(bench.isShipped).toBe(false)
    expect(bench.leader.name).toBe(`${shipped.name} (mine)`)
    expect(bench.notice).toContain('own copy')
    expect(library.leaderOf(FIRST)).toEqual(shipped)
    expect(notesOf(library.leaderOf(bench.id))).toBe('mine')
  })

  it('gives each further copy a name of its own', async () => {
    const { bench } = await tabWithOwn()
    const first = bench.leader.name
    bench.open(FIRST)
    bench.edit('Notes', noted('second'))
    expect(bench.leader.name).toBe(first.replace('(mine)', '(mine 2)'))
  })

  it('keeps the name the first edit gives it', async () => {
    const { bench } = await openTab()
    bench.edit('Name', (leader) => ({ ...leader, name: 'Evening rise' }))
    expect(bench.leader.name).toBe('Evening rise')
  })

  it('is not copied by an edit that changes nothing', async () => {
    const { bench, library } = await openTab()
    bench.edit('Notes', (leader) => ({ ...leader }))
    await bench.settled()
    expect(bench.isShipped).toBe(true)
    expect(library.entries.every(({ shipped }) => shipped)).toBe(true)
  })
})

describe('saving', () => {
  it('keeps what stands on the bench after every edit, undo and redo', async () => {
    const tab = await tabWithOwn('one')
    tab.bench.edit('Notes', noted('two'))
    expect(tab.bench.saveState).toBe('saving')
    await tab.bench.settled()
    expect(tab.bench.saveState).toBe('saved')
    expect(await storedNotes(tab)).toEqual(['two'])
    tab.bench.undo()
    await tab.bench.settled()
    expect(await storedNotes(tab)).toEqual(['one'])
  })

  it('has one write under way and lets only the newest wait', async () => {
    const tab = await tabWithOwn()
    const change = vi.spyOn(tab.storage, 'change')
    for (let i = 1; i <= 20; i++) tab.bench.edit('Notes', noted(`${i}`))
    await tab.bench.settled()
    expect(change.mock.calls.length).toBeLessThanOrEqual(2)
    expect(await storedNotes(tab)).toEqual(['20'])
  })

  it('is said to be done only once the newest has been read back', async () => {
    const tab = await tabWithOwn('one')
    const writes = writesByHand(tab)
    tab.bench.edit('Notes', noted('two'))
    await writes.letOne()
    expect(tab.bench.saveState).toBe('saved')
    tab.bench.undo()
    await writes.begun()
    tab.bench.redo()
    await writes.letOne()
    expect(writes.kept()).toBe('one')
    expect(tab.bench.saveState).toBe('saving')
    await writes.letOne()
    expect(writes.kept()).toBe('two')
    expect(tab.bench.saveState).toBe('saved')
  })

  it('is said of nothing but what storage has, whatever is done while it writes', async () => {
    await fc.assert(
      fc.asyncProperty(fc.array(fc.constantFrom(...ACTS), { maxLength: 30 }), async (acts) => {
        vi.stubGlobal('indexedDB', new IDBFactory())
        const tab = await tabWithOwn('start')
        const writes = writesByHand(tab, 'start')
        for (const [i, act] of acts.entries()) {
          if (act === 'edit') tab.bench.edit('Notes', noted(`${i}`))
          else if (act === 'write') await writes.letOne()
          else tab.bench[act]()
          if (tab.bench.saveState === 'saved') expect(writes.kept()).toBe(tab.bench.leader.notes)
          else expect(tab.bench.saveState).toBe('saving')
        }
        await closeTabs()
      }),
      { numRuns: 100 },
    )
  })

  it('goes on for a leader that has left the bench', async () => {
    const tab = await tabWithOwn()
    tab.bench.edit('Notes', noted('last word'))
    tab.bench.open(FIRST)
    await tab.bench.settled()
    expect(await storedNotes(tab)).toEqual(['last word'])
  })

  it('does not keep a new leader nobody has touched', async () => {
    const tab = await openTab()
    tab.bench.openNew()
    await tab.bench.settled()
    expect(tab.bench.evaluation.checks.findings).toEqual([])
    expect(await tab.storage.list()).toEqual([])
  })
})

describe('opening', () => {
  it('keeps the undo history of every leader', async () => {
    const { bench } = await tabWithOwn()
    const own = bench.id
    bench.open(FIRST)
    expect(bench.canUndo).toBe(false)
    bench.open(own)
    expect(bench.undoLabel).toBe('Notes')
  })

  it('says when a formula cannot be opened, and leaves the bench as it is', async () => {
    const { bench } = await openTab()
    expect(bench.open('no such formula')).toBe(false)
    expect(bench.notice).toContain('cannot be opened')
    expect(bench.id).toBe(FIRST)
  })
})

describe('without storage', () => {
  it('everything works in memory and the bench says that it is not kept', async () => {
    const { bench, library } = await openTabWithoutStorage()
    expect(bench.storageProblem).toContain('export your formulas')
    bench.edit('Notes', noted('mine'))
    await bench.settled()
    expect(bench.saveState).toBe('not-kept')
    const { id } = bench
    bench.open(FIRST)
    bench.open(id)
    expect(notesOf(library.leaderOf(id))).toBe('mine')
    expect(library.exportText([id])).toContain('"mine"')
    await library.remove([id])
    expect(library.leaderOf(id)).toBeUndefined()
  })

  it('that fails for a while, what was not kept is kept with the next save', async () => {
    const tab = await tabWithOwn('kept')
    vi.spyOn(tab.storage, 'change').mockRejectedValueOnce(new Error('full'))
    tab.bench.edit('Notes', noted('not kept'))
    await tab.bench.settled()
    expect(tab.bench.saveState).toBe('not-kept')
    const refused = tab.bench.id
    tab.bench.openNew()
    tab.bench.edit('Notes', noted('another'))
    await vi.waitFor(async () => expect(await storedNotes(tab)).toEqual(['another', 'not kept']))
    tab.bench.open(refused)
    expect(tab.bench.saveState).toBe('saved')
    expect(tab.bench.storageProblem).toBeUndefined()
  })
})

/** Two tabs with one formula open in both; the second has not heard of what the first does now. */
async function twoTabs(): Promise<[Tab, Tab]> {
  const one = await tabWithOwn('old')
  const two = await openTab()
  expect(two.bench.id).toBe(one.bench.id)
  return [one, two]
}

/** Both write at the same time; the second finds its write refused. */
async function conflict(): Promise<[Tab, Tab]> {
  const [one, two] = await twoTabs()
  one.bench.edit('Notes', noted('by one'))
  two.bench.edit('Notes', noted('by two'))
  await Promise.all([one.bench.settled(), two.bench.settled()])
  const refused = one.bench.saveState === 'conflict' ? one : two
  return refused === one ? [two, one] : [one, two]
}

describe('two tabs with one formula', () => {
  it('keep both texts stored before anybody has chosen', async () => {
    const [, refused] = await conflict()
    expect(refused.bench.saveState).toBe('conflict')
    expect(await storedNotes(refused)).toEqual(['by one', 'by two'])
  })

  it('keep both when mine is chosen', async () => {
    const [winner, refused] = await conflict()
    const mine = notesOf(refused.bench.leader)
    expect(notesOf(refused.bench.conflict?.theirs)).toBe(notesOf(winner.bench.leader))
    refused.bench.keepMine()
    expect(refused.bench.conflict).toBeUndefined()
    expect(refused.bench.saveState).toBe('saved')
    expect(notesOf(refused.bench.leader)).toBe(mine)
    expect(refused.bench.id).not.toBe(winner.bench.id)
    expect(await storedNotes(refused)).toEqual(['by one', 'by two'])
  })

  it('have mine in the undo history when theirs is chosen', async () => {
    const [winner, refused] = await conflict()
    const mine = notesOf(refused.bench.leader)
    await refused.bench.takeTheirs()
    expect(refused.bench.id).toBe(winner.bench.id)
    expect(notesOf(refused.bench.leader)).toBe(notesOf(winner.bench.leader))
    expect(await refused.storage.list()).toHaveLength(1)
    refused.bench.undo()
    await refused.bench.settled()
    expect(refused.bench.saveState).toBe('saved')
    expect(notesOf(refused.library.leaderOf(winner.bench.id))).toBe(mine)
  })

  it('go on saving the own copy while the choice is open', async () => {
    const [, refused] = await conflict()
    refused.bench.edit('Notes', noted('further'))
    await refused.bench.settled()
    expect(refused.bench.saveState).toBe('conflict')
    expect(await storedNotes(refused)).toContain('further')
  })

  it('follow each other where nothing is unsaved, and undo goes back', async () => {
    const [one, two] = await twoTabs()
    one.bench.edit('Notes', noted('newer'))
    await vi.waitFor(() => expect(notesOf(two.bench.leader)).toBe('newer'))
    expect(two.bench.notice).toContain('Another tab')
    expect(two.bench.saveState).toBe('saved')
    two.bench.undo()
    await two.bench.settled()
    expect(two.bench.saveState).toBe('saved')
    expect(await storedNotes(two)).toEqual(['old'])
  })

  it('keep a removed formula again when it is changed', async () => {
    const [one, two] = await twoTabs()
    await one.library.remove([one.bench.id])
    await vi.waitFor(() => expect(two.bench.notice).toContain('deleted'))
    two.bench.edit('Notes', noted('still wanted'))
    await two.bench.settled()
    expect(two.bench.notice).toContain('kept it again')
    expect(await storedNotes(two)).toEqual(['still wanted'])
  })

  it('leave alone what a newer version has written', async () => {
    const [one, two] = await twoTabs()
    const [stored] = await one.storage.list()
    if (!stored) throw new Error('nothing stored')
    const file = { ...(stored.file as object), version: 99 }
    await put(one.storage, { ...stored, file, basedOn: stored.revision })
    await vi.waitFor(() => expect(two.bench.notice).toContain('Reload'))
    expect(notesOf(two.bench.leader)).toBe('old')
    two.bench.edit('Notes', noted('mine'))
    await two.bench.settled()
    expect(two.bench.conflict).toEqual({ theirs: undefined })
    expect(await storedNotes(two)).toEqual(['mine', 'old'])
  })

  it('hold on to a text that could not be kept, whatever the other tab does', async () => {
    const [one, two] = await twoTabs()
    vi.spyOn(two.storage, 'change').mockRejectedValueOnce(new Error('full'))
    two.bench.edit('Notes', noted('not kept'))
    await two.bench.settled()
    one.bench.edit('Notes', noted('by one'))
    const later = await one.library.add(one.bench.leader)
    await vi.waitFor(() => expect(two.library.leaderOf(later)).toBeDefined())
    expect(notesOf(two.library.leaderOf(two.bench.id))).toBe('not kept')
    await two.library.remove([two.bench.id])
    expect(two.library.notice).toContain('not removed')
    expect(notesOf(two.library.leaderOf(two.bench.id))).toBe('not kept')
  })

  it('lose no text however their edits fall', async () => {
    const [one, two] = await twoTabs()
    for (let i = 0; i < 10; i++) {
      one.bench.edit('Notes', noted(`one ${i}`))
      two.bench.edit('Notes', noted(`two ${i}`))
      if (i % 3 === 0) await Promise.all([one.bench.settled(), two.bench.settled()])
    }
    await Promise.all([one.bench.settled(), two.bench.settled()])
    expect(await storedNotes(one)).toEqual(['one 9', 'two 9'])
  })
})

describe('the library and the bench', () => {
  it('a formula renamed in the library is renamed on the bench, as a step', async () => {
    const tab = await tabWithOwn()
    await tab.library.rename(tab.bench.id, 'Renamed')
    expect(tab.bench.leader.name).toBe('Renamed')
    expect(tab.bench.undoLabel).toBe('Change in the library')
    tab.bench.edit('Notes', noted('after'))
    await tab.bench.settled()
    expect(tab.bench.saveState).toBe('saved')
    expect(await storedNotes(tab)).toEqual(['after'])
  })

  it('a formula removed and restored goes on where it was', async () => {
    const tab = await tabWithOwn()
    const restore = await tab.library.remove([tab.bench.id])
    expect(tab.bench.notice).toContain('deleted')
    await restore()
    tab.bench.edit('Notes', noted('after'))
    await tab.bench.settled()
    expect(tab.bench.saveState).toBe('saved')
    expect(await storedNotes(tab)).toEqual(['after'])
  })
})

describe('editing', () => {
  it('applies an edit given as data', async () => {
    const { bench } = await openTab()
    const before = bench.leader.segments.length
    bench.apply('Remove segment', { kind: 'remove', at: 1 })
    expect(bench.leader.segments).toHaveLength(before - 1)
    expect(bench.evaluation.pieces).toHaveLength(before - 1)
  })

  it('checks against the user’s own limits', async () => {
    const { bench, settings } = await openTab()
    const before = bench.evaluation.checks.findings.length
    settings.setLimit('stepSize', 1e-6)
    expect(bench.evaluation.checks.findings.length).toBeGreaterThan(before)
  })
})
