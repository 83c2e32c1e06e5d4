import type { Entry } from '../../stores/entry'
import type { DiameterUnit, LengthUnit } from '../../engine/units'
import { formatSi } from '../../engine/units'
import { PURPOSE_NAMES } from '../../wording'
import { fileStem } from '../../stores/download'

/** Units to list figures in; `typed` lists each formula in the units it is written in. */
export interface ListUnits {
  readonly diameter: DiameterUnit | 'typed'
  readonly length: LengthUnit | 'typed'
}

/** One line under a formula's name. */
export function describeEntry(entry: Entry, units: ListUnits): string {
  const { purpose, total_m } = entry
  if (entry.problem || purpose === null || total_m === null) {
    return 'Could not be read. It is kept as it is and can be exported.'
  }
  const written = entry.isMetric ? 'm' : 'ft-in'
  const total = formatSi(total_m, 'length', units.length === 'typed' ? written : units.length)
  return [
    PURPOSE_NAMES[purpose],
    total,
    tippetWords(entry, units),
    `${entry.segments} pieces`,
  ].join(' · ')
}

function tippetWords({ tippet_m, tippetText }: Entry, { diameter }: ListUnits): string {
  if (tippet_m === null || tippetText === null) return 'no tippet'
  return `tippet ${diameter === 'typed' ? tippetText : formatSi(tippet_m, 'diameter', diameter)}`
}

/** Rows near the window of a list that scrolls: with five thousand formulas only these are drawn. */
export function windowOf(count: number, scrollTop: number, height: number, rowHeight: number) {
  // A list that a filter has shortened may still be scrolled to where it no longer reaches.
  const top = Math.max(0, Math.min(scrollTop, count * rowHeight - height))
  const first = Math.max(0, Math.floor(top / rowHeight) - 5)
  const last = Math.min(count, Math.ceil((top + height) / rowHeight) + 5)
  return { first, last, before: first * rowHeight, after: (count - last) * rowHeight }
}

/** A name that every file system takes. */
export const fileNameOf = (name: string): string => `${fileStem(name)}.json`

/** What an import brought, and what was here already. */
export function importNotice(file: string, added: number, known: number): string {
  const count = (n: number) => `${n} ${n === 1 ? 'formula' : 'formulas'}`
  const here =
    known > 0 ? ` ${count(known)} of it ${known === 1 ? 'is' : 'are'} here already, unchanged.` : ''
  return `${count(added)} from ${file}.${here}`
}
