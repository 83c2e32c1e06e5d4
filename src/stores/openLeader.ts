import type { ShallowRef } from 'vue'
import { shallowRef } from 'vue'
import type { Leader } from '../engine/leader'
import type { StoredItem } from '../storage'
import type { History } from './history'
import type { From, Items } from './items'
import { problemText, readFormula, writeFormula } from '../documents'
import { isShippedId } from './entry'
import { historyOf, isSame, record, renamed } from './history'
import { keyOf, newId } from './items'
import { oneAtATime } from './oneAtATime'

const NOTICES = {
  copied: 'This is your own copy now; the formula that came with the app stays as it was.',
  changed: 'Another tab changed this formula. Its version is shown; undo brings yours back.',
  removed:
    'This formula was deleted from your own; it stays on the bench, and any change keeps it again.',
  unkeepable: 'Not changed: it could not be read again.',
  recreated: 'This formula had been removed elsewhere; your change has kept it again.',
  unreadable:
    'Another tab changed this formula to something this version cannot read. Reload the page to see it.',
} as const

const LABELS = { here: 'Change in the library', elsewhere: 'Change from another tab' } as const

interface SheetSetting {
  readonly items: Items
  readonly id: string
  readonly leader: Leader
  /** The stored revision it was read from; undefined for one that storage does not have. */
  readonly basedOn: number | undefined
  /** A name for an own version, given the name it comes from. */
  readonly ownName: (name: string) => string
  readonly say: (notice: string) => void
  /** Takes a formula out, if nobody has changed it since. */
  readonly removeCopy: (id: string) => Promise<unknown>
}

/** One leader on the bench with its undo history and its way into storage. */
export class OpenLeader {
  readonly id: ShallowRef<string>
  readonly history: ShallowRef<History>
  readonly state = shallowRef<'saved' | 'saving' | 'not-kept'>('saved')
  /** Id of the formula that another tab changed at the same time; ours goes by another id since. */
  readonly conflict = shallowRef<string>()
  readonly #setting: SheetSetting
  #basedOn: number | undefined
  #copiedFrom: string | undefined
  readonly #saving = oneAtATime(() => this.#write())

  constructor(setting: SheetSetting) {
    this.#setting = setting
    this.id = shallowRef(setting.id)
    this.#basedOn = setting.basedOn
    this.history = shallowRef(historyOf(setting.leader))
  }

  get leader(): Leader {
    return this.history.value.present
  }

  edit(label: string, next: Leader | ((leader: Leader) => Leader), mergeKey?: string): void {
    const before = this.leader
    const after = typeof next === 'function' ? next(before) : next
    if (isSame(before, after)) return
    const read = readFormula(writeFormula(after))
    if (!read.ok) {
      this.#setting.say(`${NOTICES.unkeepable} ${read.problems.map(problemText).join(' ')}`)
      return
    }
    if (isShippedId(this.id.value)) this.#copyShipped()
    const kept = after.name === before.name ? { ...after, name: this.leader.name } : after
    this.move((history) => record(history, label, kept, mergeKey))
  }

  /** Goes to another place in the history and saves what stands there. */
  move(step: (history: History) => History): void {
    const before = this.leader
    this.history.value = step(this.history.value)
    if (this.leader === before) return
    this.state.value = 'saving'
    this.#saving.ask()
  }

  /** Is kept when nothing waits to be saved. */
  settled(): Promise<void> {
    return this.#saving.settled()
  }

  #copyShipped(): void {
    this.#becomeOwn()
    this.#setting.say(NOTICES.copied)
  }

  #becomeOwn(): void {
    const { name } = this.leader
    this.#copiedFrom = this.id.value
    this.id.value = newId()
    this.#basedOn = undefined
    this.history.value = renamed(this.history.value, name, this.#setting.ownName(name))
  }

  async #write(): Promise<void> {
    const origin = this.#copiedFrom === undefined ? {} : { copiedFrom: this.#copiedFrom }
    const draft = { kind: 'formula', id: this.id.value, file: writeFormula(this.leader), origin }
    const outcome = await this.#setting.items.act(() => [draft], { basedOn: this.#basedOn })
    if (outcome.state === 'stale') return this.#resolve(outcome.stale[0]?.theirs)
    const isKept = outcome.state === 'kept'
    if (isKept) this.#basedOn = outcome.records[0]?.revision
    // What was changed in the meantime is written next, and nothing is said to be saved before.
    if (this.#saving.isAskedAgain()) return
    this.state.value = isKept ? 'saved' : 'not-kept'
  }

  /** Both texts are stored before anything is asked, so that closing the page here loses neither. */
  #resolve(theirs: StoredItem | undefined): Promise<void> {
    if (theirs) {
      this.conflict.value = this.id.value
      this.#becomeOwn()
    } else {
      this.#basedOn = undefined
      this.#setting.say(NOTICES.recreated)
    }
    return this.#write()
  }

  keepMine(): void {
    this.conflict.value = undefined
  }

  /** Goes over to the other tab's version; ours leaves the library and stays in the undo history. */
  async takeTheirs(): Promise<void> {
    await this.settled()
    const { items, removeCopy } = this.#setting
    const theirs = items.records('formula').get(this.conflict.value ?? '')
    if (!theirs) return
    const read = readFormula(theirs.file)
    if (!read.ok) return
    const copy = this.id.value
    this.id.value = theirs.id
    this.conflict.value = undefined
    this.#load('Take the other version', theirs, read.leader)
    // A copy that cannot be removed now is one formula too many, and nothing lost.
    await removeCopy(copy)
  }

  /** Follows what was done to this formula elsewhere: in another tab, or in the library. */
  heed(formula: StoredItem | undefined, from: From): void {
    // The write under way was begun on the older one and will find out.
    if (this.state.value === 'saving') return
    if (!formula) return this.#setting.say(NOTICES.removed)
    const read = readFormula(formula.file)
    if (!read.ok) return this.#setting.say(NOTICES.unreadable)
    const news = from === 'elsewhere' && !isSame(this.leader, read.leader)
    if (news) this.#setting.say(NOTICES.changed)
    this.#load(LABELS[from], formula, read.leader)
  }

  #load(label: string, stored: StoredItem, leader: Leader): void {
    this.#basedOn = stored.revision || undefined
    this.#copiedFrom = undefined
    this.history.value = record(this.history.value, label, leader)
    this.state.value = this.#setting.items.unkept.value.has(keyOf(stored)) ? 'not-kept' : 'saved'
  }
}
