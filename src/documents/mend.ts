/**
 * Mends a formula file that does not read, where it is plain what was meant: a figure of many zeros or with a stray
 * stop, a text or a list that is too long, a field that is wrong and not needed. Nothing is guessed.
 */
import { LONGEST_FIGURE, LONGEST_TEXT } from './fields'
import { readFormula } from './read'
import { MOST_ATTACHMENTS, MOST_MATERIALS, MOST_SEGMENTS } from './schema'

type Json = Record<string, unknown>

/** Each round mends what the round before has brought to light. */
const MOST_ROUNDS = 5

/** What the file must give to read, or undefined where it cannot be mended. The file itself stays as it is. */
export function mendFormula(file: unknown): unknown {
  const mended = JSON.parse(JSON.stringify(file ?? null)) as unknown
  for (let round = 0; round < MOST_ROUNDS; round++) {
    const read = readFormula(mended)
    if (read.ok) return mended
    const isChanged = read.problems.map(({ path }) => mendAt(mended, stepsOf(path)))
    if (!isChanged.includes(true)) return undefined
  }
  return undefined
}

/** `segments[2].diameter` as its steps. */
const stepsOf = (path: string): string[] => path.split(/[.[\]]+/).filter(Boolean)

/** Mends the value that a problem names, or the nearest thing round it that is there. */
function mendAt(root: unknown, steps: readonly string[]): boolean {
  const [last, ...before] = [...steps].reverse()
  const parent = before.reverse().reduce(childOf, root)
  if (last === undefined || typeof parent !== 'object' || parent === null) return false
  const fields = parent as Json
  const better = mendedValue(fields[last], last)
  if (better === fields[last]) return false
  if (better === undefined) delete fields[last]
  else fields[last] = better
  return true
}

const childOf = (value: unknown, step: string): unknown =>
  typeof value === 'object' && value !== null ? (value as Json)[step] : undefined

const MOST: Readonly<Record<string, number>> = {
  segments: MOST_SEGMENTS,
  attachments: MOST_ATTACHMENTS,
  materials: MOST_MATERIALS,
}
const NEEDED = ['segments', 'part', 'material', 'diameter', 'length', 'format', 'version', 'kind']

function mendedValue(value: unknown, name: string): unknown {
  if (Array.isArray(value)) return value.slice(0, MOST[name] ?? value.length)
  if (typeof value === 'string') {
    const figure = mendedFigure(value)
    if (figure !== undefined) return figure
    if (value.length > LONGEST_TEXT) return value.slice(0, LONGEST_TEXT)
  }
  if (typeof value === 'object' && value !== null && 'text' in value) {
    const text = typeof value.text === 'string' ? mendedFigure(value.text) : undefined
    if (text !== undefined) return { ...value, text }
  }
  return NEEDED.includes(name) ? value : undefined
}

/** The same number written short, with its unit; undefined where there is no better way of writing it. */
function mendedFigure(text: string): string | undefined {
  const [, number, unit = ''] = /^\s*(\d*[.,]?\d+)[.,]*\s*([a-z'"µ%]*)\s*$/i.exec(text) ?? []
  if (number === undefined || text.length > 100 * LONGEST_FIGURE) return undefined
  const value = Number(number.replace(',', '.'))
  const short = `${String(value).replace(/^0\./, '.')} ${unit}`.trim()
  return Number.isFinite(value) && short !== text ? short : undefined
}
