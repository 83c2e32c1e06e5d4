import type { Stock } from '../../engine/tying'
import type { Kind } from '../kind'
import { INVENTORY_VERSION, readInventoryItem, writeInventoryItem } from '../inventory'
import { shown } from '../problem'

export const stock: Kind<Stock> = {
  id: 'stock',
  version: INVENTORY_VERSION,
  read: (json) => {
    const result = readInventoryItem(json)
    if (!result.ok) return result
    if (result.item.kind === 'stock') return { ok: true, value: result.item.value }
    return {
      ok: false,
      problems: [{ path: 'kind', found: shown(result.item.kind), expected: '"stock"' }],
    }
  },
  write: (value) => writeInventoryItem({ kind: 'stock', value }),
  copied: (value, id, named) => ({ ...value, id, wallet: named(value.wallet) }),
  nameOf: ({ wallet }) => wallet,
}
