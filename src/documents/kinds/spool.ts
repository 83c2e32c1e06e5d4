import type { ShelfSpool } from '../../engine/tying'
import type { Kind } from '../kind'
import { INVENTORY_VERSION, readInventoryItem, writeInventoryItem } from '../inventory'
import { shown } from '../problem'

export const spool: Kind<ShelfSpool> = {
  id: 'spool',
  version: INVENTORY_VERSION,
  read: (json) => {
    const result = readInventoryItem(json)
    if (!result.ok) return result
    if (result.item.kind === 'spool') return { ok: true, value: result.item.value }
    return {
      ok: false,
      problems: [{ path: 'kind', found: shown(result.item.kind), expected: '"spool"' }],
    }
  },
  write: (value) => writeInventoryItem({ kind: 'spool', value }),
  copied: (value, id, named) => ({ ...value, id, note: named(value.note ?? '').trim() }),
}
