import type { Entry } from '../../stores/entry'
import type { SpokenUnits } from '../../wording'
import { formatSi } from '../../engine/units'
import { PURPOSE_NAMES } from '../../wording'

/** One line under a formula's name. */
export function describeEntry(entry: Entry, units: SpokenUnits): string {
  if (entry.problem || entry.purpose === null || entry.total_m === null) {
    return 'Could not be read. It is kept as it is and can be exported.'
  }
  const tippet =
    entry.tippet_m === null
      ? 'no tippet'
      : `tippet ${formatSi(entry.tippet_m, 'diameter', units.diameter)}`
  const total = formatSi(entry.total_m, 'length', units.length)
  return [PURPOSE_NAMES[entry.purpose], total, tippet, `${entry.segments} pieces`].join(' · ')
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
export function fileNameOf(name: string): string {
  const plain = name
    .toLowerCase()
    .replace(/[^a-z0-9]+/g, '-')
    .replace(/^-+|-+$/g, '')
  return `${plain || 'leader'}.json`
}
