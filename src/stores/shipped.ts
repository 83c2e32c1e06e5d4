import type { FormulaRecord } from './entry'
import first from '../../formulas/middle-sallow-9ft-5x.json'
import { shippedId } from './entry'

/** The formula the bench opens on; it alone is fetched before the bench stands. */
export const FIRST_SHIPPED = shippedFormula('middle-sallow-9ft-5x', first)

/** Formulas that come with the app, as if they had been stored at revision 0. */
function shippedFormula(name: string, file: unknown): FormulaRecord {
  return { id: shippedId(name), revision: 0, savedAt: '', file }
}

/** The other shipped formulas, fetched while the bench already stands. */
export async function otherShipped(): Promise<FormulaRecord[]> {
  const { OTHERS } = await import('./shippedOthers')
  return Object.entries(OTHERS).map(([path, file]) =>
    shippedFormula(path.replace(/^.*\/|\.json$/g, ''), file),
  )
}
