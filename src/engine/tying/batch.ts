/** Many leaders at once: which piece is cut from which spool, what is short, and what it costs. */
import type { Leader, Segment } from '../leader'
import type { Quantity } from '../units'
import type { Spool } from './spool'
import type { PackItem } from './pack'
import { materialOf } from '../leader'
import { cutList } from './cut'
import { pack } from './pack'
import { isFor } from './spool'

/** So many leaders of one formula. */
export interface Order {
  readonly leader: Leader
  readonly count: number
}

/** One piece of one leader of one order, numbered from 0. */
export interface PieceKey {
  readonly order: number
  readonly copy: number
  readonly segment: number
}

export interface PlannedPiece extends PieceKey {
  readonly cut_m: number
  /** The spool it is cut from; null where the shelf has none with enough left. */
  readonly spool: string | null
}

export interface SpoolUse {
  readonly spool: Spool
  readonly before_m: number
  readonly cut_m: number
  readonly pieces: number
  readonly after_m: number
  /** What is left is too short for any piece. */
  readonly isFinished: boolean
}

/** What one kind of strand lacks, and whole spools to buy for it. */
export interface Shortage {
  readonly material: string
  readonly diameter: Quantity
  readonly pieces: number
  /** Of the pieces, and of what may be spoiled beyond what is left on the shelf. */
  readonly length_m: number
  readonly spoilage_m: number
  readonly full_m: number
  readonly spools: number
  /** null where no spool of the kind carries a price. */
  readonly cost: number | null
}

export interface OrderCost {
  /** Material of one leader with its share of spoilage; null where no piece has a price. */
  readonly perLeader: number | null
  /** Pieces of one leader whose spool carries no price: the cost leaves them out. */
  readonly unpriced: number
}

export interface BatchPlan {
  /** Order by order, leader by leader, butt to tippet. */
  readonly pieces: readonly PlannedPiece[]
  /** Spools that are cut from, those that get finished first. */
  readonly uses: readonly SpoolUse[]
  readonly shortages: readonly Shortage[]
  readonly costs: readonly OrderCost[]
  readonly cut_m: number
  /** Tags trimmed off the knots. */
  readonly trimmed_m: number
  /** Ends of finished spools. */
  readonly ends_m: number
  /** No other way of cutting leaves less. */
  readonly isBest: boolean
}

/** Ends shorter than this are thrown away: six inches of piece and its two knots, estimate. */
export const USELESS_END_M = 0.25
/** A whole spool of unknown length: thirty metres (common practice). */
const USUAL_SPOOL_M = 30
/** Lengths are packed in tenths of a millimetre. */
const TENTHS = 1e4

const up = (m: number) => Math.ceil(m * TENTHS - 1e-6)
const down = (m: number) => Math.floor(m * TENTHS + 1e-6)

/**
 * @param spoilage share of the material that may be spoiled, 0 to 1.
 * @param isOpen pieces to plan; the others are cut already.
 */
export function planBatch(
  orders: readonly Order[],
  spools: readonly Spool[],
  spoilage: number,
  isOpen: (piece: PieceKey) => boolean = () => true,
): BatchPlan {
  const needs = needsOf(orders, spools).filter(isOpen)
  const left = spools.map((spool) => down(spool.left.si))
  const items: PackItem[] = needs.map(({ cut_m, bins }) => ({ length: up(cut_m), bins }))
  const packing = pack(left, items, down(USELESS_END_M))
  const placed = needs.map((need, i) => ({ ...need, bin: packing.binOf[i] ?? null }))
  const uses = usesOf(placed, spools)
  return {
    pieces: placed.map(({ order, copy, segment, cut_m, bin }) => {
      const spool = bin === null ? null : (spools[bin]?.id ?? null)
      return { order, copy, segment, cut_m, spool }
    }),
    uses,
    shortages: shortagesOf(placed, spools, spoilage),
    costs: orders.map((order, i) => costOf(order, i, placed, spools, spoilage)),
    cut_m: sum(needs, ({ cut_m }) => cut_m),
    trimmed_m: sum(orders, ({ leader, count }) => count * sum(cutList(leader), (p) => p.trimmed_m)),
    ends_m: sum(uses, ({ isFinished, after_m }) => (isFinished ? after_m : 0)),
    isBest: packing.isBest,
  }
}

interface Need extends PieceKey {
  readonly cut_m: number
  readonly strand: Segment
  readonly kind: string
  /** Indices of the spools that it may be cut from. */
  readonly bins: readonly number[]
}
type Placed = Need & { readonly bin: number | null }

function sum<T>(list: readonly T[], of: (item: T) => number): number {
  return list.reduce((total, item) => total + of(item), 0)
}

function needsOf(orders: readonly Order[], spools: readonly Spool[]): Need[] {
  return orders.flatMap(({ leader, count }, order) => {
    const cut = cutList(leader)
    const pieces = leader.segments.map((strand, segment) => ({
      order,
      segment,
      strand,
      cut_m: cut[segment]?.cut_m ?? 0,
      kind: kindOf(leader, strand),
      bins: spools.flatMap((spool, bin) => (isFor(spool, leader, strand) ? [bin] : [])),
    }))
    return Array.from({ length: count }, (_, copy) =>
      pieces.map((piece) => ({ ...piece, copy })),
    ).flat()
  })
}

/** Strands that one spool serves go by one name: material and labelled size, in a sighter the colour too. */
function kindOf(leader: Leader, strand: Segment): string {
  const colour = strand.part === 'sighter' ? (strand.colour ?? '') : ''
  return `${materialOf(leader, strand.material).name}|${strand.diameter.si.toFixed(6)}|${colour}`
}

function usesOf(placed: readonly Placed[], spools: readonly Spool[]): SpoolUse[] {
  return spools
    .flatMap((spool, bin) => {
      const own = placed.filter((piece) => piece.bin === bin)
      if (own.length === 0) return []
      const before_m = spool.left.si
      const cut_m = sum(own, (piece) => piece.cut_m)
      const after_m = Math.max(0, before_m - cut_m)
      const isFinished = after_m < USELESS_END_M
      return [{ spool, before_m, cut_m, pieces: own.length, after_m, isFinished }]
    })
    .sort((a, b) => Number(b.isFinished) - Number(a.isFinished) || a.before_m - b.before_m)
}

function shortagesOf(
  placed: readonly Placed[],
  spools: readonly Spool[],
  spoilage: number,
): Shortage[] {
  const rest = spools.map((spool) => spool.left.si)
  for (const { bin, cut_m } of placed) if (bin !== null) rest[bin] = (rest[bin] ?? 0) - cut_m
  const kinds = grouped(placed, ({ kind }) => kind)
  return [...kinds.values()].flatMap((pieces) => {
    const found = shortageOf(pieces, spools, rest, spoilage)
    return found ? [found] : []
  })
}

function shortageOf(
  pieces: readonly Placed[],
  spools: readonly Spool[],
  rest: readonly number[],
  spoilage: number,
): Shortage | null {
  const [first] = pieces
  if (!first) return null
  const missing = pieces.filter(({ bin }) => bin === null)
  const longest_m = Math.max(...pieces.map(({ cut_m }) => cut_m))
  const spare_m = sum(first.bins, (bin) => ((rest[bin] ?? 0) >= longest_m ? (rest[bin] ?? 0) : 0))
  const spoilage_m = Math.max(0, spoilage * sum(pieces, ({ cut_m }) => cut_m) - spare_m)
  if (missing.length === 0 && spoilage_m === 0) return null
  const alike = first.bins.map((bin) => spools[bin]).filter((spool) => spool !== undefined)
  const full_m = alike.find(({ full }) => full)?.full?.si ?? USUAL_SPOOL_M
  const count = spoolsToBuy(missing, spoilage_m, Math.max(full_m, longest_m))
  const price = alike.find((spool) => spool.price !== undefined)?.price
  return {
    material: first.strand.material,
    diameter: first.strand.diameter,
    pieces: missing.length,
    length_m: sum(missing, ({ cut_m }) => cut_m),
    spoilage_m,
    full_m,
    spools: count,
    cost: price === undefined ? null : price * count,
  }
}

/** Fewest whole spools that the missing pieces come off, each in one length, with room for what is spoiled. */
function spoolsToBuy(missing: readonly Placed[], spoilage_m: number, full_m: number): number {
  const total_m = sum(missing, ({ cut_m }) => cut_m) + spoilage_m
  for (let count = Math.max(1, Math.ceil(total_m / full_m - 1e-9)); ; count++) {
    const bins = Array.from({ length: count }, (_, bin) => bin)
    const items = missing.map(({ cut_m }) => ({ length: up(cut_m), bins }))
    const full = bins.map(() => down(full_m))
    if (pack(full, items, 0, 2000).score.unplaced === 0) return count
  }
}

function costOf(
  { leader, count }: Order,
  order: number,
  placed: readonly Placed[],
  spools: readonly Spool[],
  spoilage: number,
): OrderCost {
  if (count === 0) return { perLeader: null, unpriced: 0 }
  const own = placed.filter((piece) => piece.order === order)
  const costs = own.map((piece) => priceOf(piece, spools))
  const known = costs.filter((cost) => cost !== null)
  const total = sum(known, (cost) => cost) * (1 + spoilage)
  return {
    perLeader: known.length === 0 ? null : total / count,
    unpriced: leader.segments.filter((_, i) =>
      own.some((piece, k) => piece.segment === i && costs[k] === null),
    ).length,
  }
}

/** From the spool it is cut from, else from any of its kind that would be bought again. */
function priceOf({ bin, bins, cut_m }: Placed, spools: readonly Spool[]): number | null {
  const spool = [...(bin === null ? [] : [bin]), ...bins]
    .map((each) => spools[each])
    .find((each) => each?.price !== undefined)
  if (!spool || spool.price === undefined) return null
  return (spool.price * cut_m) / (spool.full?.si ?? USUAL_SPOOL_M)
}

function grouped<T>(list: readonly T[], by: (item: T) => string): Map<string, T[]> {
  const groups = new Map<string, T[]>()
  for (const item of list) groups.set(by(item), [...(groups.get(by(item)) ?? []), item])
  return groups
}

export const CUT_ORDERS = ['spool', 'leader'] as const
/** One spool at a time and its longest piece first, or leader by leader from butt to tippet. */
export type CutOrder = (typeof CUT_ORDERS)[number]

/** The planned pieces in the order in which they are cut; those without a spool last. */
export function inCutOrder<T extends Pick<PlannedPiece, 'spool' | 'cut_m'>>(
  pieces: readonly T[],
  order: CutOrder,
  spools: readonly Pick<SpoolUse, 'spool'>[],
): T[] {
  if (order === 'leader') return [...pieces]
  const rank = new Map(spools.map(({ spool }, i) => [spool.id, i]))
  const rankOf = ({ spool }: T) => (spool === null ? Infinity : (rank.get(spool) ?? spools.length))
  return [...pieces].sort((a, b) => {
    const [ra, rb] = [rankOf(a), rankOf(b)]
    return ra === rb ? b.cut_m - a.cut_m : ra < rb ? -1 : 1
  })
}
