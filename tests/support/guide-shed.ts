/** The shelf of the invented guide shed as a backup file: what tests bring in instead of typing fifteen spools. */
import { writeBackup } from '../../src/documents'
import { exampleShelf } from '../../src/documents/exampleShelf'
import { spool } from '../../src/documents/kinds/spool'

export function guideShed(): string {
  let count = 0
  const spools = exampleShelf(() => `guide-spool-${count++}`)
  const items = spools.map((value) => ({
    kind: spool.id,
    id: value.id,
    savedAt: '',
    file: spool.write(value),
  }))
  return writeBackup({ items, earlier: [], settings: {} }, '2026-11-25T18:00:00.000Z')
}
