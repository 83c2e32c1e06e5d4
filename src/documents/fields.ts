/** Building blocks of the file's schema: figures with units, words from lists, and what to say when wrong. */
import * as v from 'valibot'
import type { Dimension, Quantity, Unit } from '../engine/units'
import { ACCEPTS, parseQuantity, parseWithUnit } from '../engine/units'

export const LONGEST_TEXT = 20_000
export const LONGEST_FIGURE = 100
const LONG_FIGURE = `a figure of at most ${LONGEST_FIGURE} characters`

type Schema = v.BaseSchema<unknown, unknown, v.BaseIssue<unknown>>

/** Schemas that take a text or an object, with both branches for the JSON Schema generator. */
export const BRANCHES = new WeakMap<object, readonly [Schema, Schema]>()

/** A value written short as a text or in full as an object; errors come from the branch that was meant. */
export function shortOrFull<A extends Schema, B extends Schema>(short: A, full: B) {
  const schema = v.lazy<A | B>((input) => (typeof input === 'string' ? short : full))
  BRANCHES.set(schema, [short, full])
  return schema
}

/** An object that keeps fields it does not know and names what a missing field should hold. */
export function record<E extends v.ObjectEntries>(entries: E, what: string) {
  return v.pipe(
    v.looseObject(entries, (issue) => (issue.path ? missing(issue, entries) : what)),
    v.description(what),
  )
}

function missing(issue: v.BaseIssue<unknown>, entries: v.ObjectEntries): string {
  const entry = entries[String(issue.path?.at(-1)?.key)]
  return (entry && v.getDescription(entry)) ?? 'a value here'
}

export function text(what: string) {
  const message = `a text: ${what}`
  return v.pipe(
    v.string(message),
    v.maxLength(LONGEST_TEXT, `a text of at most ${LONGEST_TEXT} characters`),
    v.description(message),
  )
}

export function oneOf<const T extends readonly string[]>(list: T) {
  const message = `one of ${list.join(', ')}`
  return v.pipe(v.picklist(list, message), v.description(message))
}

export function numberBetween(low: number, high: number, what: string) {
  const message = `a number: ${what}, from ${low} to ${high}`
  return v.pipe(
    v.number(message),
    v.minValue(low, message),
    v.maxValue(high, message),
    v.description(message),
  )
}

/** A figure in full; what is neither text nor object (a plain 12) is told what to write instead. */
function fullFigure(expected: string) {
  return v.looseObject(
    {
      text: v.pipe(v.string('a text'), v.maxLength(LONGEST_FIGURE, LONG_FIGURE)),
      unit: v.optional(v.pipe(v.string('a text'), v.maxLength(LONGEST_FIGURE, LONG_FIGURE))),
      estimatedFrom: v.optional(text('the label it was estimated from')),
    },
    (issue) => (issue.path ? 'a text' : expected),
  )
}
type FullFigure = v.InferOutput<ReturnType<typeof fullFigure>>

/**
 * A figure as typed with its unit (`".006 in"`), or the bare text with the unit of the field it was
 * typed in (`{ "text": ".006", "unit": "in" }`).
 */
export function quantity(dimension: Dimension) {
  const expected = `a text with its unit, such as ${ACCEPTS[dimension]}`
  const short = v.pipe(
    v.string(expected),
    v.maxLength(LONGEST_FIGURE, LONG_FIGURE),
    v.rawTransform<string, Quantity>(({ dataset, addIssue, NEVER }) => {
      const read = readText(dataset.value, dimension)
      if (typeof read !== 'string') return read
      addIssue({ message: read })
      return NEVER
    }),
  )
  const full = v.pipe(
    fullFigure(expected),
    v.rawTransform<FullFigure, Quantity>(({ dataset, addIssue, NEVER }) => {
      const read = readFull(dataset.value, dimension)
      if (typeof read !== 'string') return read
      addIssue({ message: read })
      return NEVER
    }),
  )
  return v.pipe(shortOrFull(short, full), v.description(expected))
}

/** The quantity, or what would be right instead. */
function readText(value: string, dimension: Dimension): Quantity | string {
  const reading = parseWithUnit(value, dimension)
  if (reading.status === 'read') return reading.quantity
  if (reading.status === 'refused') return `${reading.message} Accepted: ${reading.accepted}`
  return `${reading.question} It could be ${reading.choices.map((c) => c.meaning).join(' or ')}`
}

function readFull(value: FullFigure, dimension: Dimension): Quantity | string {
  const { text: typed, unit, estimatedFrom } = value
  const mark = estimatedFrom === undefined ? {} : { estimatedFrom }
  const read =
    unit === undefined ? readText(typed, dimension) : readBare(typed, unit as Unit, dimension)
  return typeof read === 'string' ? read : { ...read, ...mark }
}

/** A full stop, comma or dash that a hurried hand leaves behind a figure; it is kept as typed and means nothing. */
const STRAY = /[-.,\s]+$/

function readBare(typed: string, unit: Unit, dimension: Dimension): Quantity | string {
  const reading = parseQuantity(`${typed.replace(STRAY, '')} ${unit}`, dimension, unit)
  if (reading.status !== 'read') return `a number with a unit, such as ${ACCEPTS[dimension]}`
  return { si: reading.quantity.si, text: typed, unit: reading.quantity.unit, bare: true }
}

/** The other way: as short as the figure allows. */
export function writeQuantity({ text: typed, unit, bare, estimatedFrom }: Quantity): unknown {
  if (!bare && estimatedFrom === undefined) return typed
  return {
    text: typed,
    ...(bare ? { unit } : {}),
    ...(estimatedFrom === undefined ? {} : { estimatedFrom }),
  }
}
