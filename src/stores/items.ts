import type { ShallowRef } from 'vue'
import { computed, markRaw, shallowRef } from 'vue'
import type { Pinia } from 'pinia'
import { defineStore } from 'pinia'
import type { ItemKey, Origin, Stale, Storage, StoredItem } from '../storage'
import { StorageError } from '../storage/error'
import { recordOf } from '../storage/record'
import { messageOf } from '../engine/messageOf'

/** A text to be kept in place of what is there; one without a file takes the item out. */
export interface Draft extends ItemKey {
  readonly file: unknown
  readonly events?: readonly unknown[] | undefined
  /** Where it is not the time of writing. */
  readonly savedAt?: string
  readonly origin?: Origin
}

/** What is to be changed, computed from the newest state: done anew where another tab was faster. */
export type Step = () => readonly Draft[]

export type Outcome =
  | { readonly state: 'kept'; readonly records: readonly StoredItem[] }
  /** In memory only: storage refused, or there is none. Offered again with the next change. */
  | { readonly state: 'held'; readonly records: readonly StoredItem[] }
  | { readonly state: 'stale'; readonly stale: readonly Stale[] }
  /** Done anew on what another tab has written, the step refused. */
  | { readonly state: 'refused'; readonly error: unknown }

/** Where a change was made: in this tab, by a list of items, or in another. */
export type From = 'here' | 'elsewhere'
type Listener = (key: ItemKey, record: StoredItem | undefined, from: From) => void
type Records = ReadonlyMap<string, StoredItem>

/** A record as it will come to lie, and what its writer says of where it comes from. */
interface Drafted extends StoredItem {
  readonly origin: Origin | undefined
}

/** A step on its way into storage. */
interface Job {
  readonly step: Step
  /** The revision that a text was written for: where another is there, it is told, and nothing is written. */
  readonly exactly: { readonly basedOn: number | undefined } | undefined
  readonly settle: (outcome: Outcome) => void
  drafts: readonly Drafted[]
  isHeld: boolean
}

/** In the place of a record that is not there any more. */
type Gone = ItemKey & { readonly deleted: true }

/** Pauses before what storage refused is offered to it again, ms; the last goes on for ever. */
const PAUSES_MS = [1000, 2000, 5000, 15_000, 60_000] as const

/** Revision of an item that storage has never had. */
const NEVER_STORED = 0

export const newId = () => crypto.randomUUID()
export const now = () => new Date().toISOString()
export const keyOf = ({ kind, id }: ItemKey): string => `${kind} ${id}`

/**
 * Everything that the user keeps, of every kind: what storage has, and above it the steps that are on their
 * way there or that it could not take. Works the same, all in memory, without any storage.
 */
export const useItems = (pinia?: Pinia): Items => useHolder(pinia).items
const useHolder = defineStore('items', () => ({ items: markRaw(new Items()) }))

export class Items {
  /** Why something is not kept, and what to do about it. */
  readonly problem = shallowRef<string>()
  readonly isReady = shallowRef(false)
  /** Keys of items whose newest text storage does not have. */
  readonly unkept: ShallowRef<ReadonlySet<string>> = shallowRef(new Set())
  readonly isWriting = computed(() => this.#waiting.value > 0)
  readonly #waiting = shallowRef(0)
  readonly #shown = new Map<string, ShallowRef<Records>>()
  /** As storage has it; without storage, as it was left. */
  readonly #kept = new Map<string, StoredItem>()
  /** The place of every item in the order of its kind, also of those that were taken out. */
  readonly #made = new Map<string, number>()
  readonly #listeners = new Set<Listener>()
  #jobs: Job[] = []
  #failures = 0
  #later: ReturnType<typeof setTimeout> | undefined
  #opening: Promise<Storage> | undefined
  #storage: Storage | undefined
  #isRead = false
  /** Writes wait for one another, so that each knows the revision that the one before it gave. */
  #queue: Promise<void> = Promise.resolve()

  /** Takes in what storage has, beneath what was changed while it was opening. */
  start(opening: Promise<Storage>): Promise<void> {
    this.#opening = opening
    return this.#enqueue(() => this.#writeAll())
  }

  /** Items of one kind by their ids, in the order in which they were made. */
  records(kind: string): Records {
    return this.#recordsOf(kind).value
  }

  get newestRevision(): number {
    return Math.max(0, ...[...this.#kept.values()].map(({ revision }) => revision))
  }

  /** Everything that is kept, of kinds that this version does not know too. */
  get all(): readonly StoredItem[] {
    return [...this.#shown.values()].flatMap(({ value }) => [...value.values()])
  }

  listen(listener: Listener): void {
    this.#listeners.add(listener)
  }

  tell(key: ItemKey, from: From): void {
    const record = this.records(key.kind).get(key.id)
    for (const listener of this.#listeners) listener(key, record, from)
  }

  /** Is kept when nothing waits to be written. */
  settled = (): Promise<void> => this.#queue

  /** Does a step, shows it at once and keeps it. What the step throws comes through, and nothing is changed. */
  act(step: Step, exactly?: Job['exactly']): Promise<Outcome> {
    const drafts = this.#drafted(step)
    if (drafts.length === 0) return Promise.resolve({ state: 'kept', records: [] })
    return new Promise((settle) => {
      // A newer text of what could not be kept takes its place.
      if (exactly && drafts.every(({ deleted }) => !deleted))
        this.#jobs = this.#jobs.filter((job) => !isOlderText(job, drafts))
      this.#jobs.push({ step, exactly, settle, drafts, isHeld: false })
      this.#show(drafts)
      this.#waiting.value++
      void this.#enqueue(() => this.#writeAll().finally(() => this.#waiting.value--))
    })
  }

  /** A failure is told where it happens; what comes later is done all the same. */
  #enqueue(work: () => Promise<void>): Promise<void> {
    this.#queue = this.#queue.then(work).catch((error: unknown) => this.#fail(error))
    return this.#queue
  }

  #fail(error: unknown): void {
    this.problem.value = messageOf(error)
  }

  #recordsOf(kind: string): ShallowRef<Records> {
    const known = this.#shown.get(kind)
    if (known) return known
    const made: ShallowRef<Records> = shallowRef(new Map())
    this.#shown.set(kind, made)
    return made
  }

  #drafted(step: Step): Drafted[] {
    return step().map((draft) => {
      const before = this.#kept.get(keyOf(draft))
      const change = { ...draft, savedAt: draft.savedAt ?? now() }
      const record = recordOf(change, before, before?.revision ?? NEVER_STORED)
      const made = this.#made.get(keyOf(draft)) ?? Infinity
      return { ...record, made, origin: draft.origin }
    })
  }

  /** Puts records in their places in the lists; those taken out go. */
  #show(records: readonly (StoredItem | Gone)[]): void {
    for (const kind of new Set(records.map((record) => record.kind))) {
      const shown = this.#recordsOf(kind)
      const next = new Map(shown.value)
      for (const record of records.filter((each) => each.kind === kind)) {
        if (record.deleted) next.delete(record.id)
        else next.set(record.id, record)
      }
      const list = [...next].sort(([, a], [, b]) => order(a.made, b.made))
      shown.value = new Map(list)
    }
    this.#note()
  }

  #note(): void {
    const held = this.#jobs.filter(({ isHeld }) => isHeld).flatMap(({ drafts }) => drafts)
    const inMemory = this.#storage ? [] : [...this.#kept.values()]
    this.unkept.value = new Set([...held, ...inMemory].map(keyOf))
  }

  #take(records: readonly StoredItem[]): void {
    for (const record of records) {
      this.#made.set(keyOf(record), record.made)
      if (record.deleted) this.#kept.delete(keyOf(record))
      else this.#kept.set(keyOf(record), record)
    }
  }

  /** Every list anew from what is kept, with the waiting steps done again on top. */
  #redo(): void {
    const jobs = this.#jobs
    this.#jobs = []
    for (const shown of this.#shown.values()) shown.value = new Map()
    this.#show([...this.#kept.values()])
    for (const job of jobs) this.#redoOne(job)
    this.#note()
  }

  #redoOne(job: Job): void {
    try {
      job.drafts = job.exactly ? job.drafts : this.#drafted(job.step)
      if (job.drafts.length === 0) return job.settle({ state: 'kept', records: [] })
      this.#jobs.push(job)
      this.#show(job.drafts)
    } catch (error) {
      job.settle({ state: 'refused', error })
    }
  }

  /** Nothing is written before what was kept has been read. False where there is no storage. */
  async #read(): Promise<boolean> {
    if (!this.#storage) {
      this.#storage = await this.#opened()
      this.#storage?.onChange((change) => {
        if ('items' in change) void this.#enqueue(() => this.#refresh(change.items))
      })
    }
    if (!this.#storage || this.#isRead) return this.#storage !== undefined
    const records = await this.#storage.list()
    this.#isRead = true
    this.#take(records)
    this.#redo()
    return true
  }

  async #opened(): Promise<Storage | undefined> {
    try {
      return await (this.#opening ?? Promise.reject(new StorageError('failed', 'not opened')))
    } catch (error) {
      this.#fail(error)
      return undefined
    }
  }

  async #writeAll(): Promise<void> {
    const isThere = await this.#readOrHold()
    this.isReady.value = true
    if (isThere === undefined) return
    if (!isThere) return this.#keepInMemory()
    const tried = new Set<Job>()
    for (;;) {
      const group = together(this.#jobs, (job) => !tried.has(job))
      if (group.length === 0) break
      for (const job of group) tried.add(job)
      await this.#write(group, tried)
    }
    if (this.unkept.value.size > 0) return
    this.#failures = 0
    this.problem.value = undefined
  }

  /** undefined where storage is there and could not be read. */
  async #readOrHold(): Promise<boolean | undefined> {
    try {
      return await this.#read()
    } catch (error) {
      this.#hold(this.#jobs, error)
      return undefined
    }
  }

  #keepInMemory(): void {
    const jobs = this.#jobs
    this.#jobs = []
    for (const { drafts, settle } of jobs) {
      this.#take(drafts)
      settle({ state: 'held', records: drafts })
    }
    this.#note()
  }

  /** Steps that touch the same items are kept together or not at all. */
  async #write(group: readonly Job[], tried: Set<Job>): Promise<void> {
    const newest = new Map(group.flatMap(({ drafts }) => drafts).map((d) => [keyOf(d), d]))
    const basedOn = new Map(
      group.flatMap(({ drafts, exactly }) =>
        exactly ? drafts.map((draft) => [keyOf(draft), exactly.basedOn] as const) : [],
      ),
    )
    const changes = [...newest].map(
      ([key, { deleted, file, events, savedAt, origin, kind, id }]) => ({
        kind,
        id,
        events,
        file: deleted ? undefined : file,
        savedAt,
        basedOn: basedOn.has(key) ? basedOn.get(key) : this.#kept.get(key)?.revision,
        origin,
      }),
    )
    try {
      const result = await (this.#storage as Storage).change(changes)
      if (result.ok) this.#done(group, result.records)
      else this.#isStale(group, result.stale, tried)
    } catch (error) {
      this.#hold(group, error)
    }
  }

  #done(group: readonly Job[], records: readonly StoredItem[]): void {
    this.#jobs = this.#jobs.filter((job) => !group.includes(job))
    this.#take(records)
    const waiting = this.#waitingKeys()
    this.#show(records.filter((record) => !waiting.has(keyOf(record))))
    for (const job of group) {
      const own = new Set(job.drafts.map(keyOf))
      job.settle({ state: 'kept', records: records.filter((record) => own.has(keyOf(record))) })
      // Whoever waited for it was told that it was held.
      if (job.isHeld) for (const draft of job.drafts) this.tell(draft, 'here')
    }
  }

  /** Another tab was faster: its state is taken, and the steps are done once more on top of it. */
  #isStale(group: readonly Job[], stale: readonly Stale[], tried: Set<Job>): void {
    const keys = new Set(stale.map(keyOf))
    for (const each of stale) this.#takeTheirs(each, each.theirs)
    const touched = group.filter(
      ({ exactly, drafts }) => exactly && drafts.some((draft) => keys.has(keyOf(draft))),
    )
    // While somebody is told, a text that waits here to be kept goes on waiting.
    const asked = touched.filter(({ isHeld }) => !isHeld)
    const told = asked.length > 0 ? asked : touched
    this.#jobs = this.#jobs.filter((job) => !told.includes(job))
    for (const job of group) if (!touched.includes(job)) tried.delete(job)
    this.#redo()
    for (const job of told) {
      if (job.isHeld) this.#keepBoth(job, stale)
      else job.settle({ state: 'stale', stale })
    }
  }

  /** Nobody waits for this text any more: it is kept beside the other tab's. */
  #keepBoth({ drafts }: Job, stale: readonly Stale[]): void {
    for (const { kind, id, file, deleted } of drafts) {
      if (deleted) continue
      const theirs = stale.find((each) => keyOf(each) === keyOf({ kind, id }))?.theirs
      void this.act(() => [
        theirs ? { kind, id: newId(), file, origin: { copiedFrom: id } } : { kind, id, file },
      ])
      this.tell({ kind, id }, 'here')
    }
  }

  /** Held until storage takes writes again; that is tried by itself, with growing pauses. */
  #hold(jobs: readonly Job[], error: unknown): void {
    for (const job of jobs) {
      job.isHeld = true
      job.settle({ state: 'held', records: job.drafts })
    }
    this.#note()
    this.#fail(error)
    clearTimeout(this.#later)
    const pause = PAUSES_MS[Math.min(this.#failures++, PAUSES_MS.length - 1)]
    this.#later = setTimeout(() => void this.#enqueue(() => this.#writeAll()), pause)
  }

  /** Another tab has changed items. One that waits here to be kept is left: writing it will find out. */
  async #refresh(keys: readonly ItemKey[]): Promise<void> {
    if (!this.#storage || !this.#isRead) return
    const changed: ItemKey[] = []
    for (const key of keys) {
      const [theirs, known] = [await this.#storage.get(key), this.#kept.get(keyOf(key))]
      if (theirs ? theirs.revision <= (known?.revision ?? -1) : !known) continue
      this.#takeTheirs(key, theirs)
      changed.push(key)
    }
    if (changed.length === 0) return
    if (this.#jobs.length > 0) this.#redo()
    else this.#show(changed.map((key) => this.#kept.get(keyOf(key)) ?? { ...key, deleted: true }))
    const waiting = this.#waitingKeys()
    for (const key of changed) if (!waiting.has(keyOf(key))) this.tell(key, 'elsewhere')
  }

  #takeTheirs(key: ItemKey, theirs: StoredItem | undefined): void {
    if (theirs) this.#take([theirs])
    else this.#kept.delete(keyOf(key))
  }

  #waitingKeys = () => new Set(this.#jobs.flatMap(({ drafts }) => drafts.map(keyOf)))
}

/** What was never kept comes last, in the order in which it was done. */
const order = (a: number, b: number) => (a === b ? 0 : a - b)

const isOlderText = ({ exactly, isHeld, drafts }: Job, newer: readonly StoredItem[]) =>
  exactly !== undefined && isHeld && keysOf(drafts) === keysOf(newer)
const keysOf = (drafts: readonly StoredItem[]) => drafts.map(keyOf).sort().join()

/** The first job that is wanted, with all that share an item with it. */
function together(jobs: readonly Job[], isWanted: (job: Job) => boolean): Job[] {
  const first = jobs.find(isWanted)
  if (!first) return []
  const [group, keys] = [new Set([first]), new Set(first.drafts.map(keyOf))]
  for (let size = 0; size < group.size;) {
    size = group.size
    for (const job of jobs) {
      if (!job.drafts.some((draft) => keys.has(keyOf(draft)))) continue
      group.add(job)
      for (const draft of job.drafts) keys.add(keyOf(draft))
    }
  }
  return jobs.filter((job) => group.has(job))
}
