/** Spools, batches and stock as they are saved, in the browser and in a backup. */
import * as v from 'valibot'
import type { Batch, ShelfSpool, Stock } from '../engine/tying'
import type { Leader } from '../engine/leader'
import type { Problem } from './problem'
import { CUT_ORDERS, SPOOL_STATES } from '../engine/tying'
import { numberBetween, oneOf, quantity, record, text, writeQuantity } from './fields'
import { problemOf, shown } from './problem'
import { readFormula } from './read'
import { writeFormula } from './write'

export const INVENTORY_VERSION = 1
const INVENTORY_KINDS = ['spool', 'batch', 'stock'] as const
type InventoryKind = (typeof INVENTORY_KINDS)[number]

export type InventoryItem =
  | { readonly kind: 'spool'; readonly value: ShelfSpool }
  | { readonly kind: 'batch'; readonly value: Batch }
  | { readonly kind: 'stock'; readonly value: Stock }

export type InventoryReadResult =
  | { readonly ok: true; readonly item: InventoryItem }
  | { readonly ok: false; readonly problems: readonly Problem[] }

const MOST_LISTED = 10_000
const day = v.pipe(
  v.string('a day, such as 2026-02-28'),
  v.regex(/^\d{4}-\d\d-\d\d/, 'a day, such as 2026-02-28'),
)
const id = v.pipe(
  v.string('a text: its id'),
  v.minLength(1, 'an id'),
  v.maxLength(100, 'a short id'),
)
const whole = (most: number, what: string) =>
  v.pipe(numberBetween(0, most, what), v.integer(`a whole number: ${what}`))

function list<S extends v.BaseSchema<unknown, unknown, v.BaseIssue<unknown>>>(
  item: S,
  what: string,
) {
  return v.pipe(
    v.array(item, `a list of ${what}`),
    v.maxLength(MOST_LISTED, `at most ${MOST_LISTED} ${what}`),
  )
}

const head = <K extends InventoryKind>(kind: K) => ({
  kind: v.literal(kind, `"${kind}"`),
  version: v.pipe(
    v.number('a version'),
    v.maxValue(INVENTORY_VERSION, `at most ${INVENTORY_VERSION}: a newer Taperwright wrote this`),
  ),
  id,
})

const SPOOL = record(
  {
    ...head('spool'),
    material: text('a material, such as nylon-stiff'),
    size: quantity('diameter'),
    label: v.optional(text('what else the label says')),
    strength: v.optional(quantity('force')),
    readings: list(quantity('diameter'), 'micrometer readings'),
    pullTests: list(quantity('force'), 'pull tests'),
    left: quantity('spool-length'),
    full: v.optional(quantity('spool-length')),
    taken_m: v.optional(numberBetween(0, 1e5, 'length cut off, in m')),
    price: v.optional(numberBetween(0, 1e6, 'price of a whole spool')),
    bought: v.optional(day),
    state: oneOf(SPOOL_STATES),
    colour: v.optional(text('a colour')),
    note: v.optional(text('a note')),
  },
  'a spool with material, size and length left',
)

const formula = v.unknown()
const copy = {
  order: whole(500, 'an order of the batch'),
  copy: whole(2000, 'a leader of the order'),
}

const BATCH = record(
  {
    ...head('batch'),
    name: text('its name'),
    begun: day,
    orders: list(
      record(
        { formula: id, file: formula, count: whole(2000, 'how many leaders') },
        'an order: formula, file and count',
      ),
      'orders',
    ),
    spoilage: numberBetween(0, 1, 'share that may be spoiled'),
    cutBy: oneOf(CUT_ORDERS),
    pieces: list(
      record(
        {
          ...copy,
          segment: whole(199, 'a piece of the leader'),
          cut_m: numberBetween(0, 100, 'cut length in m'),
          spool: v.nullable(id),
          isCut: v.boolean('true or false'),
          spoiled: whole(100, 'times it was spoiled'),
        },
        'a piece of the batch',
      ),
      'pieces',
    ),
    joints: list(record({ ...copy, joint: whole(200, 'a joint') }, 'a joint'), 'joints tied'),
    finished: list(
      record({ ...copy, wallet: text('a wallet'), tied: day }, 'a finished leader'),
      'finished leaders',
    ),
  },
  'a batch with orders and pieces',
)

const STOCK = record(
  {
    ...head('stock'),
    formula: id,
    file: formula,
    wallet: text('a wallet'),
    count: whole(1e5, 'how many leaders'),
    tied: day,
  },
  'finished leaders in a wallet',
)

/** Reads what lies in the browser or in a backup; everything that is wrong at once. */
export function readInventoryItem(json: unknown): InventoryReadResult {
  const kind = typeof json === 'object' && json !== null && 'kind' in json ? json.kind : undefined
  if (kind === 'spool') return readSpool(json)
  if (kind === 'batch') return readBatch(json)
  if (kind === 'stock') return readStock(json)
  return refuse([
    { path: 'kind', found: shown(kind), expected: `one of ${INVENTORY_KINDS.join(', ')}` },
  ])
}

const refuse = (problems: readonly Problem[]): InventoryReadResult => ({ ok: false, problems })

function readSpool(json: unknown): InventoryReadResult {
  const result = v.safeParse(SPOOL, json)
  if (!result.success) return refuse(result.issues.map(problemOf))
  const { kind: _k, version: _v, taken_m = 0, ...spool } = result.output
  return { ok: true, item: { kind: 'spool', value: { ...present(spool), taken_m } } }
}

function readBatch(json: unknown): InventoryReadResult {
  const result = v.safeParse(BATCH, json)
  if (!result.success) return refuse(result.issues.map(problemOf))
  const { kind: _k, version: _v, orders, ...rest } = result.output
  const problems: Problem[] = []
  const read = orders.flatMap(({ file, ...order }, i) => {
    const leader = leaderIn(file, `orders[${i}].file`, problems)
    return leader ? [{ ...order, leader }] : []
  })
  if (problems.length > 0) return refuse(problems)
  return { ok: true, item: { kind: 'batch', value: { ...rest, orders: read } } }
}

function readStock(json: unknown): InventoryReadResult {
  const result = v.safeParse(STOCK, json)
  if (!result.success) return refuse(result.issues.map(problemOf))
  const { kind: _k, version: _v, file, ...rest } = result.output
  const problems: Problem[] = []
  const leader = leaderIn(file, 'file', problems)
  if (!leader) return refuse(problems)
  return { ok: true, item: { kind: 'stock', value: { ...rest, leader } } }
}

function leaderIn(file: unknown, place: string, problems: Problem[]): Leader | undefined {
  const read = readFormula(file)
  if (read.ok) return read.leader
  const at = (path: string) => (path === 'file' ? place : `${place}.${path}`)
  problems.push(...read.problems.map((problem) => ({ ...problem, path: at(problem.path) })))
  return undefined
}

function present<T extends object>(fields: T): T {
  return Object.fromEntries(Object.entries(fields).filter(([, value]) => value !== undefined)) as T
}

export function writeInventoryItem({ kind, value }: InventoryItem): Record<string, unknown> {
  const common = { kind, version: INVENTORY_VERSION }
  if (kind === 'spool') return { ...common, ...writeSpool(value) }
  if (kind === 'stock') {
    const { leader, ...rest } = value
    return { ...common, ...rest, file: writeFormula(leader) }
  }
  const orders = value.orders.map(({ leader, ...order }) => ({
    ...order,
    file: writeFormula(leader),
  }))
  return { ...common, ...value, orders }
}

function writeSpool(spool: ShelfSpool): Record<string, unknown> {
  const { size, strength, readings, pullTests, left, full, ...rest } = spool
  return {
    ...present(rest),
    size: writeQuantity(size),
    left: writeQuantity(left),
    readings: readings.map(writeQuantity),
    pullTests: pullTests.map(writeQuantity),
    ...(strength ? { strength: writeQuantity(strength) } : {}),
    ...(full ? { full: writeQuantity(full) } : {}),
  }
}
