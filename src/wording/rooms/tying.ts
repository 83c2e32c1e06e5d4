import { plural } from '../figures'
import { room } from '../language'

const leaders = (count: number) => `${count} ${plural(count, { one: 'leader', other: 'leaders' })}`
const pieces = (count: number) => `${count} ${plural(count, { one: 'piece', other: 'pieces' })}`

export const tying = room('tying', {
  title: 'Tying',
  plan: 'Plan a batch',
  spools: 'Spools',
  batches: 'Batches',
  empty:
    'No batch yet. Choose formulas and counts, and the spools on the shelf are shared out so that the begun ones get finished.',
  progress: (p: { cut: number; pieces: number; finished: number; leaders: number }) =>
    `${p.cut} of ${pieces(p.pieces)} cut, ${p.finished} of ${leaders(p.leaders)} finished`,
  steps: {
    begin: 'Begin a batch',
    remove: 'Remove a batch',
    planAnew: 'Plan anew',
    cutOrder: 'Order of cutting',
    cut: 'Cut a piece',
    uncut: 'Put a piece back',
    spoil: 'Cut a spoiled piece anew',
    tie: 'Tie a joint',
    untie: 'Untie a joint',
    finish: 'Finish a leader',
    take: 'Take a leader',
    putBack: 'Put a leader back',
  },
  batch: {
    cutOf: ({ done, all }: { done: number; all: number }) => `Cut ${done} of ${all}`,
    tiedOf: ({ done, all }: { done: number; all: number }) => `Tied ${done} of ${all}`,
    finishedOf: ({ done, all }: { done: number; all: number }) => `Finished ${done} of ${all}`,
    missing: ({ count }: { count: number }) =>
      `${count} pieces have no spool yet. Add what you bought under Spools, then plan anew.`,
    cut: 'Cut',
    tie: 'Tie',
    order: 'Order',
    bySpool: 'spool by spool, longest first',
    byLeader: 'leader by leader',
    planAnew: 'Plan anew',
    sheet: 'Bench sheet',
    remove: 'Remove the batch',
  },
  cuts: {
    countOf: ({ done, all }: { done: number; all: number }) => `${done} of ${all}`,
    cutPiece: ({ length, piece }: { length: string; piece: string }) => `Cut ${length}, ${piece}`,
    spoiledTimes: ({ times }: { times: number }) => `cut anew ${times} ×`,
    spoiledPiece: ({ piece }: { piece: string }) => `Spoiled: cut ${piece} anew`,
    spoiled: 'Spoiled',
    goneSpool: 'A spool that was taken off the shelf',
    notOnShelf: ({ strand }: { strand: string }) => `Not on the shelf: ${strand}`,
    leader: ({ name, number }: { name: string; number: number }) => `${name}, no. ${number}`,
    piece: ({ number, leader }: { number: number; leader: string }) =>
      `piece ${number} of ${leader}`,
  },
  ticks: {
    wallet: 'Finished leaders go to',
    usualWallet: 'Wallet 1',
    inWallet: ({ wallet }: { wallet: string }) => `in ${wallet}`,
    uncut: ({ count }: { count: number }) => `${count} pieces to cut`,
    tied: ({ done, all }: { done: number; all: number }) => `${done} of ${all} joints tied`,
    atLine: ({ knot, size }: { knot: string; size: string }) => `${knot}, at the line, ${size}`,
    joint: ({ knot, from, to }: { knot: string; from: string; to: string }) =>
      `${knot}, ${from} to ${to}`,
    finished: 'Finished: into the wallet',
  },
  newBatch: {
    title: 'A new batch',
    name: 'Name',
    nameExample: 'Winter evening',
    spoiled: 'Spoiled, per cent',
    find: 'Find',
    usualName: ({ count }: { count: number }) => `${count} leaders`,
    beginNone: 'Begin leaders',
    begin: ({ count }: { count: number }) => `Begin ${leaders(count)}`,
    leave: 'Leave it',
  },
  plans: {
    sum: (p: { pieces: number; cut: string; trimmed: string; ends: string }) =>
      `${pieces(p.pieces)}, ${p.cut} in all; ${p.trimmed} of it are tags trimmed off the knots, and ${p.ends} are ends of finished spools.`,
    best: 'No other way of cutting finishes more.',
    good: 'A very good way of cutting; too many to be tried all.',
    toBuy: 'To buy',
    spools: ({ count, strand, size }: { count: number; strand: string; size: string }) =>
      `${count} ${plural(count, { one: 'spool', other: 'spools' })} of ${strand} ${size}`,
    shortPieces: (p: { spools: string; each: string; count: number; length: string }) =>
      `${p.spools} (${p.each}): ${pieces(p.count)}, ${p.length}, are not on the shelf`,
    shortSpoilage: (p: { spools: string; each: string; length: string }) =>
      `${p.spools} (${p.each}): only what may be spoiled, ${p.length}, is not on the shelf`,
    each: ({ length }: { length: string }) => `${length} each`,
    eachAt: ({ length, price }: { length: string; price: string }) => `${length} each, ${price}`,
    used: 'Spools used',
    from: 'From',
    pieces: 'Pieces',
    cut: 'Cut',
    after: 'Left after',
    usedUp: ({ left }: { left: string }) => `finished (${left})`,
    cost: ({ leader, price }: { leader: string; price: string }) => `${leader}: ${price} a leader`,
    costPartly: (p: { leader: string; price: string; unpriced: number }) =>
      `${p.leader}: ${p.price} a leader, ${pieces(p.unpriced)} without a price`,
  },
  wallets: {
    title: 'Wallets',
    labels: 'Labels',
    entry: ({ leader, length, tied }: { leader: string; length: string; tied: string }) =>
      `${leader}, ${length}, tied ${tied}`,
    take: 'Take one',
    takeOne: ({ leader, wallet }: { leader: string; wallet: string }) =>
      `Take one ${leader} from ${wallet}`,
    putBack: 'Put back',
    putOneBack: ({ leader, wallet }: { leader: string; wallet: string }) =>
      `Put one ${leader} back into ${wallet}`,
  },
})
