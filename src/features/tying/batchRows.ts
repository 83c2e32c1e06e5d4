import type { Batch, BatchPiece, Inventory, Spool } from '../../engine/tying'
import type { SpoolLengthUnit } from '../../engine/units'
import { inCutOrder, leastLeftFirst } from '../../engine/tying'
import { materialOf } from '../../engine/leader'
import { BUILT_IN_MATERIALS } from '../../engine/materials'
import { figure } from '../../wording/figures'
import { tying as words } from '../../wording/rooms/tying'

/** Pieces of one batch under one heading: a spool, or a leader. */
export interface CutGroup {
  readonly key: string
  readonly title: string
  readonly pieces: readonly BatchPiece[]
}

/** The strand that a piece wants, as it is bought. */
function strandText(batch: Batch, { order, segment }: BatchPiece): string {
  const leader = batch.orders[order]?.leader
  const strand = leader?.segments[segment]
  if (!leader || !strand) return ''
  const { diameter: on } = strand
  const written = on.bare ? figure(on.si, 'diameter', on.unit) : on.text
  return `${materialOf(leader, strand.material).name} ${written}`
}

function spoolTitle(inventory: Inventory, id: string): string {
  const spool = inventory.spools.find((each) => each.id === id)
  return spool ? spoolText(spool) : words.cuts.goneSpool
}

export function spoolText({ material, size, label }: Spool): string {
  const name = BUILT_IN_MATERIALS.find((m) => m.id === material)?.name ?? material
  const written = size.bare ? figure(size.si, 'diameter', size.unit) : size.text
  return [name, written, label].filter(Boolean).join(' ')
}

/** The cut list in the order the batch is cut in: spools with least left first, each longest piece first. */
export function cutGroups(batch: Batch, inventory: Inventory): CutGroup[] {
  if (batch.cutBy === 'leader')
    return grouped(
      batch.pieces,
      ({ order, copy }) => `${order}.${copy}`,
      ({ order, copy }) => leaderTitle(batch, order, copy),
    )
  const uses = leastLeftFirst(inventory).map((spool) => ({ spool }))
  const pieces = inCutOrder(batch.pieces, 'spool', uses)
  return grouped(
    pieces,
    (piece) => piece.spool ?? strandText(batch, piece),
    (piece) =>
      piece.spool === null
        ? words.cuts.notOnShelf({ strand: strandText(batch, piece) })
        : spoolTitle(inventory, piece.spool),
  )
}

function grouped(
  pieces: readonly BatchPiece[],
  keyFor: (piece: BatchPiece) => string,
  titleFor: (piece: BatchPiece) => string,
): CutGroup[] {
  const groups = new Map<string, { key: string; title: string; pieces: BatchPiece[] }>()
  for (const piece of pieces) {
    const key = keyFor(piece)
    const group = groups.get(key) ?? { key, title: titleFor(piece), pieces: [] }
    group.pieces.push(piece)
    groups.set(key, group)
  }
  return [...groups.values()]
}

function leaderTitle(batch: Batch, order: number, copy: number): string {
  const name = batch.orders[order]?.leader.name ?? ''
  return words.cuts.leader({ name, number: copy + 1 })
}

/** `Piece 3 of Middle Sallow 9 ft 5X, no. 2`. */
export function pieceTitle(batch: Batch, { order, copy, segment }: BatchPiece): string {
  return words.cuts.piece({ number: segment + 1, leader: leaderTitle(batch, order, copy) })
}

export interface Progress {
  readonly cut: number
  readonly pieces: number
  readonly tied: number
  readonly joints: number
  readonly finished: number
  readonly leaders: number
}

/** The fly's knot is tied at the water, so a leader has as many joints at the bench as it has pieces. */
export function progressOf(batch: Batch): Progress {
  return {
    cut: batch.pieces.filter(({ isCut }) => isCut).length,
    pieces: batch.pieces.length,
    tied: batch.joints.length,
    joints: batch.pieces.length,
    finished: batch.finished.length,
    leaders: batch.orders.reduce((sum, { count }) => sum + count, 0),
  }
}

/** Leaders of a batch, those still to be finished first. */
export function leadersOf(batch: Batch) {
  const all = batch.orders.flatMap(({ leader, count }, order) =>
    Array.from({ length: count }, (_, copy) => {
      const own = batch.pieces.filter((p) => p.order === order && p.copy === copy)
      const done = batch.finished.find((f) => f.order === order && f.copy === copy)
      const tied = batch.joints.filter((j) => j.order === order && j.copy === copy)
      return {
        order,
        copy,
        leader,
        title: leaderTitle(batch, order, copy),
        uncut: own.filter(({ isCut }) => !isCut).length,
        joints: leader.segments.map((_s, joint) => tied.some((t) => t.joint === joint)),
        wallet: done?.wallet,
      }
    }),
  )
  return [...all].sort((a, b) => Number(a.wallet !== undefined) - Number(b.wallet !== undefined))
}

/** Lengths of a batch are spools, not pieces: in the unit that most spools are stated in. */
export function spoolUnit(spools: readonly Spool[]): SpoolLengthUnit {
  const inYards = spools.filter(({ left }) => left.unit === 'yd' || left.unit === 'ft').length
  return inYards * 2 > spools.length ? 'yd' : 'm'
}
