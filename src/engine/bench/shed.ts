/**
 * The tying shed: spools, batches under way and finished leaders. Every step is a function shed -> shed or a
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

export interface Shed {
  readonly spools: readonly ShelfSpool[]
  readonly batches: readonly Batch[]
  readonly stock: readonly Stock[]
}

export const EMPTY_SHED: Shed = { spools: [], batches: [], stock: [] }

/** Refused: what is wrong and what to do. */
export class ShedError extends Error {}

export const left_m = (spool: ShelfSpool): number => Math.max(0, spool.left.si - spool.taken_m)

/** The spool as plans see it: with what is left now. */
export function asItStands(spool: ShelfSpool): Spool {
  return { ...spool, left: { ...spool.left, si: left_m(spool) } }
}

/** Spools in the order in which they are cut from: what is nearly finished first. */
export const leastLeftFirst = ({ spools }: Shed): ShelfSpool[] =>
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
  if (!item) throw new ShedError(`This ${what} is no longer here: another tab may have removed it.`)
  return item
}

/** A spool as the user states it anew; what was cut off before is in the stated length. */
export function putSpool(shed: Shed, spool: Spool): Shed {
  const before = shed.spools.find(({ id }) => id === spool.id)
  const isRestated =
    !before || before.left.text !== spool.left.text || before.left.unit !== spool.left.unit
  const taken_m = isRestated ? 0 : before.taken_m
  return { ...shed, spools: withItem(shed.spools, { ...spool, taken_m }) }
}

export const removeSpool = (shed: Shed, id: string): Shed => ({
  ...shed,
  spools: withoutItem(shed.spools, id),
})

export interface NewBatch {
  readonly id: string
  readonly name: string
  readonly begun: string
  readonly orders: readonly BatchOrder[]
  readonly spoilage: number
}

/** Plans a batch from what is on the shelf and not spoken for by batches under way. */
export function beginBatch(shed: Shed, { orders, spoilage, ...rest }: NewBatch): Shed {
  const plan = planBatch(orders, freeSpools(shed), spoilage)
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
  return { ...shed, batches: withItem(shed.batches, batch) }
}

/** The shelf less what batches, but for the one named, have planned and not yet cut. */
export function freeSpools(shed: Shed, but?: string): Spool[] {
  const planned = new Map<string, number>()
  for (const batch of shed.batches) {
    if (batch.id === but) continue
    for (const { spool, cut_m, isCut } of batch.pieces)
      if (spool !== null && !isCut) planned.set(spool, (planned.get(spool) ?? 0) + cut_m)
  }
  return shed.spools.map((spool) => {
    const si = Math.max(0, left_m(spool) - (planned.get(spool.id) ?? 0))
    return { ...asItStands(spool), left: { ...spool.left, si } }
  })
}

/** Plans anew what is not yet cut: after buying, or after a spool turned out shorter than it said. */
export function replan(shed: Shed, batchId: string): Shed {
  const batch = found(shed.batches, batchId, 'batch')
  const open = new Set(batch.pieces.filter(({ isCut }) => !isCut).map(keyOf))
  const isOpen = (piece: PieceKey) => open.has(keyOf(piece))
  const plan = planBatch(batch.orders, freeSpools(shed, batchId), batch.spoilage, isOpen)
  const spoolOf = new Map(plan.pieces.map((piece) => [keyOf(piece), piece.spool]))
  return putPieces(shed, batch, (piece) =>
    piece.isCut ? piece : { ...piece, spool: spoolOf.get(keyOf(piece)) ?? null },
  )
}

export const keyOf = ({ order, copy, segment }: PieceKey): string => `${order}.${copy}.${segment}`

function putPieces(shed: Shed, batch: Batch, change: (piece: BatchPiece) => BatchPiece): Shed {
  const pieces = batch.pieces.map(change)
  return { ...shed, batches: withItem(shed.batches, { ...batch, pieces }) }
}

function pieceOf(batch: Batch, key: PieceKey): BatchPiece {
  const piece = batch.pieces.find((each) => keyOf(each) === keyOf(key))
  if (!piece) throw new ShedError('This piece is not in the batch.')
  return piece
}

/** Takes a length off a spool, or puts it back where it is negative; a spool that is gone is let be. */
function take(shed: Shed, spoolId: string, length_m: number): Shed {
  const spool = shed.spools.find(({ id }) => id === spoolId)
  if (!spool) return shed
  if (length_m > left_m(spool) + 1e-9)
    throw new ShedError(
      'This spool no longer holds the length: state what is left on it, then plan anew.',
    )
  const taken_m = Math.max(0, spool.taken_m + length_m)
  return { ...shed, spools: withItem(shed.spools, { ...spool, taken_m }) }
}

/** Ticks a piece as cut, and the spool falls by it; unticked, its length comes back. */
export function setCut(shed: Shed, batchId: string, key: PieceKey, isCut: boolean): Shed {
  const batch = found(shed.batches, batchId, 'batch')
  const piece = pieceOf(batch, key)
  if (piece.isCut === isCut) return shed
  if (piece.spool === null)
    throw new ShedError('No spool on the shelf holds this piece: add one, then plan anew.')
  const taken = take(shed, piece.spool, isCut ? piece.cut_m : -piece.cut_m)
  return putPieces(taken, batch, (each) => (each === piece ? { ...each, isCut } : each))
}

/** A piece went wrong: another is cut from the same spool. */
export function spoil(shed: Shed, batchId: string, key: PieceKey): Shed {
  const batch = found(shed.batches, batchId, 'batch')
  const piece = pieceOf(batch, key)
  if (!piece.isCut || piece.spool === null)
    throw new ShedError('Only a piece that is cut can be spoiled.')
  const taken = take(shed, piece.spool, piece.cut_m)
  const spoiled = piece.spoiled + 1
  return putPieces(taken, batch, (each) => (each === piece ? { ...each, spoiled } : each))
}

const isCopy =
  ({ order, copy }: Copy) =>
  (other: Copy) =>
    other.order === order && other.copy === copy

export function setTied(
  shed: Shed,
  batchId: string,
  key: Copy & { readonly joint: number },
  isTied: boolean,
): Shed {
  const batch = found(shed.batches, batchId, 'batch')
  const others = batch.joints.filter((each) => !(isCopy(key)(each) && each.joint === key.joint))
  const joints = isTied ? [...others, key] : others
  return { ...shed, batches: withItem(shed.batches, { ...batch, joints }) }
}

/** A leader is finished and goes into its wallet; all its joints are tied. */
export function finish(
  shed: Shed,
  batchId: string,
  key: Copy,
  into: { readonly stockId: string; readonly wallet: string; readonly tied: string },
): Shed {
  const batch = found(shed.batches, batchId, 'batch')
  const order = batch.orders[key.order]
  if (!order || batch.finished.some(isCopy(key))) return shed
  const own = batch.pieces.filter(isCopy(key))
  if (own.some(({ isCut }) => !isCut))
    throw new ShedError('This leader still lacks pieces: tick those that are cut first.')
  const { wallet, tied } = into
  const tiedJoints = own.map(({ segment }) => ({ ...key, joint: segment }))
  const joints = [...batch.joints.filter((each) => !isCopy(key)(each)), ...tiedJoints]
  const finished = [...batch.finished, { ...key, wallet, tied }]
  const made = { ...shed, batches: withItem(shed.batches, { ...batch, joints, finished }) }
  return addStock(made, { ...into, formula: order.formula, leader: order.leader }, 1)
}

type StockOf = Pick<Stock, 'formula' | 'leader' | 'wallet' | 'tied'> & { readonly stockId: string }

function addStock(shed: Shed, { stockId, ...of }: StockOf, count: number): Shed {
  const there = shed.stock.find((s) => s.formula === of.formula && s.wallet === of.wallet)
  const entry = there
    ? { ...there, leader: of.leader, tied: of.tied, count: there.count + count }
    : { id: stockId, ...of, count }
  return { ...shed, stock: withItem(shed.stock, entry) }
}

/** Takes leaders out of a wallet, or puts some in where the number is negative. */
export function takeFromStock(shed: Shed, stockId: string, count: number): Shed {
  const entry = found(shed.stock, stockId, 'wallet')
  if (entry.count - count < 0) throw new ShedError(`Only ${entry.count} left in this wallet.`)
  return { ...shed, stock: withItem(shed.stock, { ...entry, count: entry.count - count }) }
}

export const removeBatch = (shed: Shed, id: string): Shed => ({
  ...shed,
  batches: withoutItem(shed.batches, id),
})

export function setCutBy(shed: Shed, batchId: string, cutBy: CutOrder): Shed {
  const batch = found(shed.batches, batchId, 'batch')
  return { ...shed, batches: withItem(shed.batches, { ...batch, cutBy }) }
}
