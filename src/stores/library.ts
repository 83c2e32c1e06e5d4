import { computed, markRaw, shallowRef } from 'vue'
import { defineStore } from 'pinia'
import type { Leader } from '../engine/leader'
import type { ReadResult } from '../documents'
import type { NewFormula, Storage, StoredFormula } from '../storage'
import type { Entry } from './entry'
import type { Query } from './filterEntries'
import {
  readFormula,
  readImportText,
  writeFormula,
  writeFormulaText,
  writeSetText,
} from '../documents'
import { entryOf, isShippedId, nameIn } from './entry'
import { filterEntries } from './filterEntries'
import { freeName } from './names'
import { newId, now, Shelf } from './shelf'
import { FIRST_SHIPPED, otherShipped } from './shipped'

/** All formulas: those that came with the app and the user's own. */
export const useLibrary = defineStore('library', () => {
  const shelf = markRaw(new Shelf())
  const notice = shallowRef<string>()
  const shipped = shallowRef<ReadonlyMap<string, StoredFormula>>(
    new Map([[FIRST_SHIPPED.id, FIRST_SHIPPED]]),
  )
  const entries = computed<readonly Entry[]>(() =>
    [...shelf.formulas.value.values(), ...shipped.value.values()].map(entryOnce),
  )

  /** Brings in the other shipped formulas and the user's own. */
  async function start(storage: Promise<Storage>): Promise<void> {
    const own = shelf.start(storage)
    const others = await otherShipped()
    shipped.value = new Map([FIRST_SHIPPED, ...others].map((formula) => [formula.id, formula]))
    await own
    void readAhead(shelf.formulas.value.values())
  }

  function formulaOf(id: string): StoredFormula | undefined {
    return shipped.value.get(id) ?? shelf.formulas.value.get(id)
  }

  function leaderOf(id: string): Leader | undefined {
    const formula = formulaOf(id)
    const read = formula && readOnce(formula)
    return read?.ok ? read.leader : undefined
  }

  /** The name with a mark, and with a number where another formula goes by that name. */
  function markedName(name: string, mark: string): string {
    const taken = new Set([...shipped.value.values(), ...shelf.formulas.value.values()].map(nameIn))
    return freeName(name, mark, (candidate) => taken.has(candidate))
  }

  /** Whether a formula of the user's own says just the same. */
  function holds(leader: Leader): boolean {
    const text = writeFormulaText(leader)
    return [...shelf.formulas.value.values()].some(
      (f) => nameIn(f) === leader.name && fileText(f) === text,
    )
  }

  async function add(leader: Leader): Promise<string> {
    const [id] = await addAll([leader])
    return id as string
  }

  const addAll = (leaders: readonly Leader[]) => shelf.addAll(leaders.map(newFormula))

  /** Removes own formulas; the function given back restores those that were removed. */
  async function remove(ids: readonly string[]): Promise<() => Promise<void>> {
    const own = ids.filter((id) => !isShippedId(id))
    const removed = await shelf.remove(own)
    const refused = own.length - removed.length
    if (refused > 0) notice.value = keptNotice(refused)
    return async () => {
      await shelf.addAll(removed.map(({ id, savedAt, file }) => ({ id, savedAt, file })))
    }
  }

  /** Renames an own formula. One that does not read is left exactly as it lies. */
  const rename = (id: string, name: string) =>
    shelf.change(id, (file) => {
      const read = readFormula(file)
      return read.ok ? writeFormula({ ...read.leader, name }) : file
    })

  /** A copy under a name of its own; undefined where the formula does not read. */
  async function duplicate(id: string): Promise<string | undefined> {
    const leader = leaderOf(id)
    return leader && add({ ...leader, name: markedName(leader.name, 'copy') })
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
    unkept: computed(() => shelf.unkept.value),
    storageProblem: computed(() => shelf.problem.value),
    notice,
    shelf,
    start,
    formulaOf,
    leaderOf,
    markedName,
    holds,
    search: (query: Query) => filterEntries(entries.value, query),
    add,
    addAll,
    remove,
    rename,
    duplicate,
    exportText,
    importText: readImportText,
  }
})

/** Reads a few at a time, so that the first search does not wait for thousands. */
async function readAhead(formulas: Iterable<StoredFormula>): Promise<void> {
  let count = 0
  for (const formula of formulas) {
    entryOnce(formula)
    if (++count % 50 === 0) await new Promise((resolve) => setTimeout(resolve))
  }
}

const newFormula = (leader: Leader): NewFormula => ({
  id: newId(),
  savedAt: now(),
  file: writeFormula(leader),
})

function fileOf(formula: StoredFormula): unknown {
  const read = readOnce(formula)
  return read.ok ? writeFormula(read.leader) : formula.file
}

function fileText(formula: StoredFormula): string {
  const read = readOnce(formula)
  return read.ok ? writeFormulaText(read.leader) : `${JSON.stringify(formula.file, null, 2)}\n`
}

function keptNotice(count: number): string {
  const what = count === 1 ? 'One formula was' : `${count} formulas were`
  return `${what} not removed: another tab has just changed what is here. Look again, then remove.`
}

/** Computes once per stored revision: a formula that is not changed is the same object. */
function oncePer<T>(compute: (formula: StoredFormula) => T): (formula: StoredFormula) => T {
  const known = new WeakMap<StoredFormula, T>()
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
