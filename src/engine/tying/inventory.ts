/**
 * The tying shed: spools, batches under way and finished leaders. Every step is a function inventory -> inventory or a
 * refusal in words; nothing is touched in place, so that a step can be undone and tried again.
 */
import type { Leader } from '../leader'
import type { CutOrder, PieceKey } from './batch'
import type { Spool } from './spool'
import { planBatch } from './batch'

/** A spool with what was cut off since its length was last stated. */
export interface ShelfSpool extends Spool {
  readonly taken_m: number
}

export interface BatchOrder {
  /** Id of the formula. */
  readonly formula: string
  readonly leader: Leader
  readonly count: number
}

export interface BatchPiece extends PieceKey {
  readonly cut_m: number
  readonly spool: string | null
  readonly isCut: boolean
  /** Times it went wrong and was cut anew. */
  readonly spoiled: number
}

/** One leader of a batch. */
export interface Copy {
  readonly order: number
  readonly copy: number
}

export interface Batch {
  readonly id: string
  readonly name: string
  /** ISO 8601 day. */
  readonly begun: string
  readonly orders: readonly BatchOrder[]
  /** Share of the material that may be spoiled. */
  readonly spoilage: number
  readonly cutBy: CutOrder
  readonly pieces: readonly BatchPiece[]
  /** Joints tied, 0 at the line; the fly's knot is tied at the water. */
  readonly joints: readonly (Copy & { readonly joint: number })[]
  readonly finished: readonly (Copy & { readonly wallet: string; readonly tied: string })[]
}

/** Finished leaders of one formula in one wallet. */
export interface Stock {
  readonly id: string
  readonly formula: string
  readonly leader: Leader
  readonly wallet: string
  readonly count: number
  /** ISO 8601 day on which the newest was tied. */
  readonly tied: string
}

export interface Inventory {
  readonly spools: readonly ShelfSpool[]
  readonly batches: readonly Batch[]
  readonly stock: readonly Stock[]
}

export const EMPTY_INVENTORY: Inventory = { spools: [], batches: [], stock: [] }

/** Refused: what is wrong and what to do. */
export class InventoryError extends Error {}

export const left_m = (spool: ShelfSpool): number => Math.max(0, spool.left.si - spool.taken_m)

/** The spool as plans see it: with what is left now. */
export function asItStands(spool: ShelfSpool): Spool {
  return { ...spool, left: { ...spool.left, si: left_m(spool) } }
}

/** Spools in the order in which they are cut from: what is nearly finished first. */
export const leastLeftFirst = ({ spools }: Inventory): ShelfSpool[] =>
  [...spools].sort((a, b) => left_m(a) - left_m(b))

type WithId = { readonly id: string }

/** The list with one item put in the place of its namesake, or at the end. */
function withItem<T extends WithId>(list: readonly T[], item: T): T[] {
  const there = list.some(({ id }) => id === item.id)
  return there ? list.map((each) => (each.id === item.id ? item : each)) : [...list, item]
}

const withoutItem = <T extends WithId>(list: readonly T[], id: string): T[] =>
  list.filter((each) => each.id !== id)

function found<T extends WithId>(list: readonly T[], id: string, what: string): T {
  const item = list.find((each) => each.id === id)
  if (!item)
    throw new InventoryError(`This ${what} is no longer here: another tab may have removed it.`)
  return item
}

/** A spool as the user states it anew; what was cut off before is in the stated length. */
export function putSpool(inventory: Inventory, spool: Spool): Inventory {
  const before = inventory.spools.find(({ id }) => id === spool.id)
  const isRestated =
    !before || before.left.text !== spool.left.text || before.left.unit !== spool.left.unit
  const taken_m = isRestated ? 0 : before.taken_m
  return { ...inventory, spools: withItem(inventory.spools, { ...spool, taken_m }) }
}

export const removeSpool = (inventory: Inventory, id: string): Inventory => ({
  ...inventory,
  spools: withoutItem(inventory.spools, id),
})

export interface NewBatch {
  readonly id: string
  readonly name: string
  readonly begun: string
  readonly orders: readonly BatchOrder[]
  readonly spoilage: number
}

/** Plans a batch from what is on the shelf and not spoken for by batches under way. */
export function beginBatch(
  inventory: Inventory,
  { orders, spoilage, ...rest }: NewBatch,
): Inventory {
  const plan = planBatch(orders, freeSpools(inventory), spoilage)
  const pieces = plan.pieces.map((piece) => ({ ...piece, isCut: false, spoiled: 0 }))
  const batch: Batch = {
    ...rest,
    orders,
    spoilage,
    cutBy: 'spool',
    pieces,
    joints: [],
    finished: [],
  }
  return { ...inventory, batches: withItem(inventory.batches, batch) }
}

/** The shelf less what batches, but for the one named, have planned and not yet cut. */
export function freeSpools(inventory: Inventory, but?: string): Spool[] {
  const planned = new Map<string, number>()
  for (const batch of inventory.batches) {
    if (batch.id === but) continue
    for (const { spool, cut_m, isCut } of batch.pieces)
      if (spool !== null && !isCut) planned.set(spool, (planned.get(spool) ?? 0) + cut_m)
  }
  return inventory.spools.map((spool) => {
    const si = Math.max(0, left_m(spool) - (planned.get(spool.id) ?? 0))
    return { ...asItStands(spool), left: { ...spool.left, si } }
  })
}

/** Plans anew what is not yet cut: after buying, or after a spool turned out shorter than it said. */
export function replan(inventory: Inventory, batchId: string): Inventory {
  const batch = found(inventory.batches, batchId, 'batch')
  const open = new Set(batch.pieces.filter(({ isCut }) => !isCut).map(keyOf))
  const isOpen = (piece: PieceKey) => open.has(keyOf(piece))
  const plan = planBatch(batch.orders, freeSpools(inventory, batchId), batch.spoilage, isOpen)
  const spoolOf = new Map(plan.pieces.map((piece) => [keyOf(piece), piece.spool]))
  return putPieces(inventory, batch, (piece) =>
    piece.isCut ? piece : { ...piece, spool: spoolOf.get(keyOf(piece)) ?? null },
  )
}

export const keyOf = ({ order, copy, segment }: PieceKey): string => `${order}.${copy}.${segment}`

function putPieces(
  inventory: Inventory,
  batch: Batch,
  change: (piece: BatchPiece) => BatchPiece,
): Inventory {
  const pieces = batch.pieces.map(change)
  return { ...inventory, batches: withItem(inventory.batches, { ...batch, pieces }) }
}

function pieceOf(batch: Batch, key: PieceKey): BatchPiece {
  const piece = batch.pieces.find((each) => keyOf(each) === keyOf(key))
  if (!piece) throw new InventoryError('This piece is not in the batch.')
  return piece
}

/** Takes a length off a spool, or puts it back where it is negative; a spool that is gone is let be. */
function take(inventory: Inventory, spoolId: string, length_m: number): Inventory {
  const spool = inventory.spools.find(({ id }) => id === spoolId)
  if (!spool) return inventory
  if (length_m > left_m(spool) + 1e-9)
    throw new InventoryError(
      'This spool no longer holds the length: state what is left on it, then plan anew.',
    )
  const taken_m = Math.max(0, spool.taken_m + length_m)
  return { ...inventory, spools: withItem(inventory.spools, { ...spool, taken_m }) }
}

/** Ticks a piece as cut, and the spool falls by it; unticked, its length comes back. */
export function setCut(
  inventory: Inventory,
  batchId: string,
  key: PieceKey,
  isCut: boolean,
): Inventory {
  const batch = found(inventory.batches, batchId, 'batch')
  const piece = pieceOf(batch, key)
  if (piece.isCut === isCut) return inventory
  if (piece.spool === null)
    throw new InventoryError('No spool on the shelf holds this piece: add one, then plan anew.')
  const taken = take(inventory, piece.spool, isCut ? piece.cut_m : -piece.cut_m)
  return putPieces(taken, batch, (each) => (each === piece ? { ...each, isCut } : each))
}

/** A piece went wrong: another is cut from the same spool. */
export function spoil(inventory: Inventory, batchId: string, key: PieceKey): Inventory {
  const batch = found(inventory.batches, batchId, 'batch')
  const piece = pieceOf(batch, key)
  if (!piece.isCut || piece.spool === null)
    throw new InventoryError('Only a piece that is cut can be spoiled.')
  const taken = take(inventory, piece.spool, piece.cut_m)
  const spoiled = piece.spoiled + 1
  return putPieces(taken, batch, (each) => (each === piece ? { ...each, spoiled } : each))
}

const isCopy =
  ({ order, copy }: Copy) =>
  (other: Copy) =>
    other.order === order && other.copy === copy

export function setTied(
  inventory: Inventory,
  batchId: string,
  key: Copy & { readonly joint: number },
  isTied: boolean,
): Inventory {
  const batch = found(inventory.batches, batchId, 'batch')
  const others = batch.joints.filter((each) => !(isCopy(key)(each) && each.joint === key.joint))
  const joints = isTied ? [...others, key] : others
  return { ...inventory, batches: withItem(inventory.batches, { ...batch, joints }) }
}

/** A leader is finished and goes into its wallet; all its joints are tied. */
export function finish(
  inventory: Inventory,
  batchId: string,
  key: Copy,
  into: { readonly stockId: string; readonly wallet: string; readonly tied: string },
): Inventory {
  const batch = found(inventory.batches, batchId, 'batch')
  const order = batch.orders[key.order]
  if (!order || batch.finished.some(isCopy(key))) return inventory
  const own = batch.pieces.filter(isCopy(key))
  if (own.some(({ isCut }) => !isCut))
    throw new InventoryError('This leader still lacks pieces: tick those that are cut first.')
  const { wallet, tied } = into
  const tiedJoints = own.map(({ segment }) => ({ ...key, joint: segment }))
  const joints = [...batch.joints.filter((each) => !isCopy(key)(each)), ...tiedJoints]
  const finished = [...batch.finished, { ...key, wallet, tied }]
  const made = {
    ...inventory,
    batches: withItem(inventory.batches, { ...batch, joints, finished }),
  }
  return addStock(made, { ...into, formula: order.formula, leader: order.leader }, 1)
}

type StockOf = Pick<Stock, 'formula' | 'leader' | 'wallet' | 'tied'> & { readonly stockId: string }

function addStock(inventory: Inventory, { stockId, ...of }: StockOf, count: number): Inventory {
  const there = inventory.stock.find((s) => s.formula === of.formula && s.wallet === of.wallet)
  const entry = there
    ? { ...there, leader: of.leader, tied: of.tied, count: there.count + count }
    : { id: stockId, ...of, count }
  return { ...inventory, stock: withItem(inventory.stock, entry) }
}

/** Takes leaders out of a wallet, or puts some in where the number is negative. */
export function takeFromStock(inventory: Inventory, stockId: string, count: number): Inventory {
  const entry = found(inventory.stock, stockId, 'wallet')
  if (entry.count - count < 0) throw new InventoryError(`Only ${entry.count} left in this wallet.`)
  return {
    ...inventory,
    stock: withItem(inventory.stock, { ...entry, count: entry.count - count }),
  }
}

export const removeBatch = (inventory: Inventory, id: string): Inventory => ({
  ...inventory,
  batches: withoutItem(inventory.batches, id),
})

export function setCutBy(inventory: Inventory, batchId: string, cutBy: CutOrder): Inventory {
  const batch = found(inventory.batches, batchId, 'batch')
  return { ...inventory, batches: withItem(inventory.batches, { ...batch, cutBy }) }
}
