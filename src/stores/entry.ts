/** What the library lists of a formula. Pure. */
import type { ReadResult, Problem } from '../documents'
import type { Leader, Purpose } from '../engine/leader'
import type { StoredItem } from '../storage'
import { diameter_m, materialOf, tippetIndex, totalLength_m, isMetric } from '../engine/leader'

const SHIPPED = 'shipped:'
export const shippedId = (name: string) => `${SHIPPED}${name}`
export const isShippedId = (id: string) => id.startsWith(SHIPPED)

/** A formula as it lies in the browser, or comes with the app. */
export type FormulaRecord = Pick<StoredItem, 'id' | 'revision' | 'savedAt' | 'file'>

export interface Entry {
  readonly id: string
  readonly shipped: boolean
  readonly name: string
  /** null where the formula does not read, like the figures below. */
  readonly purpose: Purpose | null
  readonly total_m: number | null
  /** Diameter of the tippet; null also where the leader has none. */
  readonly tippet_m: number | null
  /** Ids of the materials, each once, from butt to tip. */
  readonly materials: readonly string[]
  /** The tippet as it is written, and whether the lengths are written in metric units. */
  readonly tippetText: string | null
  readonly isMetric: boolean
  readonly segments: number
  /** Missing for shipped formulas. */
  readonly savedAt?: string
  /** What a search by words looks in, in lower case. */
  readonly searchText: string
  /** Why the formula does not read; it can still be exported as it lies. */
  readonly problem?: readonly Problem[]
}

export function entryOf(record: FormulaRecord, read: ReadResult): Entry {
  const shipped = isShippedId(record.id)
  const common = { id: record.id, shipped, ...(shipped ? {} : { savedAt: record.savedAt }) }
  return read.ok
    ? { ...common, ...summaryOf(read.leader) }
    : { ...common, ...unreadable(record, read.problems) }
}

function summaryOf(leader: Leader) {
  const tippet = leader.segments[tippetIndex(leader)]
  return {
    name: leader.name,
    purpose: leader.purpose,
    total_m: totalLength_m(leader),
    tippet_m: tippet ? diameter_m(tippet) : null,
    materials: materialIds(leader),
    tippetText: tippet ? (tippet.measured ?? tippet.diameter).text : null,
    isMetric: isMetric(leader),
    segments: leader.segments.length,
    searchText: searchText(leader),
  }
}

function materialIds(leader: Leader): string[] {
  return [...new Set(leader.segments.map((segment) => segment.material))]
}

function searchText(leader: Leader): string {
  const materials = materialIds(leader).map((id) => `${id} ${materialOf(leader, id).name}`)
  const purpose = leader.purpose.replaceAll('-', ' ')
  return [leader.name, purpose, leader.notes ?? '', ...materials].join('\n').toLowerCase()
}

function unreadable(record: FormulaRecord, problem: readonly Problem[]) {
  const name = nameIn(record) ?? 'Formula without a name'
  const unknown = {
    purpose: null,
    total_m: null,
    tippet_m: null,
    tippetText: null,
    materials: [],
    segments: 0,
    isMetric: false,
  }
  return { name, ...unknown, searchText: name.toLowerCase(), problem }
}

/** The name a file carries, found without reading the rest of it. */
export function nameIn({ file }: FormulaRecord): string | undefined {
  const named = typeof file === 'object' && file !== null && 'name' in file
  return named && typeof file.name === 'string' ? file.name : undefined
}
