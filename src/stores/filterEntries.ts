import type { Purpose } from '../engine/leader'
import type { Entry } from './entry'

/** What to look for; whatever is left out does not matter. */
export interface Query {
  /** Words that must all be found, in any order. */
  readonly text?: string
  readonly purpose?: Purpose
  readonly minLength_m?: number
  readonly maxLength_m?: number
  readonly tippet_m?: number
  /** Id of a material. */
  readonly material?: string
  /** true: own formulas only; false: shipped ones only. */
  readonly own?: boolean
}

type Test = (entry: Entry) => boolean

/** 9 ft added up from inches is not 9 ft to the last bit. */
const LENGTH_SLACK_M = 1e-6
/** Half of half a thousandth of an inch: .006 in and 0.15 mm are one tippet, .006 and .0065 in are two. */
const TIPPET_SLACK_M = 6.3e-6

/** The entries that meet every part of the query, in the order given. */
export function filterEntries(entries: readonly Entry[], query: Query): Entry[] {
  const tests = testsOf(query)
  return entries.filter((entry) => tests.every((test) => test(entry)))
}

function testsOf({ text = '', purpose, tippet_m, material, own, ...lengths }: Query): Test[] {
  const words = text.toLowerCase().split(/\s+/).filter(Boolean)
  const tests: (Test | undefined)[] = [
    own === undefined ? undefined : (entry) => entry.shipped !== own,
    purpose && ((entry) => entry.purpose === purpose),
    lengthTest(lengths),
    tippet_m === undefined ? undefined : (entry) => isTippet(entry, tippet_m),
    material === undefined ? undefined : (entry) => entry.materials.includes(material),
    (entry) => words.every((word) => entry.searchText.includes(word)),
  ]
  return tests.filter((test) => test !== undefined)
}

function lengthTest({ minLength_m, maxLength_m }: Query): Test | undefined {
  if (minLength_m === undefined && maxLength_m === undefined) return undefined
  const low = (minLength_m ?? 0) - LENGTH_SLACK_M
  const high = (maxLength_m ?? Infinity) + LENGTH_SLACK_M
  return ({ total_m }) => total_m !== null && total_m >= low && total_m <= high
}

function isTippet(entry: Entry, tippet_m: number): boolean {
  return entry.tippet_m !== null && Math.abs(entry.tippet_m - tippet_m) < TIPPET_SLACK_M
}
