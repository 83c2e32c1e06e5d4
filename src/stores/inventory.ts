import { computed, shallowRef } from 'vue'
import { defineStore } from 'pinia'
import type { Inventory } from '../engine/tying'
import type { InventoryItem } from '../documents'
import type { Storage, StoredItem } from '../storage'
import { readInventoryItem, writeInventoryItem } from '../documents'
import { EMPTY_INVENTORY, InventoryError } from '../engine/tying'
import { messageOf } from '../engine/messageOf'
import { providedStorage } from './provided'
import { now } from './shelf'
import { itemsOf, inventoryOf } from './inventoryItems'

type Step = (inventory: Inventory) => Inventory
type Items = ReadonlyMap<string, InventoryItem>

/** What a step changed: every touched item as it was and as it became; undefined where there was none. */
interface Done {
  readonly label: string
  readonly before: ReadonlyMap<string, InventoryItem | undefined>
  readonly after: ReadonlyMap<string, InventoryItem | undefined>
}

const CHANGED_ELSEWHERE =
  'Another tab has changed this since, so it was not taken back. What is shown is what is kept.'

/** Spools, batches and stock: kept in this browser item by item, every step undoable. */
export const useInventory = defineStore('inventory', () => {
  const inventory = shallowRef<Inventory>(EMPTY_INVENTORY)
  const notice = shallowRef<string>()
  const problem = shallowRef<string>()
  /** Items that this version cannot read; they are left as they lie. */
  const unreadable = shallowRef<readonly StoredItem[]>([])
  const past = shallowRef<readonly Done[]>([])
  const future = shallowRef<readonly Done[]>([])
  const isReady = shallowRef(false)
  const revisions = new Map<string, number>()
  let storage: Storage | undefined
  let starting: Promise<void> | undefined
  /** Writes wait for one another, so that each knows the revision that the one before it gave. */
  let writing: Promise<void> = Promise.resolve()
  let pending = 0

  /** Takes in what is kept; may be asked for again and again. */
  const start = (): Promise<void> => (starting ??= begin())

  async function begin(): Promise<void> {
    try {
      storage = await providedStorage()
      storage?.onChange((change) => {
        if ('shed' in change) writing = writing.then(reload)
      })
      await reload()
    } catch (error) {
      problem.value = messageOf(error)
    }
    isReady.value = true
    globalThis.window?.addEventListener('beforeunload', onLeave)
  }

  /** A page that is closed while a write is under way, or that could keep nothing, asks first. */
  function onLeave(event: BeforeUnloadEvent): void {
    if (pending > 0 || (problem.value !== undefined && past.value.length > 0))
      event.preventDefault()
  }

  async function reload(): Promise<void> {
    if (!storage) return
    const records = await storage.listShed()
    const read = records.map((record) => [record, readInventoryItem(record.file)] as const)
    revisions.clear()
    for (const { id, revision } of records) revisions.set(id, revision)
    unreadable.value = read.flatMap(([record, { ok }]) => (ok ? [] : [record]))
    inventory.value = inventoryOf(read.flatMap(([, result]) => (result.ok ? [result.item] : [])))
  }

  /** Does a step and keeps it; false, with a notice, where the step refuses. */
  function act(label: string, step: Step): boolean {
    const before = itemsOf(inventory.value)
    const next = tried(step)
    if (!next) return false
    const done = difference(label, before, itemsOf(next))
    if (done.after.size === 0) return true
    inventory.value = next
    past.value = [...past.value, done]
    future.value = []
    save(done.after, step)
    return true
  }

  function tried(step: Step): Inventory | undefined {
    notice.value = undefined
    try {
      return step(inventory.value)
    } catch (error) {
      if (!(error instanceof InventoryError)) throw error
      notice.value = error.message
      return undefined
    }
  }

  /** @param again what to do on the newest state where another tab was faster. */
  function save(changed: Done['after'], again: Step): void {
    pending++
    writing = writing.then(async () => {
      try {
        await write(changed, again)
        if (storage) problem.value = undefined
      } catch (error) {
        problem.value = messageOf(error)
      }
      pending--
    })
  }

  async function write(changed: Done['after'], again: Step): Promise<void> {
    if (!storage) return
    const changes = [...changed].map(([id, item]) => ({
      id,
      file: item && writeInventoryItem(item),
      basedOn: revisions.get(id),
    }))
    const result = await storage.changeShed(changes, now())
    if (!result.ok) return retry(again)
    for (const { id } of changes) revisions.delete(id)
    for (const { id, revision } of result.records) revisions.set(id, revision)
  }

  /** Another tab was faster: its state is taken, and the step done once more on top of it. */
  async function retry(again: Step): Promise<void> {
    await reload()
    const before = itemsOf(inventory.value)
    const next = tried(again)
    if (!next) return
    inventory.value = next
    const { after } = difference('', before, itemsOf(next))
    if (after.size > 0) await write(after, again)
  }

  function undo(): void {
    const done = past.value.at(-1)
    if (!done || !replace(done.after, done.before)) return
    past.value = past.value.slice(0, -1)
    future.value = [...future.value, done]
  }

  function redo(): void {
    const done = future.value.at(-1)
    if (!done || !replace(done.before, done.after)) return
    future.value = future.value.slice(0, -1)
    past.value = [...past.value, done]
  }

  /** Puts items in place of others, if those are still there as they were. */
  function replace(from: Done['after'], to: Done['after']): boolean {
    const items = itemsOf(inventory.value)
    const isThere = [...from].every(([id, item]) => isSame(items.get(id), item))
    if (!isThere) {
      notice.value = CHANGED_ELSEWHERE
      past.value = past.value.filter((done) => done.after !== from)
      return false
    }
    notice.value = undefined
    const step = (current: Inventory) => withItems(current, to)
    inventory.value = step(inventory.value)
    save(to, step)
    return true
  }

  /** What an import or a backup brings, added item by item. */
  const put = (label: string, added: readonly InventoryItem[]) =>
    act(label, (current) => withItems(current, new Map(added.map((item) => [item.value.id, item]))))

  return {
    inventory: computed(() => inventory.value),
    isReady: computed(() => isReady.value),
    unreadable: computed(() => unreadable.value),
    problem: computed(() => problem.value),
    notice,
    undoLabel: computed(() => past.value.at(-1)?.label),
    redoLabel: computed(() => future.value.at(-1)?.label),
    start,
    act,
    put,
    undo,
    redo,
    newestRevision: () => Math.max(0, ...revisions.values()),
    /** Is kept when nothing waits to be saved. */
    settled: () => writing,
  }
})

function withItems(inventory: Inventory, changes: Done['after']): Inventory {
  const items = new Map(itemsOf(inventory))
  for (const [id, item] of changes) {
    if (item) items.set(id, item)
    else items.delete(id)
  }
  return inventoryOf([...items.values()])
}

function difference(label: string, before: Items, after: Items): Done {
  const ids = [...new Set([...before.keys(), ...after.keys()])]
  const changed = ids.filter((id) => before.get(id)?.value !== after.get(id)?.value)
  return {
    label,
    before: new Map(changed.map((id) => [id, before.get(id)])),
    after: new Map(changed.map((id) => [id, after.get(id)])),
  }
}

/** Alike as they would be written: after a reload the same item is another object. */
function isSame(a: InventoryItem | undefined, b: InventoryItem | undefined): boolean {
  if (!a || !b) return a === b
  if (a.value === b.value) return true
  return JSON.stringify(writeInventoryItem(a)) === JSON.stringify(writeInventoryItem(b))
}
