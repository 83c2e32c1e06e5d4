/** The shelf of an invented guide shed as a backup file: what tests bring in instead of typing fifteen spools. */
import type { ShelfSpool } from '../../src/engine/bench'
import { writeBackup, writeShedItem } from '../../src/documents'
import { q, size } from '../engine/build'

const STIFF = ['.021', '.019', '.0165', '.0155', '.0135', '.011']
const SUPPLE = ['.0105', '.0085', '.007']

function spool(
  id: string,
  material: string,
  on: string,
  patch: Partial<ShelfSpool> = {},
): ShelfSpool {
  const full = q(material === 'nylon-stiff' ? '50 m' : '30 m', 'spool-length')
  return {
    id,
    material,
    size: size(on),
    readings: [],
    pullTests: [],
    left: full,
    full,
    taken_m: 0,
    price: 6.5,
    bought: '2026-03-01',
    state: 'good',
    ...patch,
  }
}

const GUIDE_SPOOLS: readonly ShelfSpool[] = [
  ...STIFF.map((on) => spool(`stiff ${on}`, 'nylon-stiff', `${on} in`)),
  ...SUPPLE.map((on) => spool(`supple ${on}`, 'nylon-supple', `${on} in`)),
  spool('begun .021', 'nylon-stiff', '.021 in', {
    left: q('4.2 m', 'spool-length'),
    label: 'begun',
  }),
  spool('begun .019', 'nylon-stiff', '.019 in', { left: q('1.5 m', 'spool-length') }),
  spool('5X', 'nylon-supple', '5X', {
    readings: ['.0062 in', '.0063 in', '.0061 in'].map(size),
    pullTests: [q('4.6 lb', 'force')],
  }),
  spool('fluoro 5X', 'fluorocarbon', '5X', { price: 14 }),
  spool('6X', 'nylon-supple', '6X'),
  spool('4X old', 'nylon-supple', '4X', { bought: '2019-04-01', state: 'old' }),
]

export const guideShed = (): string =>
  writeBackup(
    {
      formulas: [],
      versions: [],
      shed: GUIDE_SPOOLS.map((value) => writeShedItem({ kind: 'spool', value })),
      settings: {},
    },
    '2026-11-25T18:00:00.000Z',
  )
