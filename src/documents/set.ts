/** Several formulas in one file, for taking a library from one browser to another. */
import type { Leader } from '../engine/leader'
import type { Problem } from './problem'
import { shown } from './problem'
import { readFormula, readFormulaText } from './read'

const SET_FORMAT = 'taperwright-set'
const SET_VERSION = 1
const LARGEST_MB = 50

/** What an import brings: what could be read, and what is wrong with the rest. */
export interface Imported {
  readonly leaders: readonly Leader[]
  readonly problems: readonly { readonly file: string; readonly problem: Problem }[]
}

interface Found {
  readonly leaders: readonly Leader[]
  readonly problems: readonly Problem[]
}

/** The text of a set; the formulas are files as `writeFormula` makes them. */
export function writeSetText(formulas: readonly unknown[]): string {
  return `${JSON.stringify({ format: SET_FORMAT, version: SET_VERSION, formulas }, null, 2)}\n`
}

/** Reads the text of a formula file or of a set; what is wrong in a set does not hold back the rest. */
export function readImportText(file: string, text: string): Imported {
  const { leaders, problems } = readAny(text.replace(/^\uFEFF/, ''))
  return { leaders, problems: problems.map((problem) => ({ file, problem })) }
}

function readAny(text: string): Found {
  if (text.length > LARGEST_MB * 1e6) {
    const found = `${Math.ceil(text.length / 1e6)} MB`
    return refuse('file', found, `at most ${LARGEST_MB} MB: split the set into smaller files`)
  }
  const set = setIn(text)
  return set ? readSet(set) : asFound(readFormulaText(text))
}

type Json = Readonly<Record<string, unknown>>

/** The set that the text holds; undefined where it is a formula, or broken, which reading it will say. */
function setIn(text: string): Json | undefined {
  try {
    const json: unknown = JSON.parse(text)
    const isSet = typeof json === 'object' && json !== null && 'format' in json
    return isSet && json.format === SET_FORMAT ? json : undefined
  } catch {
    return undefined
  }
}

function readSet({ version, formulas }: Json): Found {
  if (version !== SET_VERSION) {
    const newer = typeof version === 'number' && version > SET_VERSION
    const why = newer ? ': a newer Taperwright wrote this file; update this one to read it' : ''
    return refuse('version', shown(version), `${SET_VERSION}${why}`)
  }
  if (!Array.isArray(formulas)) return refuse('formulas', shown(formulas), 'a list of formulas')
  const read = formulas.map((formula, i) => asFound(readFormula(formula), `formulas[${i}]`))
  return {
    leaders: read.flatMap((found) => found.leaders),
    problems: read.flatMap((found) => found.problems),
  }
}

function asFound(result: ReturnType<typeof readFormula>, place?: string): Found {
  if (result.ok) return { leaders: [result.leader], problems: [] }
  return { leaders: [], problems: result.problems.map((problem) => placed(problem, place)) }
}

function placed(problem: Problem, place: string | undefined): Problem {
  if (place === undefined) return problem
  return { ...problem, path: problem.path === 'file' ? place : `${place}.${problem.path}` }
}

function refuse(path: string, found: string, expected: string): Found {
  return { leaders: [], problems: [{ path, found, expected }] }
}
