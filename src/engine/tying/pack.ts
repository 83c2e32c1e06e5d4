/**
 * Pieces into spools, no piece from two ends: bin packing with bins that are there already and differ
 * (a one-dimensional cutting-stock problem; Dyckhoff, European Journal of Operational Research 44, 1990).
 * Greedy starts (best fit decreasing; each spool filled as full as it goes, least left first), then
 * exchanges, then branch and bound within a budget. Whole numbers throughout, so that sums are exact.
 */

export interface PackItem {
  readonly length: number
  /** Bins that it may come from. */
  readonly bins: readonly number[]
}

/** What counts, in this order: all pieces placed; what is left in few, long ends, so that begun spools get finished. */
export interface Score {
  readonly unplaced: number
  /** Sum of squares of the ends that are of use: more is better. */
  readonly together: number
}

export interface Packing {
  /** Bin of every item; null where it has none. */
  readonly binOf: readonly (number | null)[]
  readonly score: Score
  /** No other packing scores better: the search came to its end. */
  readonly isBest: boolean
}

/** An item of a task with its place among them. */
interface Item extends PackItem {
  readonly index: number
}

interface Task {
  readonly items: readonly Item[]
  readonly useless: number
}

type Bins = (number | null)[]

export function isBetter(a: Score, b: Score): boolean {
  if (a.unplaced !== b.unplaced) return a.unplaced < b.unplaced
  return a.together > b.together
}

/**
 * @param left what each bin holds.
 * @param useless ends shorter than this are thrown away and count as nothing.
 * @param budget nodes that branch and bound may visit.
 */
export function pack(
  left: readonly number[],
  items: readonly PackItem[],
  useless: number,
  budget = 40_000,
): Packing {
  const binOf: Bins = items.map(() => null)
  let isBest = true
  const groups = componentsOf(numbered(items))
  for (const group of groups) {
    const task = { items: numbered(group), useless }
    const found = packGroup(left, task, Math.ceil(budget / groups.length))
    for (const [k, { index }] of group.entries()) binOf[index] = found.binOf[k] ?? null
    isBest &&= found.isBest
  }
  return { binOf, score: scoreOf(left, { items, useless }, binOf), isBest }
}

function numbered(items: readonly PackItem[]): Item[] {
  return items.map(({ length, bins }, index) => ({ length, bins, index }))
}

/** Items that share no bin, even through others, are problems of their own. */
function componentsOf(items: readonly Item[]): Item[][] {
  const groupOf = new Map<number, { members: Item[]; bins: Set<number> }>()
  const groups = new Set<{ members: Item[]; bins: Set<number> }>()
  for (const item of items) {
    const own = { members: [item], bins: new Set(item.bins) }
    for (const met of new Set(item.bins.flatMap((bin) => groupOf.get(bin) ?? []))) {
      own.members.push(...met.members)
      for (const bin of met.bins) own.bins.add(bin)
      groups.delete(met)
    }
    for (const bin of own.bins) groupOf.set(bin, own)
    groups.add(own)
  }
  return [...groups].map(({ members }) => members.sort((a, b) => a.index - b.index))
}

function packGroup(left: readonly number[], task: Task, budget: number) {
  const starts = [bestFit(left, task), fillOneByOne(left, task)].map((bins) =>
    exchanged(left, task, bins),
  )
  const best = starts.reduce((a, b) =>
    isBetter(scoreOf(left, task, b), scoreOf(left, task, a)) ? b : a,
  )
  return branchAndBound(left, task, best, budget)
}

function restOf(
  left: readonly number[],
  items: readonly PackItem[],
  binOf: Readonly<Bins>,
): number[] {
  const rest = [...left]
  for (const [i, { length }] of items.entries()) {
    const bin = binOf[i] ?? null
    if (bin !== null) rest[bin]! -= length
  }
  return rest
}

export function scoreOf(
  left: readonly number[],
  { items, useless }: { readonly items: readonly PackItem[]; readonly useless: number },
  binOf: Readonly<Bins>,
): Score {
  return {
    unplaced: unplacedOf(items, binOf),
    together: togetherOf(restOf(left, items, binOf), useless),
  }
}

function unplacedOf(items: readonly PackItem[], binOf: Readonly<Bins>): number {
  return items.reduce((sum, { length }, i) => sum + (binOf[i] === null ? length : 0), 0)
}

function togetherOf(rest: readonly number[], useless: number): number {
  let together = 0
  for (const end of rest) if (end >= useless) together += end * end
  return together
}

const longestFirst = ({ items }: Task) =>
  [...items].sort((a, b) => b.length - a.length || a.index - b.index)

/** Longest piece first, each to the spool that it leaves least on. */
function bestFit(left: readonly number[], task: Task): Bins {
  const rest = [...left]
  const binOf: Bins = task.items.map(() => null)
  for (const { index, length, bins } of longestFirst(task)) {
    const fits = bins.filter((bin) => rest[bin]! >= length).sort((a, b) => rest[a]! - rest[b]!)
    if (fits[0] === undefined) continue
    binOf[index] = fits[0]
    rest[fits[0]]! -= length
  }
  return binOf
}

/** Least left first, each spool is cut as near to its end as the pieces allow. */
function fillOneByOne(left: readonly number[], task: Task): Bins {
  const binOf: Bins = task.items.map(() => null)
  const bins = [...new Set(task.items.flatMap((item) => item.bins))]
  for (const bin of bins.sort((a, b) => left[a]! - left[b]!)) {
    const open = longestFirst(task).filter(
      (item) => binOf[item.index] === null && item.bins.includes(bin),
    )
    for (const { index } of fullest(left[bin]!, open)) binOf[index] = bin
  }
  return binOf
}

/** Cells of the table of sums: lengths are rounded up and the spool down to them, so the answer always fits. */
const CELLS = 6000

/** The items whose sum comes nearest to the room: subset sum by dynamic programming. */
function fullest(room: number, open: readonly Item[]): Item[] {
  const total = open.reduce((sum, { length }) => sum + length, 0)
  if (total <= room) return [...open]
  const cell = Math.max(1, Math.ceil(room / CELLS))
  const cells = Math.floor(room / cell)
  // Which item first reached a sum, and -1 for none; 0 is reached by nothing.
  const by = new Int32Array(cells + 1).fill(-1)
  let top = 0
  for (const [k, { length }] of open.entries()) {
    const size = Math.ceil(length / cell)
    for (let sum = Math.min(cells, top + size); sum >= size; sum--) {
      const isReached = sum === size || by[sum - size]! >= 0
      if (!isReached || by[sum]! >= 0) continue
      by[sum] = k
      top = Math.max(top, sum)
    }
    if (top === cells) break
  }
  return walkBack(by, top, open, cell)
}

function walkBack(by: Int32Array, top: number, open: readonly Item[], cell: number): Item[] {
  const chosen: Item[] = []
  for (let sum = top; sum > 0;) {
    const item = open[by[sum]!]!
    chosen.push(item)
    sum -= Math.ceil(item.length / cell)
  }
  return chosen
}

const MOST_ROUNDS = 40

/** Moves single pieces and swaps pairs as long as that scores better. */
function exchanged(left: readonly number[], task: Task, start: Bins): Bins {
  const binOf = [...start]
  const rest = restOf(left, task.items, binOf)
  for (let round = 0; round < MOST_ROUNDS; round++) {
    if (!moveOne(rest, task, binOf) && !swapTwo(rest, task, binOf)) break
  }
  return binOf
}

/** How the score changes where the ends of two bins (or of one and nothing) change, as a Score of differences. */
function isGain(
  before: readonly number[],
  after: readonly number[],
  placed: number,
  useless: number,
) {
  const [a, b] = [togetherOf(before, useless), togetherOf(after, useless)]
  return isBetter({ unplaced: -placed, together: b }, { unplaced: 0, together: a })
}

function moveOne(rest: number[], { items, useless }: Task, binOf: Bins): boolean {
  let moved = false
  for (const { index, length, bins } of items) {
    for (const to of bins) {
      const from = binOf[index] ?? null
      const [here, there] = [from === null ? null : rest[from]!, rest[to]!]
      if (to === from || there < length) continue
      const before = here === null ? [there] : [there, here]
      const after = here === null ? [there - length] : [there - length, here + length]
      if (!isGain(before, after, from === null ? length : 0, useless)) continue
      binOf[index] = to
      rest[to] = there - length
      if (from !== null && here !== null) rest[from] = here + length
      moved = true
    }
  }
  return moved
}

function swapTwo(rest: number[], { items, useless }: Task, binOf: Bins): boolean {
  let swapped = false
  for (const a of items) {
    for (const b of items.slice(a.index + 1)) {
      if (trySwap(a, b) || trySwap(b, a)) swapped = true
    }
  }
  return swapped

  /** Item a goes where b lies; b goes where a lay, or nowhere where a had no place. */
  function trySwap(a: Item, b: Item): boolean {
    const [from, to] = [binOf[a.index] ?? null, binOf[b.index] ?? null]
    if (to === null || from === to || a.length === b.length || !a.bins.includes(to)) return false
    const there = rest[to]!
    const toRest = there + b.length - a.length
    if (toRest < 0) return false
    if (from === null) {
      if (!isGain([there], [toRest], a.length - b.length, useless)) return false
    } else {
      const here = rest[from]!
      const fromRest = here + a.length - b.length
      if (fromRest < 0 || !b.bins.includes(from)) return false
      if (!isGain([there, here], [toRest, fromRest], 0, useless)) return false
      rest[from] = fromRest
    }
    rest[to] = toRest
    binOf[a.index] = to
    binOf[b.index] = from
    return true
  }
}

/** Goes through all packings, longest piece first, but for branches that cannot beat the best one known. */
function branchAndBound(left: readonly number[], task: Task, start: Bins, budget: number) {
  const { items, useless } = task
  const order = longestFirst(task)
  const bins = [...new Set(items.flatMap((item) => item.bins))]
  const ahead = suffixSums(order)
  const shortest = order.at(-1)?.length ?? 0
  const rest = [...left]
  const trial: Bins = items.map(() => null)
  let best = [...start]
  let score = scoreIn(best)
  let nodes = 0

  function scoreIn(binOf: Readonly<Bins>): Score {
    const ends = restOf(left, items, binOf)
    const ours = bins.map((bin) => ends[bin]!)
    return { unplaced: unplacedOf(items, binOf), together: togetherOf(ours, useless) }
  }

  /** The best that can still come of what is placed, item `at` of the order being next. */
  function bound(at: number, unplaced: number): Score {
    const ends = bins.map((bin) => rest[bin]!).sort((a, b) => a - b)
    const room = ends.reduce((sum, end) => sum + (end >= shortest ? end : 0), 0)
    const open = ahead[at]!
    let toPlace = Math.min(open, room)
    const lost = open - toPlace
    let together = 0
    for (const end of ends) {
      if (end < shortest && end < useless) continue
      // Taking x from an end r loses 2rx - x2 of its square, which is r x at least.
      const taken = end >= shortest ? Math.min(end, toPlace) : 0
      toPlace -= taken
      together += end * end - end * taken
    }
    return { unplaced: unplaced + lost, together }
  }

  function visit(at: number, unplaced: number): void {
    if (++nodes > budget) return
    const item = order[at]
    if (!item) {
      const found = scoreIn(trial)
      if (isBetter(found, score)) [best, score] = [[...trial], found]
      return
    }
    if (!isBetter(bound(at, unplaced), score)) return
    const { index, length } = item
    for (const bin of choicesOf(item, order[at - 1])) {
      rest[bin]! -= length
      trial[index] = bin
      visit(at + 1, unplaced)
      trial[index] = null
      rest[bin]! += length
    }
    visit(at + 1, unplaced + length)
  }

  /** Twins are placed in the order of their bins: the other orders say the same. */
  function choicesOf(item: Item, before: Item | undefined): number[] {
    const from = before && isSame(before, item) ? trial[before.index] : undefined
    if (from === null) return []
    return item.bins
      .filter((bin) => rest[bin]! >= item.length && (from === undefined || bin >= from))
      .sort((a, b) => rest[a]! - rest[b]!)
  }

  visit(0, 0)
  return { binOf: best, isBest: nodes <= budget }
}

const isSame = (a: PackItem, b: PackItem) =>
  a.length === b.length &&
  a.bins.length === b.bins.length &&
  a.bins.every((bin) => b.bins.includes(bin))

/** Summed lengths of the items from each place of the order on. */
function suffixSums(order: readonly Item[]): number[] {
  const sums = [0]
  let sum = 0
  for (const { length } of [...order].reverse()) sums.unshift((sum += length))
  return sums
}
