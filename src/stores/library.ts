import { computed, shallowRef } from 'vue'
import { defineStore } from 'pinia'
import type { Leader } from '../engine/leader'
import type { ReadResult } from '../documents'
import type { StoredItem } from '../storage'
import type { Entry, FormulaRecord } from './entry'
import type { Query } from './filterEntries'
import {
  readFormula,
  readImportText,
  writeFormula,
  writeFormulaText,
  writeSetText,
} from '../documents'
import { mendFormula } from '../documents/mend'
import { entryOf, isShippedId, nameIn } from './entry'
import { filterEntries } from './filterEntries'
import { keyOf, newId, useItems } from './items'
import { freeName } from './names'
import { FIRST_SHIPPED, otherShipped } from './shipped'

/** A formula file with what is known of it; what is missing is given when it is added. */
type NewFile = Pick<StoredItem, 'file'> & Partial<Pick<StoredItem, 'id' | 'savedAt' | 'copiedFrom'>>

/** All formulas: those that came with the app and the user's own. */
export const useLibrary = defineStore('library', () => {
  const items = useItems()
  const own = () => items.records('formula')
  const notice = shallowRef<string>()
  const shipped = shallowRef<ReadonlyMap<string, FormulaRecord>>(
    new Map([[FIRST_SHIPPED.id, FIRST_SHIPPED]]),
  )
  const entries = computed<readonly Entry[]>(() =>
    [...own().values(), ...shipped.value.values()].map(entryOnce),
  )

  /** Brings in the other shipped formulas, and reads the user's own when they have come. */
  async function start(): Promise<void> {
    const others = await otherShipped()
    shipped.value = new Map([FIRST_SHIPPED, ...others].map((formula) => [formula.id, formula]))
    await items.settled()
    void readAhead(own().values())
  }

  function formulaOf(id: string): FormulaRecord | undefined {
    return shipped.value.get(id) ?? own().get(id)
  }

  function leaderOf(id: string): Leader | undefined {
    const formula = formulaOf(id)
    const read = formula && readOnce(formula)
    return read?.ok ? read.leader : undefined
  }

  /** The name with a mark, and with a number where another formula goes by that name. */
  function markedName(name: string, mark: string): string {
    const taken = new Set([...shipped.value.values(), ...own().values()].map(nameIn))
    return freeName(name, mark, (candidate) => taken.has(candidate))
  }

  /** Whether a formula of the user's own says just the same. */
  function holds(leader: Leader): boolean {
    const text = writeFormulaText(leader)
    return [...own().values()].some((f) => nameIn(f) === leader.name && fileText(f) === text)
  }

  async function add(leader: Leader, copiedFrom?: string): Promise<string> {
    const [id] = await addAll([leader], copiedFrom)
    return id as string
  }

  const addAll = (leaders: readonly Leader[], copiedFrom?: string) =>
    addFiles(leaders.map((leader) => ({ file: writeFormula(leader), copiedFrom })))

  /** Adds formulas, all at once; an id that is taken is changed. Gives back the ids. */
  async function addFiles(added: readonly NewFile[]): Promise<string[]> {
    const outcome = await items.act(() =>
      added.map(({ id = newId(), file, savedAt, copiedFrom }) => ({
        kind: 'formula',
        id: own().has(id) ? newId() : id,
        file,
        ...(savedAt === undefined ? {} : { savedAt }),
        ...(copiedFrom === undefined ? {} : { origin: { copiedFrom } }),
      })),
    )
    const records = 'records' in outcome ? outcome.records : []
    for (const record of records) items.tell(record, 'here')
    return records.map(({ id }) => id)
  }

  /** Removes own formulas; the function given back restores those that were removed. */
  async function remove(ids: readonly string[]): Promise<() => Promise<void>> {
    const wanted = ids.filter((id) => !isShippedId(id))
    const removed = await removeAsSeen(wanted)
    const refused = wanted.length - removed.length
    if (refused > 0) notice.value = keptNotice(refused)
    return async () => {
      await addFiles(removed)
    }
  }

  /** Removes what no other tab has changed in the meantime; gives back what was removed. */
  async function removeAsSeen(ids: readonly string[]): Promise<StoredItem[]> {
    const removed: StoredItem[] = []
    for (const id of ids) {
      const formula = own().get(id)
      if (formula && (await removeOne(formula))) removed.push(formula)
    }
    return removed
  }

  async function removeOne({ kind, id, revision }: StoredItem): Promise<boolean> {
    const gone = [{ kind, id, file: undefined }]
    const outcome = await items.act(() => gone, { basedOn: revision || undefined })
    if (outcome.state === 'stale' && outcome.stale[0]?.theirs) return false
    items.tell({ kind, id }, 'here')
    return true
  }

  /** Renames an own formula, whoever wrote its newest text. One that does not read is left as it lies. */
  async function rename(id: string, name: string): Promise<void> {
    if (!own().has(id)) return
    await items.act(() => {
      const leader = own().has(id) ? leaderOf(id) : undefined
      return leader ? [{ kind: 'formula', id, file: writeFormula({ ...leader, name }) }] : []
    })
    items.tell({ kind: 'formula', id }, own().has(id) ? 'here' : 'elsewhere')
  }

  /** A copy under a name of its own; undefined where the formula does not read. */
  async function duplicate(id: string): Promise<string | undefined> {
    const leader = leaderOf(id)
    return leader && add({ ...leader, name: markedName(leader.name, 'copy') }, id)
  }

  /** A copy of a formula that does not read, mended; undefined where it is not plain what was meant. */
  async function mend(id: string): Promise<string | undefined> {
    const record = own().get(id)
    const file = record && mendFormula(record.file)
    const [made] = file === undefined ? [] : await addFiles([{ file, copiedFrom: id }])
    if (made === undefined) notice.value = CANNOT_MEND
    return made
  }

  /** One formula as its file, several as a set; what does not read goes out as it lies. */
  function exportText(ids: readonly string[]): string {
    const formulas = ids.map(formulaOf).filter((formula) => formula !== undefined)
    const [only, ...others] = formulas
    return only && others.length === 0 ? fileText(only) : writeSetText(formulas.map(fileOf))
  }

  return {
    entries,
    /** Those that read, and so can be opened, cast and tied. */
    readable: computed(() => entries.value.filter(({ problem }) => !problem)),
    /** Ids of formulas that are in memory only. */
    unkept: computed(
      () =>
        new Set(
          [...own().values()]
            .filter((each) => items.unkept.value.has(keyOf(each)))
            .map(({ id }) => id),
        ),
    ),
    storageProblem: computed(() => items.problem.value),
    notice,
    start,
    formulaOf,
    leaderOf,
    markedName,
    holds,
    search: (query: Query) => filterEntries(entries.value, query),
    add,
    addAll,
    addFiles,
    remove,
    removeAsSeen,
    rename,
    duplicate,
    mend,
    exportText,
    importText: readImportText,
  }
})

/** Reads a few at a time, so that the first search does not wait for thousands. */
async function readAhead(formulas: Iterable<FormulaRecord>): Promise<void> {
  let count = 0
  for (const formula of formulas) {
    entryOnce(formula)
    if (++count % 50 === 0) await new Promise((resolve) => setTimeout(resolve))
  }
}

function fileOf(formula: FormulaRecord): unknown {
  const read = readOnce(formula)
  return read.ok ? writeFormula(read.leader) : formula.file
}

function fileText(formula: FormulaRecord): string {
  const read = readOnce(formula)
  return read.ok ? writeFormulaText(read.leader) : `${JSON.stringify(formula.file, null, 2)}\n`
}

function keptNotice(count: number): string {
  const what = count === 1 ? 'One formula was' : `${count} formulas were`
  return `${what} not removed: another tab has just changed what is here. Look again, then remove.`
}

/** Computes once per stored revision: a formula that is not changed is the same object. */
function oncePer<T>(compute: (formula: FormulaRecord) => T): (formula: FormulaRecord) => T {
  const known = new WeakMap<FormulaRecord, T>()
  return (formula) => {
    const there = known.get(formula)
    if (there !== undefined) return there
    const value = compute(formula)
    known.set(formula, value)
    return value
  }
}

const readOnce = oncePer<ReadResult>(({ file }) => readFormula(file))
const entryOnce = oncePer<Entry>((formula) => entryOf(formula, readOnce(formula)))

const CANNOT_MEND =
  'What is wrong in this formula cannot be mended without guessing. Export it: the file holds all of it, and can be changed in any text editor.'
