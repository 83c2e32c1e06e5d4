import type { StoredFormula } from '../storage'
import { shippedId } from './entry'

const FILES = import.meta.glob<unknown>('../../formulas/*.json', {
  eager: true,
  import: 'default',
})

/** The formulas that come with the app, as if they had been stored at revision 0. */
export const SHIPPED: ReadonlyMap<string, StoredFormula> = new Map(
  Object.entries(FILES).map(([path, file]) => {
    const id = shippedId(path.replace(/^.*\/|\.json$/g, ''))
    return [id, { id, revision: 0, savedAt: '', file }]
  }),
)
