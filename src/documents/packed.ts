/**
 * JSON as few bytes, for links. Every value begins with a byte that says what follows; known words take one
 * byte, figures half a byte a digit, and a list of like objects is written as a table, column by column.
 */
import { ENDINGS, WORDS } from './words'

const TAG = {
  null: 0,
  false: 1,
  true: 2,
  absent: 3,
  list: 4,
  object: 5,
  table: 6,
  text: 7,
  number: 8,
  word: 9,
} as const
/** Tags from here on are figures by their ending. */
const FIGURE = 16
/** Half bytes of a figure; the sixteenth ends it. */
const DIGITS = "0123456789./ '-"
const END = 15
/** What one link may unfold to: far more than a leader of 200 pieces, far less than a browser minds. */
const MOST_VALUES = 60_000
const MOST_DEPTH = 40

type Json = Readonly<Record<string, unknown>>

const wordIndex = new Map(WORDS.map((word, i) => [word, i]))

/** Packed bytes that do not unfold: damaged, or written by something else. */
export class PackedError extends Error {}

export function packJson(value: unknown): Uint8Array {
  const bytes: number[] = []
  put(bytes, value)
  return Uint8Array.from(bytes)
}

function put(bytes: number[], value: unknown): void {
  if (value === null || value === undefined) bytes.push(value === null ? TAG.null : TAG.absent)
  else if (typeof value === 'boolean') bytes.push(value ? TAG.true : TAG.false)
  else if (typeof value === 'number') putNumber(bytes, value)
  else if (typeof value === 'string') putText(bytes, value)
  else if (Array.isArray(value)) putList(bytes, value)
  else putObject(bytes, value as Json)
}

function putCount(bytes: number[], count: number): void {
  let rest = count
  for (; rest > 127; rest = Math.floor(rest / 128)) bytes.push((rest % 128) + 128)
  bytes.push(rest)
}

function putNumber(bytes: number[], value: number): void {
  bytes.push(TAG.number)
  const text = String(value)
  if ([...text].every((c) => DIGITS.includes(c))) putDigits(bytes, text)
  // An exponent has no half byte of its own: an empty figure says that a text follows.
  else putDigits(bytes, '', () => putUtf8(bytes, text))
}

function putDigits(bytes: number[], text: string, then?: () => void): void {
  const halves = [...[...text].map((c) => DIGITS.indexOf(c)), END]
  if (halves.length % 2) halves.push(END)
  for (let i = 0; i < halves.length; i += 2)
    bytes.push((halves[i] ?? 0) * 16 + (halves[i + 1] ?? 0))
  then?.()
}

function putText(bytes: number[], text: string): void {
  const word = wordIndex.get(text)
  if (word !== undefined) return void bytes.push(TAG.word, word)
  const ending = endingOf(text)
  if (ending < 0) {
    bytes.push(TAG.text)
    return putUtf8(bytes, text)
  }
  bytes.push(FIGURE + ending)
  putDigits(bytes, text.slice(0, text.length - (ENDINGS[ending] ?? '').length))
}

/** The longest ending before which there are digits only; -1 where the text is no figure. */
function endingOf(text: string): number {
  const digits = /^[0-9./ '-]+/.exec(text)?.[0] ?? ''
  for (let cut = digits.length; cut > 0; cut--) {
    const ending = ENDINGS.indexOf(text.slice(cut))
    if (ending >= 0) return ending
  }
  return -1
}

function putUtf8(bytes: number[], text: string): void {
  const utf8 = utf8Of(text)
  putCount(bytes, utf8.length)
  // One by one: a long note would be too many arguments at once.
  for (const byte of utf8) bytes.push(byte)
}

function putList(bytes: number[], list: readonly unknown[]): void {
  const rows = list.filter(isRecord)
  if (rows.length < 2 || rows.length < list.length) {
    bytes.push(TAG.list)
    putCount(bytes, list.length)
    for (const item of list) put(bytes, item)
    return
  }
  const keys = [...new Set(rows.flatMap((row) => Object.keys(row)))]
  bytes.push(TAG.table)
  putCount(bytes, rows.length)
  putCount(bytes, keys.length)
  for (const key of keys) {
    putText(bytes, key)
    for (const row of rows) put(bytes, Object.hasOwn(row, key) ? row[key] : undefined)
  }
}

function putObject(bytes: number[], value: Json): void {
  const entries = Object.entries(value).filter(([, each]) => each !== undefined)
  bytes.push(TAG.object)
  putCount(bytes, entries.length)
  for (const [key, each] of entries) {
    putText(bytes, key)
    put(bytes, each)
  }
}

function isRecord(value: unknown): value is Json {
  return typeof value === 'object' && value !== null && !Array.isArray(value)
}

/** @throws PackedError where the bytes are not such a packing. */
export function unpackJson(bytes: Uint8Array): unknown {
  const reader = new Reader(bytes)
  const value = reader.value(0)
  if (!reader.isAtEnd) throw new PackedError('there is more than one value')
  return value
}

class Reader {
  readonly #bytes: Uint8Array
  #at = 0
  #values = 0

  constructor(bytes: Uint8Array) {
    this.#bytes = bytes
  }

  get isAtEnd(): boolean {
    return this.#at === this.#bytes.length
  }

  value(depth: number): unknown {
    if (++this.#values > MOST_VALUES || depth > MOST_DEPTH) throw new PackedError('it is too large')
    const tag = this.#byte()
    if (tag >= FIGURE) return this.#digits() + this.#known(ENDINGS, tag - FIGURE)
    switch (tag) {
      case TAG.null:
        return null
      case TAG.false:
        return false
      case TAG.true:
        return true
      case TAG.absent:
        return undefined
      case TAG.list:
        return this.#times(this.#count(), () => this.value(depth + 1))
      case TAG.object:
        return this.#object(depth)
      case TAG.table:
        return this.#table(depth)
      case TAG.text:
        return this.#utf8()
      case TAG.number:
        return this.#number()
      case TAG.word:
        return this.#known(WORDS, this.#byte())
      default:
        throw new PackedError('it holds something unknown')
    }
  }

  #byte(): number {
    const byte = this.#bytes[this.#at++]
    if (byte === undefined) throw new PackedError('it ends too early')
    return byte
  }

  #count(): number {
    let [count, size] = [0, 1]
    for (let i = 0; i < 4; i++) {
      const byte = this.#byte()
      count += (byte & 127) * size
      if (byte < 128) return count
      size *= 128
    }
    throw new PackedError('it holds a count that is too large')
  }

  #times<T>(count: number, read: () => T): T[] {
    // Each value takes a byte at least, so a count beyond what is left is a lie, found before it costs anything.
    if (count > this.#bytes.length - this.#at) throw new PackedError('it ends too early')
    const list: T[] = []
    for (let i = 0; i < count; i++) list.push(read())
    return list
  }

  #known(list: readonly string[], index: number): string {
    const text = list[index]
    if (text === undefined) throw new PackedError('a newer Taperwright wrote it')
    return text
  }

  #key(): string {
    const key = this.value(MOST_DEPTH)
    if (typeof key !== 'string') throw new PackedError('a field has no name')
    return key
  }

  #object(depth: number): Json {
    const entries = this.#times(this.#count(), () => [this.#key(), this.value(depth + 1)] as const)
    return Object.fromEntries(entries.filter(([, value]) => value !== undefined))
  }

  #table(depth: number): Json[] {
    const [rows, keys] = [this.#count(), this.#count()]
    const columns = this.#times(
      keys,
      () => [this.#key(), this.#times(rows, () => this.value(depth + 1))] as const,
    )
    if (rows * Math.max(1, keys) > MOST_VALUES) throw new PackedError('it is too large')
    return Array.from({ length: rows }, (_, row) =>
      Object.fromEntries(
        columns.flatMap(([key, cells]) => (cells[row] === undefined ? [] : [[key, cells[row]]])),
      ),
    )
  }

  #digits(): string {
    let text = ''
    for (;;) {
      const byte = this.#byte()
      for (const half of [byte >> 4, byte & 15]) {
        if (half === END) return text
        text += DIGITS[half] ?? ''
      }
    }
  }

  #number(): number {
    const digits = this.#digits()
    const value = Number(digits === '' ? this.#utf8() : digits)
    if (!Number.isFinite(value)) throw new PackedError('it holds a number that is none')
    return value
  }

  #utf8(): string {
    const bytes = this.#times(this.#count(), () => this.#byte())
    return textOf(bytes)
  }
}

/** Halves of a pair of surrogates without the other, which no encoding takes. */
const LONE = /[\uD800-\uDBFF](?![\uDC00-\uDFFF])|(?<![\uD800-\uDBFF])[\uDC00-\uDFFF]/g

/** The pure folders have no TextEncoder; a URI knows UTF-8 too. */
function utf8Of(text: string): number[] {
  const escaped = encodeURIComponent(text.replace(LONE, '\uFFFD'))
  return [...escaped.matchAll(/%([0-9A-F]{2})|./gs)].map(([one, hex]) =>
    hex === undefined ? one.charCodeAt(0) : Number.parseInt(hex, 16),
  )
}

function textOf(bytes: readonly number[]): string {
  try {
    return decodeURIComponent(
      bytes.map((byte) => `%${byte.toString(16).padStart(2, '0')}`).join(''),
    )
  } catch {
    throw new PackedError('it holds a text that is none')
  }
}
