/** The shelf of the invented guide shed as a backup file: what tests bring in instead of typing fifteen spools. */
import { writeBackup, writeInventoryItem } from '../../src/documents'
import { exampleShelf } from '../../src/stores/exampleShelf'

export const guideShed = (): string =>
  writeBackup(
    { formulas: [], versions: [], shed: exampleShelf().map(writeInventoryItem), settings: {} },
    '2026-11-25T18:00:00.000Z',
  )
