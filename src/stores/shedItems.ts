import type { Shed } from '../engine/bench'
import type { ShedItem } from '../documents'

/** Everything in the shed by its id. */
export function itemsOf({ spools, batches, stock }: Shed): Map<string, ShedItem> {
  const items: ShedItem[] = [
    ...spools.map((value) => ({ kind: 'spool', value }) as const),
    ...batches.map((value) => ({ kind: 'batch', value }) as const),
    ...stock.map((value) => ({ kind: 'stock', value }) as const),
  ]
  return new Map(items.map((item) => [item.value.id, item]))
}

export function shedOf(items: readonly ShedItem[]): Shed {
  return {
    spools: items.flatMap((item) => (item.kind === 'spool' ? [item.value] : [])),
    batches: items.flatMap((item) => (item.kind === 'batch' ? [item.value] : [])),
    stock: items.flatMap((item) => (item.kind === 'stock' ? [item.value] : [])),
  }
}
