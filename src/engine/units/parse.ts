/**
 * Reads what people write: `5X`, `.006`, `0.006"`, `6 thou`, `0,15 mm`, `7' 6"`, `7 1/2 ft`.
 *
 * A reading is one of three: read (with any other likely meaning beside it), ask (the user picks
 * from readings), or refused (with what would be accepted). Nothing is guessed in silence.
 */
import type { Dimension, Unit } from './units'
import type { Quantity } from './quantity'
import { formatSi } from './format'
import { strengthLabelRange } from './strengthLabel'
import {
  ACCEPTED,
  FINEST_X,
  FOOT_M,
  INCH_M,
  SI_SIZE,
  USUAL,
  diameterOfGutFifths,
  diameterOfX,
  within,
} from './units'

/** One possible meaning of a text, with the sentence a person chooses it by. */
export interface Choice {
  readonly quantity: Quantity
  readonly meaning: string
}

export type Reading =
  | { readonly status: 'read'; readonly quantity: Quantity; readonly others: readonly Choice[] }
  | { readonly status: 'ask'; readonly question: string; readonly choices: readonly Choice[] }
  | { readonly status: 'refused'; readonly message: string; readonly accepted: string }

/** What each kind of field takes, for messages and hints. */
export const ACCEPTS: Readonly<Record<Dimension, string>> = {
  diameter: '5X, .006 in, 6 thou or 0.15 mm (from 0.02 to 3 mm)',
  length: `36 in, 7' 6", 7 1/2 ft, 30 cm or 1.2 m (from 1 mm to 60 m)`,
  'spool-length': '30 yd, 90 ft or 25 m (from 1 cm to 5 km)',
  force: '4 lb, 1.8 kg or 18 N',
  mass: '3 lb, 1.4 kg, 2 g or 30 mg',
}

const UNIT_WORDS: Readonly<Record<string, Unit>> = {
  '"': 'in',
  in: 'in',
  ins: 'in',
  inch: 'in',
  inches: 'in',
  "'": 'ft',
  ft: 'ft',
  feet: 'ft',
  foot: 'ft',
  mm: 'mm',
  millimetre: 'mm',
  millimetres: 'mm',
  millimeter: 'mm',
  millimeters: 'mm',
  cm: 'cm',
  centimetre: 'cm',
  centimetres: 'cm',
  centimeter: 'cm',
  centimeters: 'cm',
  m: 'm',
  metre: 'm',
  metres: 'm',
  meter: 'm',
  meters: 'm',
  yd: 'yd',
  yds: 'yd',
  yard: 'yd',
  yards: 'yd',
  um: 'um',
  µm: 'um',
  μm: 'um',
  micron: 'um',
  microns: 'um',
  thou: 'thou',
  thousandth: 'thou',
  thousandths: 'thou',
  mil: 'thou',
  mils: 'thou',
  x: 'X',
  lb: 'lb',
  lbs: 'lb',
  pound: 'lb',
  pounds: 'lb',
  '#': 'lb',
  kg: 'kg',
  kilo: 'kg',
  kilos: 'kg',
  n: 'N',
  mg: 'mg',
  g: 'g',
  gram: 'g',
  grams: 'g',
  oz: 'oz',
  ounce: 'oz',
  ounces: 'oz',
  gr: 'gr',
  grain: 'gr',
  grains: 'gr',
}

const BARE_UNITS: Readonly<Record<Dimension, readonly Unit[]>> = {
  diameter: ['in', 'thou', 'mm', 'X'],
  length: ['in', 'ft', 'cm', 'm', 'mm'],
  'spool-length': ['yd', 'm', 'ft'],
  force: ['lb', 'kg'],
  mass: ['lb', 'kg', 'g', 'mg'],
}

const NUMBER = String.raw`\d+\s+\d+\/\d+|\d+\/\d+|\d+(?:[.,]\d+)?|[.,]\d+`
const TERM = new RegExp(String.raw`^(${NUMBER})\s*("|'|#|[a-zµμ]+)?\.?\s*(?:,\s+|-\s*|and\s+)?`)

interface Term {
  readonly value: number
  readonly raw: string
  readonly word: string
}

/**
 * Reads a text for one kind of field.
 * @param fieldUnit the unit a bare number takes; it is asked about where that is unlikely.
 */
export function parseQuantity(text: string, dimension: Dimension, fieldUnit: Unit): Reading {
  const clean = normalise(text)
  if (clean === '') return refused(dimension, `Nothing is written here.`)
  if (dimension === 'diameter') {
    const special = heavySize(clean, text)
    if (special) return special
  }
  const terms = scan(clean)
  if (!terms) return refused(dimension, `"${text.trim()}" is not a ${dimension} this can read.`)
  if (dimension === 'diameter' && terms.some((t) => isStrengthWord(t.word)))
    return strengthLabel(text, terms)
  if (terms.some((t) => hasThousandsComma(t.raw)))
    return askComma(text, clean, dimension, fieldUnit)
  return readTerms(terms, text, dimension, fieldUnit)
}

/** A text that carries its unit itself; files allow nothing else in a plain string. */
export function parseWithUnit(text: string, dimension: Dimension): Reading {
  const reading = parseQuantity(text, dimension, dimension === 'diameter' ? 'in' : 'm')
  const quantity = reading.status === 'read' ? reading.quantity : undefined
  if (!quantity?.bare) return reading
  return refused(dimension, `"${text}" has no unit.`)
}

function refused(dimension: Dimension, message: string): Reading {
  return { status: 'refused', message, accepted: ACCEPTS[dimension] }
}

const FRACTIONS: Readonly<Record<string, string>> = {
  '½': '1/2',
  '¼': '1/4',
  '¾': '3/4',
  '⅛': '1/8',
  '⅜': '3/8',
  '⅝': '5/8',
  '⅞': '7/8',
  '⅓': '1/3',
  '⅔': '2/3',
}

function normalise(text: string): string {
  return text
    .replace(/[½¼¾⅛⅜⅝⅞⅓⅔]/g, (c) => ` ${FRACTIONS[c]}`)
    .replace(/[’′‘`]/g, "'")
    .replace(/[”″“]|''/g, '"')
    .replace(/⁄/g, '/')
    .replace(/\s+/g, ' ')
    .trim()
    .toLowerCase()
}

function scan(clean: string): Term[] | undefined {
  const terms: Term[] = []
  let rest = clean
  while (rest !== '') {
    const match = TERM.exec(rest)
    const value = match ? toNumber(match[1] ?? '') : NaN
    if (!match || !Number.isFinite(value) || terms.length === 2) return undefined
    terms.push({ value, raw: match[1] ?? '', word: match[2] ?? '' })
    rest = rest.slice(match[0].length)
  }
  return terms
}

function toNumber(raw: string): number {
  const mixed = /^(?:(\d+)\s+)?(\d+)\/(\d+)$/.exec(raw)
  if (mixed) return Number(mixed[1] ?? 0) + Number(mixed[2]) / Number(mixed[3])
  return Number(raw.replace(',', '.'))
}

/** `1,200` may be one and a fifth or twelve hundred; `0,152` can only be a decimal. */
function hasThousandsComma(raw: string): boolean {
  return /^[1-9]\d{0,2},\d{3}$/.test(raw)
}

function askComma(text: string, clean: string, dimension: Dimension, fieldUnit: Unit): Reading {
  const readings = [clean.replace(',', '.'), clean.replace(',', '')].flatMap((spelling) => {
    const terms = scan(spelling)
    const reading = terms ? readTerms(terms, spelling, dimension, fieldUnit) : undefined
    return reading?.status === 'read' ? [reading.quantity] : []
  })
  const usual = readings.filter((q) => within(USUAL[dimension], q.si))
  if (usual.length === 1 && usual[0]) return read({ ...usual[0], text: text.trim() }, [])
  if (readings.length === 0) return refused(dimension, `"${text.trim()}" is out of range.`)
  return ask(
    text,
    readings.map((q) => choice(q, dimension)),
  )
}

function readTerms(
  terms: readonly Term[],
  text: string,
  dimension: Dimension,
  fieldUnit: Unit,
): Reading {
  const [first, second] = terms
  if (!first) return refused(dimension, `"${text}" holds no number.`)
  if (second) return readTwo(first, second, text, dimension)
  if (first.word === '') return readBare(first.value, text, dimension, fieldUnit)
  const unit = UNIT_WORDS[first.word]
  const si = unit ? toSi(first.value, dimension, unit) : undefined
  if (si === undefined || !unit) {
    return refused(dimension, `"${first.word}" is not a unit of ${dimension} known here.`)
  }
  return judged({ si, text: text.trim(), unit }, first.value, dimension)
}

/** Feet and inches (`7' 6"`, `7 ft 6`) or pounds and ounces (`3 lb 4 oz`); nothing else comes in two terms. */
function readTwo(first: Term, second: Term, text: string, dimension: Dimension): Reading {
  const [a, b] = [UNIT_WORDS[first.word], UNIT_WORDS[second.word]]
  if (dimension === 'length' && a === 'ft' && (b === 'in' || second.word === '')) {
    const si = first.value * FOOT_M + second.value * INCH_M
    return judged({ si, text: text.trim(), unit: 'ft-in' }, first.value, dimension)
  }
  if (dimension === 'mass' && a === 'lb' && b === 'oz') {
    const si = (toSi(first.value, 'mass', 'lb') ?? 0) + (toSi(second.value, 'mass', 'oz') ?? 0)
    return judged({ si, text: text.trim(), unit: 'lb' }, first.value, dimension)
  }
  return refused(dimension, `"${text.trim()}" has two numbers that do not go together.`)
}

/** A reading with its own unit: taken when it is possible, asked about when another unit was surely meant. */
function judged(quantity: Quantity, value: number, dimension: Dimension): Reading {
  if (quantity.unit === 'X' && (value > FINEST_X + 0.05 || value < 0)) {
    return refused(dimension, `X sizes run from 0X to 8X; "${quantity.text}" is none of them.`)
  }
  if (within(ACCEPTED[dimension], quantity.si)) return read(quantity, [])
  const choices = bareChoices(value, quantity.text, dimension)
    .filter((c) => c.quantity.unit !== quantity.unit)
    .map((c) => withOwnText(c, dimension))
  if (choices.length > 0) return ask(quantity.text, choices)
  return refused(dimension, `"${quantity.text}" is out of range for a ${dimension}.`)
}

function readBare(value: number, text: string, dimension: Dimension, fieldUnit: Unit): Reading {
  const choices = bareChoices(value, text, dimension)
  const unit = fieldUnit === 'ft-in' ? 'ft' : fieldUnit
  const own = choices.find((c) => c.quantity.unit === unit)
  if (own) return read(own.quantity, dimension === 'diameter' ? rivals(own, choices) : [])
  // A field of lengths in millimetres is for small things, such as beads and reels.
  const isSmall = dimension === 'length' && unit === 'mm'
  if (isSmall) return readBareInUnit(value, text, dimension, unit)
  if (choices.length > 0) return ask(text, choices)
  return readBareInUnit(value, text, dimension, unit)
}

function readBareInUnit(value: number, text: string, dimension: Dimension, unit: Unit): Reading {
  const si = toSi(value, dimension, unit)
  if (si !== undefined && within(ACCEPTED[dimension], si) && unit !== 'X') {
    return read({ si, text: text.trim(), unit, bare: true }, [])
  }
  return refused(dimension, `"${text.trim()}" is out of range for a ${dimension}.`)
}

/** Other likely meanings, of a like size, are worth a line; a length in centimetres instead of inches is not. */
function rivals(own: Choice, choices: readonly Choice[]): Choice[] {
  return choices.filter((c) => {
    const ratio = c.quantity.si / own.quantity.si
    return (
      c !== own &&
      own.quantity.unit !== 'in' &&
      c.quantity.unit !== 'in' &&
      ratio > 0.3 &&
      ratio < 3
    )
  })
}

/** The unit that was typed is not the one meant, so the text that is kept must be a new one. */
function withOwnText({ quantity: { si, unit }, meaning }: Choice, dimension: Dimension): Choice {
  return { quantity: { si, text: formatSi(si, dimension, unit), unit }, meaning }
}

/** Every unit in which the bare number is a usual figure. */
function bareChoices(value: number, text: string, dimension: Dimension): Choice[] {
  return BARE_UNITS[dimension].flatMap((unit) => {
    const si = unit === 'X' && !isXSize(value) ? undefined : toSi(value, dimension, unit)
    if (si === undefined || !within(USUAL[dimension], si)) return []
    return [choice({ si, text: text.trim(), unit, bare: true }, dimension)]
  })
}

/** Sizes are sold in whole and half X; `.15` in an X field means something else. */
function isXSize(value: number): boolean {
  return value >= 0 && value <= 8 && Number.isInteger(value * 2)
}

/** Rounded to twelve figures, so that `6 thou` and `.006 in` are the same number. */
function toSi(value: number, dimension: Dimension, unit: Unit): number | undefined {
  const size = unit === 'X' && dimension === 'diameter' ? undefined : SI_SIZE[dimension][unit]
  if (size !== undefined) return Number((value * size).toPrecision(12))
  return unit === 'X' && dimension === 'diameter' ? diameterOfX(value) : undefined
}

function read(quantity: Quantity, others: readonly Choice[]): Reading {
  return { status: 'read', quantity, others }
}

function ask(text: string, choices: readonly Choice[]): Reading {
  return { status: 'ask', question: `What does "${text.trim()}" mean here?`, choices }
}

function choice(quantity: Quantity, dimension: Dimension): Choice {
  const { si, unit } = quantity
  const plain = formatSi(si, dimension, unit)
  const meaning =
    dimension === 'diameter' && unit === 'X' ? `${plain} (${formatSi(si, dimension, 'in')})` : plain
  return { quantity, meaning }
}

/** The notations above 0X: n/5 is read as gut sizes, `X2` has two meanings and is asked about. */
function heavySize(clean: string, text: string): Reading | undefined {
  const fifths = /^(\d)\/5$/.exec(clean)
  if (fifths) {
    return read({ si: diameterOfGutFifths(Number(fifths[1])), text: text.trim(), unit: 'X' }, [])
  }
  const prefixed = /^x ?([1-4])$/.exec(clean)
  if (!prefixed) return undefined
  const n = Number(prefixed[1])
  // X1 to X4 as .012 to .015 in is common practice of some tables; others write X2 and mean 2X.
  const heavy = 11 + n
  return ask(text, [
    {
      quantity: { si: diameterOfX(n), text: `${n}X`, unit: 'X' },
      meaning: `${n}X (${formatSi(diameterOfX(n), 'diameter', 'in')})`,
    },
    {
      quantity: { si: diameterOfX(-n), text: `.0${heavy} in`, unit: 'in' },
      meaning: `heavier than 0X: .0${heavy} in`,
    },
  ])
}

function isStrengthWord(word: string): boolean {
  const unit = UNIT_WORDS[word]
  return unit === 'lb' || unit === 'kg' || unit === 'N'
}

/** A strength label is no diameter: the range it may stand for is offered, and the choice is marked. */
function strengthLabel(text: string, terms: readonly Term[]): Reading {
  const term = terms[0]
  const unit = UNIT_WORDS[term?.word ?? '']
  const force = term && unit ? toSi(term.value, 'force', unit) : undefined
  const range = force === undefined ? undefined : strengthLabelRange(force)
  if (!range || terms.length > 1) {
    return refused('diameter', `"${text.trim()}" is a strength, not a diameter.`)
  }
  const [low, high] = [range.low_m, range.high_m].map((d) => formatSi(d, 'diameter', 'in'))
  return {
    status: 'ask',
    question:
      `"${text.trim()}" is a strength, not a diameter: published tables put it anywhere from ${low} to ${high}. ` +
      `Measure it if you can, or take one of these as an estimate.`,
    choices: [range.low_m, (range.low_m + range.high_m) / 2, range.high_m].map((si) =>
      estimate(si, text.trim()),
    ),
  }
}

function estimate(si: number, label: string): Choice {
  const rounded = Math.round(si / 1.27e-5) * 1.27e-5
  const text = formatSi(rounded, 'diameter', 'in')
  return {
    quantity: { si: rounded, text, unit: 'in', estimatedFrom: label },
    meaning: `${text} (estimate)`,
  }
}
