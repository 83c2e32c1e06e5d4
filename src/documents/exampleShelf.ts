import type { ShelfSpool } from '../engine/tying'
import { spool as SPOOL } from './kinds/spool'

const STIFF = ['.021 in', '.019 in', '.0165 in', '.0155 in', '.0135 in', '.011 in']
const SUPPLE = ['.0105 in', '.0085 in', '.007 in']

type Fields = Readonly<Record<string, unknown>>

const spool = (material: string, size: string, more: Fields = {}): Fields => ({
  kind: 'spool',
  version: 1,
  material,
  size,
  readings: [],
  pullTests: [],
  left: material === 'nylon-stiff' ? '50 m' : '30 m',
  full: material === 'nylon-stiff' ? '50 m' : '30 m',
  price: material === 'fluorocarbon' ? 14 : 6.5,
  bought: '2026-03-01',
  state: 'good',
  ...more,
})

/** The shelf of the invented guide inventory at Sallow Bridge, to try things with. */
const SPOOLS: readonly Fields[] = [
  ...STIFF.map((size) => spool('nylon-stiff', size)),
  ...SUPPLE.map((size) => spool('nylon-supple', size)),
  spool('nylon-stiff', '.021 in', { left: '4.2 m', label: 'begun' }),
  spool('nylon-stiff', '.019 in', { left: '1.5 m', label: 'begun' }),
  spool('nylon-supple', '5X', {
    readings: ['.0062 in', '.0063 in', '.0061 in'],
    pullTests: ['4.6 lb'],
  }),
  spool('fluorocarbon', '5X'),
  spool('nylon-supple', '6X'),
  spool('nylon-supple', '4X', { bought: '2019-04-01', state: 'old' }),
]

export function exampleShelf(newId: () => string): ShelfSpool[] {
  return SPOOLS.flatMap((fields) => {
    const read = SPOOL.read({ ...fields, id: newId() })
    return read.ok ? [read.value] : []
  })
}
