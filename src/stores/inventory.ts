import { computed } from 'vue'
import { defineStore } from 'pinia'
import type { Inventory } from '../engine/tying'
import type { Item } from './kept'
import { InventoryError } from '../engine/tying'
import { batch } from '../documents/kinds/batch'
import { spool } from '../documents/kinds/spool'
import { stock } from '../documents/kinds/stock'
import { useItems } from './items'
import { stepsOn, unreadableOf, valuesOf } from './kept'

/** Spools, batches and stock: what the inventory's steps work on. */
export const useInventory = defineStore('inventory', () => {
  const items = useItems()
  const inventory = computed<Inventory>(() => ({
    spools: [...valuesOf(items, spool).values()],
    batches: [...valuesOf(items, batch).values()],
    stock: [...valuesOf(items, stock).values()],
  }))
  const steps = stepsOn(items, {
    state: () => inventory.value,
    itemsOf: inventoryItems,
    refusal: (error) => (error instanceof InventoryError ? error.message : undefined),
  })

  return {
    ...steps,
    inventory,
    isReady: computed(() => items.isReady.value),
    /** Items that this version cannot read; they are left as they lie. */
    unreadable: computed(() => unreadableOf(items, [spool, batch, stock])),
    problem: computed(() => items.problem.value),
    settled: items.settled,
  }
})

const inventoryItems = ({ spools, batches, stock: wallets }: Inventory): Item[] => [
  ...spools.map((value) => ({ kind: spool, id: value.id, value })),
  ...batches.map((value) => ({ kind: batch, id: value.id, value })),
  ...wallets.map((value) => ({ kind: stock, id: value.id, value })),
]
