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

interface Task {
  readonly items: readonly PackItem[]
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
  const groups = componentsOf(items)
  for (const group of groups) {
    const task = { items: group.map((i) => items[i] as PackItem), useless }
    const found = packGroup(left, task, Math.ceil(budget / groups.length))
    for (const [k, i] of group.entries()) binOf[i] = found.binOf[k] ?? null
    isBest &&= found.isBest
  }
  return { binOf, score: scoreOf(left, { items, useless }, binOf), isBest }
}

/** Items that share no bin, even through others, are problems of their own. */
function componentsOf(items: readonly PackItem[]): number[][] {
  const groupOf = new Map<number, { members: number[]; bins: Set<number> }>()
  const groups = new Set<{ members: number[]; bins: Set<number> }>()
  for (const [i, { bins }] of items.entries()) {
    const own = { members: [i], bins: new Set(bins) }
    for (const met of new Set(bins.flatMap((bin) => groupOf.get(bin) ?? []))) {
      own.members.push(...met.members)
      for (const bin of met.bins) own.bins.add(bin)
      groups.delete(met)
    }
    for (const bin of own.bins) groupOf.set(bin, own)
    groups.add(own)
  }
  return [...groups].map(({ members }) => members.sort((a, b) => a - b))
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

function restOf(left: readonly number[], { items }: Task, binOf: Readonly<Bins>): number[] {
  const rest = [...left]
  for (const [i, bin] of binOf.entries()) if (bin !== null) rest[bin]! -= items[i]!.length
  return rest
}

export function scoreOf(left: readonly number[], task: Task, binOf: Readonly<Bins>): Score {
  const rest = restOf(left, task, binOf)
  const unplaced = task.items.reduce(
    (sum, { length }, i) => sum + (binOf[i] === null ? length : 0),
    0,
  )
  return { unplaced, together: togetherOf(rest, task.useless) }
}

function togetherOf(rest: readonly number[], useless: number): number {
  let together = 0
  for (const end of rest) if (end >= useless) together += end * end
  return together
}

const longestFirst = ({ items }: Task) =>
  items.map((_, i) => i).sort((a, b) => items[b]!.length - items[a]!.length || a - b)

/** Longest piece first, each to the spool that it leaves least on. */
function bestFit(left: readonly number[], task: Task): Bins {
  const rest = [...left]
  const binOf: Bins = task.items.map(() => null)
  for (const i of longestFirst(task)) {
    const { length, bins } = task.items[i]!
    const fits = bins.filter((bin) => rest[bin]! >= length).sort((a, b) => rest[a]! - rest[b]!)
    if (fits[0] === undefined) continue
    binOf[i] = fits[0]
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
      (i) => binOf[i] === null && task.items[i]!.bins.includes(bin),
    )
    for (const i of fullest(left[bin]!, open, task)) binOf[i] = bin
  }
  return binOf
}

/** Cells of the table of sums: lengths are rounded up and the spool down to them, so the answer always fits. */
const CELLS = 6000

/** The items whose sum comes nearest to the room: subset sum by dynamic programming. */
function fullest(room: number, open: readonly number[], { items }: Task): number[] {
  const total = open.reduce((sum, i) => sum + items[i]!.length, 0)
  if (total <= room) return [...open]
  const cell = Math.max(1, Math.ceil(room / CELLS))
  const cells = Math.floor(room / cell)
  // Which item first reached a sum, and -1 for none; 0 is reached by nothing.
  const by = new Int32Array(cells + 1).fill(-1)
  let top = 0
  for (const [k, i] of open.entries()) {
    const size = Math.ceil(items[i]!.length / cell)
    for (let sum = Math.min(cells, top + size); sum >= size; sum--) {
      const isReached = sum === size || by[sum - size]! >= 0
      if (!isReached || by[sum]! >= 0) continue
      by[sum] = k
      top = Math.max(top, sum)
    }
    if (top === cells) break
  }
  return walkBack(by, top, open, (i) => Math.ceil(items[i]!.length / cell))
}

function walkBack(
  by: Int32Array,
  top: number,
  open: readonly number[],
  size: (i: number) => number,
) {
  const chosen: number[] = []
  for (let sum = top; sum > 0;) {
    const i = open[by[sum]!]!
    chosen.push(i)
    sum -= size(i)
  }
  return chosen
}

const MOST_ROUNDS = 40

/** Moves single pieces and swaps pairs as long as that scores better. */
function exchanged(left: readonly number[], task: Task, start: Bins): Bins {
  const binOf = [...start]
  const rest = restOf(left, task, binOf)
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
  for (const [i, { length, bins }] of items.entries()) {
    for (const to of bins) {
      const from = binOf[i] ?? null
      if (to === from || rest[to]! < length) continue
      const before = from === null ? [rest[to]!] : [rest[to]!, rest[from]!]
      const after =
        from === null ? [rest[to]! - length] : [rest[to]! - length, rest[from]! + length]
      if (!isGain(before, after, from === null ? length : 0, useless)) continue
      binOf[i] = to
      rest[to]! -= length
      if (from !== null) rest[from]! += length
      moved = true
    }
  }
  return moved
}

function swapTwo(rest: number[], { items, useless }: Task, binOf: Bins): boolean {
  let swapped = false
  for (let i = 0; i < items.length; i++) {
    for (let k = i + 1; k < items.length; k++) {
      if (trySwap(i, k) || trySwap(k, i)) swapped = true
    }
  }
  return swapped

  /** Item i goes where k lies; k goes where i lay, or nowhere where i had no place. */
  function trySwap(i: number, k: number): boolean {
    const [a, b] = [items[i]!, items[k]!]
    const [from, to] = [binOf[i] ?? null, binOf[k] ?? null]
    if (to === null || from === to || a.length === b.length || !a.bins.includes(to)) return false
    const toRest = rest[to]! + b.length - a.length
    if (toRest < 0) return false
    if (from === null) {
      if (!isGain([rest[to]!], [toRest], a.length - b.length, useless)) return false
    } else {
      const fromRest = rest[from]! + a.length - b.length
      if (fromRest < 0 || !b.bins.includes(from)) return false
      if (!isGain([rest[to]!, rest[from]!], [toRest, fromRest], 0, useless)) return false
      rest[from] = fromRest
    }
    rest[to] = toRest
    binOf[i] = to
    binOf[k] = from
    return true
  }
}

/** Goes through all packings, longest piece first, but for branches that cannot beat the best one known. */
function branchAndBound(left: readonly number[], task: Task, start: Bins, budget: number) {
  const { items, useless } = task
  const order = longestFirst(task)
  const bins = [...new Set(items.flatMap((item) => item.bins))]
  const ahead = suffixSums(order, items)
  const rest = [...left]
  const trial: Bins = items.map(() => null)
  let best = [...start]
  let score = scoreIn(best)
  let nodes = 0

  function scoreIn(binOf: Readonly<Bins>): Score {
    const ends = restOf(left, task, binOf)
    const unplaced = items.reduce((sum, item, i) => sum + (binOf[i] === null ? item.length : 0), 0)
    const together = togetherOf(
      bins.map((bin) => ends[bin]!),
      useless,
    )
    return { unplaced, together }
  }

  /** The best that can still come of what is placed, item `at` of the order being next. */
  function bound(at: number, unplaced: number): Score {
    const shortest = items[order.at(-1)!]?.length ?? 0
    const ends = bins.map((bin) => rest[bin]!).sort((a, b) => a - b)
    const room = ends.reduce((sum, end) => sum + (end >= shortest ? end : 0), 0)
    let toPlace = Math.min(ahead[at]!, room)
    const lost = ahead[at]! - toPlace
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
    const i = order[at]
    if (i === undefined) {
      const found = scoreIn(trial)
      if (isBetter(found, score)) [best, score] = [[...trial], found]
      return
    }
    if (!isBetter(bound(at, unplaced), score)) return
    const { length } = items[i]!
    for (const bin of choicesOf(at)) {
      rest[bin]! -= length
      trial[i] = bin
      visit(at + 1, unplaced)
      trial[i] = null
      rest[bin]! += length
    }
    visit(at + 1, unplaced + length)
  }

  /** Twins are placed in the order of their bins: the other orders say the same. */
  function choicesOf(at: number): number[] {
    const item = items[order[at]!]!
    const twin = at > 0 ? order[at - 1]! : undefined
    const isTwin = twin !== undefined && isSame(items[twin]!, item)
    const from = isTwin ? trial[twin] : undefined
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
function suffixSums(order: readonly number[], items: readonly PackItem[]): number[] {
  const sums = Array.from({ length: order.length + 1 }, () => 0)
  for (let at = order.length - 1; at >= 0; at--) {
    sums[at] = sums[at + 1]! + items[order[at]!]!.length
  }
  return sums
}
