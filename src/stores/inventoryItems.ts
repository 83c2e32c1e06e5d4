import type { Inventory } from '../engine/tying'
import type { InventoryItem } from '../documents'

/** Everything in the shed by its id. */
export function itemsOf({ spools, batches, stock }: Inventory): Map<string, InventoryItem> {
  const items: InventoryItem[] = [
    ...spools.map((value) => ({ kind: 'spool', value }) as const),
    ...batches.map((value) => ({ kind: 'batch', value }) as const),
    ...stock.map((value) => ({ kind: 'stock', value }) as const),
  ]
  return new Map(items.map((item) => [item.value.id, item]))
}

export function inventoryOf(items: readonly InventoryItem[]): Inventory {
  return {
    spools: items.flatMap((item) => (item.kind === 'spool' ? [item.value] : [])),
    batches: items.flatMap((item) => (item.kind === 'batch' ? [item.value] : [])),
    stock: items.flatMap((item) => (item.kind === 'stock' ? [item.value] : [])),
  }
}
