import type { ShallowRef } from 'vue'
import { shallowRef } from 'vue'
import type { NewFormula, Storage, StoredFormula } from '../storage'
import { StorageError } from '../storage/error'
import { messageOf } from '../engine/messageOf'

type Saved =
  | { readonly state: 'saved'; readonly revision: number }
  | { readonly state: 'conflict'; readonly theirs: StoredFormula | undefined }
  | { readonly state: 'not-kept' }

/** Where a change was made: in this tab, by the library, or in another. */
export type Origin = 'here' | 'elsewhere'
type Listener = (id: string, formula: StoredFormula | undefined, from: Origin) => void

/** Revision of a formula that storage has never had. */
const NEVER_STORED = 0

/**
 * The user's own formulas: what storage has, and what it could not take, which stays here in memory
 * until it can. Works the same, all in memory, without any storage.
 */
export class Shelf {
  readonly formulas: ShallowRef<ReadonlyMap<string, StoredFormula>> = shallowRef(new Map())
  /** Ids of formulas whose newest text storage does not have. */
  readonly unkept: ShallowRef<ReadonlySet<string>> = shallowRef(new Set())
  /** Why, and what to do about it. */
  readonly problem = shallowRef<string>()
  #storage: Promise<Storage> | undefined
  #retrying = false
  readonly #listeners = new Set<Listener>()

  /** Takes in what storage has; what was saved here while it was opening stays. */
  async start(storage: Promise<Storage>): Promise<void> {
    this.#storage = storage
    try {
      const opened = await storage
      opened.onChange((change) => {
        if ('id' in change) void this.#refresh(change.id)
      })
      const stored = await opened.list()
      const listed = stored.map((formula) => [formula.id, formula] as const)
      this.formulas.value = new Map([...listed, ...this.formulas.value])
    } catch (error) {
      this.problem.value = messageOf(error)
    }
  }

  /** Calls back for what happens to a formula other than by `save`. */
  listen(listener: Listener): void {
    this.#listeners.add(listener)
  }

  /** Saves over the revision the writer has seen; undefined for a formula that is new. */
  async save(id: string, file: unknown, basedOn: number | undefined): Promise<Saved> {
    const formula = { id, file, savedAt: now() }
    try {
      const result = await (await this.#opened()).put({ ...formula, basedOn })
      if (!result.ok) return this.#conflict(result.theirs)
      this.#keep({ ...formula, revision: result.revision })
      void this.#retry()
      return { state: 'saved', revision: result.revision }
    } catch (error) {
      this.#hold([{ ...formula, revision: basedOn ?? NEVER_STORED }], error)
      return { state: 'not-kept' }
    }
  }

  /** Adds formulas, all at once; an id that is taken is changed. Gives back the ids. */
  async addAll(formulas: readonly NewFormula[]): Promise<string[]> {
    let added = formulas
    try {
      const storage = await this.#opened()
      let result = await storage.putAll(added)
      while (!result.ok) {
        added = withoutTaken(added, new Set(result.taken))
        result = await storage.putAll(added)
      }
      this.#keep(...result.records)
    } catch (error) {
      const held = added.map((formula) => ({ ...formula, revision: NEVER_STORED }))
      this.#hold(held, error)
    }
    const ids = added.map(({ id }) => id)
    for (const id of ids) this.#tell(id, 'here')
    return ids
  }

  /** Removes what no other tab has changed in the meantime; gives back what was removed. */
  async remove(ids: readonly string[]): Promise<StoredFormula[]> {
    const removed: StoredFormula[] = []
    for (const id of ids) {
      const formula = this.formulas.value.get(id)
      if (formula && (await this.#removeOne(formula))) removed.push(formula)
    }
    return removed
  }

  async #removeOne({ id, revision }: StoredFormula): Promise<boolean> {
    const theirs = revision === NEVER_STORED ? undefined : await this.#removeStored(id, revision)
    if (theirs) {
      // What waits here to be kept is the user's too, and must not give way to what is stored.
      if (!this.unkept.value.has(id)) this.#keep(theirs)
      return false
    }
    this.#drop(id)
    this.#tell(id, 'here')
    return true
  }

  async #removeStored(id: string, revision: number): Promise<StoredFormula | undefined> {
    const result = await (await this.#opened()).remove(id, revision)
    return result.ok ? undefined : result.theirs
  }

  /** Changes the newest text of a formula, whoever wrote it. */
  async change(id: string, edit: (file: unknown) => unknown): Promise<void> {
    const formula = this.formulas.value.get(id)
    if (!formula) return
    const saved = await this.save(id, edit(formula.file), formula.revision || undefined)
    if (saved.state !== 'conflict') return this.#tell(id, 'here')
    if (saved.theirs) return this.change(id, edit)
    this.#drop(id)
    this.#tell(id, 'elsewhere')
  }

  #opened(): Promise<Storage> {
    return this.#storage ?? Promise.reject(new StorageError('failed', 'storage was not opened'))
  }

  /** Another tab was faster: what it wrote is listed, whatever becomes of the text here. */
  #conflict(theirs: StoredFormula | undefined): Saved {
    if (theirs) this.#keep(theirs)
    return { state: 'conflict', theirs }
  }

  #keep(...formulas: readonly StoredFormula[]): void {
    this.#put(formulas)
    const ids = new Set(formulas.map(({ id }) => id))
    this.unkept.value = new Set([...this.unkept.value].filter((id) => !ids.has(id)))
    if (this.unkept.value.size === 0) this.problem.value = undefined
  }

  #hold(formulas: readonly StoredFormula[], error: unknown): void {
    this.#put(formulas)
    this.unkept.value = new Set([...this.unkept.value, ...formulas.map(({ id }) => id)])
    this.problem.value = messageOf(error)
  }

  #put(formulas: readonly StoredFormula[]): void {
    const listed = formulas.map((formula) => [formula.id, formula] as const)
    this.formulas.value = new Map([...this.formulas.value, ...listed])
  }

  #drop(id: string): void {
    this.formulas.value = new Map([...this.formulas.value].filter(([key]) => key !== id))
    this.unkept.value = new Set([...this.unkept.value].filter((key) => key !== id))
  }

  #tell(id: string, from: Origin): void {
    for (const listener of this.#listeners) listener(id, this.formulas.value.get(id), from)
  }

  /** Another tab has changed a formula. One that waits here to be kept is left: saving it will find out. */
  async #refresh(id: string): Promise<void> {
    const formula = await this.#stored(id)
    if (formula === 'unknown' || this.unkept.value.has(id)) return
    const known = this.formulas.value.get(id)
    if (formula === undefined && known === undefined) return
    if (formula && known && formula.revision <= known.revision) return
    if (formula) this.#put([formula])
    else this.#drop(id)
    this.#tell(id, 'elsewhere')
  }

  async #stored(id: string): Promise<StoredFormula | undefined | 'unknown'> {
    try {
      return await (await this.#opened()).get(id)
    } catch (error) {
      this.problem.value = messageOf(error)
      return 'unknown'
    }
  }

  /** Storage takes writes again, so what it refused before is offered once more. */
  async #retry(): Promise<void> {
    if (this.#retrying) return
    this.#retrying = true
    for (const id of this.unkept.value) await this.#retryOne(id)
    this.#retrying = false
  }

  async #retryOne(id: string): Promise<void> {
    const formula = this.formulas.value.get(id)
    if (!formula) return
    const saved = await this.save(id, formula.file, formula.revision || undefined)
    if (saved.state === 'conflict') await this.#keepBoth(formula, saved.theirs)
    this.#tell(id, 'here')
  }

  async #keepBoth(mine: StoredFormula, theirs: StoredFormula | undefined): Promise<void> {
    await this.addAll([{ ...mine, id: theirs ? newId() : mine.id }])
  }
}

export const newId = () => crypto.randomUUID()
export const now = () => new Date().toISOString()

function withoutTaken(formulas: readonly NewFormula[], taken: ReadonlySet<string>): NewFormula[] {
  return formulas.map((formula) => (taken.has(formula.id) ? { ...formula, id: newId() } : formula))
}
