import type { Batch } from '../../engine/tying'
import type { Kind } from '../kind'
import { INVENTORY_VERSION, readInventoryItem, writeInventoryItem } from '../inventory'
import { shown } from '../problem'

export const batch: Kind<Batch> = {
  id: 'batch',
  version: INVENTORY_VERSION,
  read: (json) => {
    const result = readInventoryItem(json)
    if (!result.ok) return result
    if (result.item.kind === 'batch') return { ok: true, value: result.item.value }
    return {
      ok: false,
      problems: [{ path: 'kind', found: shown(result.item.kind), expected: '"batch"' }],
    }
  },
  write: (value) => writeInventoryItem({ kind: 'batch', value }),
  copied: (value, id, named) => ({ ...value, id, name: named(value.name) }),
  nameOf: ({ name }) => name,
}
