import type { BaseIssue } from 'valibot'

/** One thing wrong with a file: where, what was found there, what would be right. */
export interface Problem {
  readonly path: string
  readonly found: string
  readonly expected: string
}

export function problemOf(issue: BaseIssue<unknown>): Problem {
  const path = (issue.path ?? []).map((item) => item.key)
  return { path: pathText(path), found: shown(issue.input), expected: issue.message }
}

/** `segments[2].diameter`; the file itself where the path is empty. */
function pathText(path: readonly unknown[]): string {
  if (path.length === 0) return 'file'
  return path.reduce<string>((text, key) => {
    if (typeof key === 'number') return `${text}[${key}]`
    return text === '' ? String(key) : `${text}.${String(key)}`
  }, '')
}

const LONGEST_SHOWN = 60

/** What was found, short enough for one line. */
export function shown(value: unknown): string {
  if (value === undefined) return 'nothing'
  const text = plainText(value)
  return text.length > LONGEST_SHOWN ? `${text.slice(0, LONGEST_SHOWN)}…` : text
}

/** Only a number, a text or the like is worth quoting whole; an object of any depth is named by its fields. */
function plainText(value: unknown): string {
  if (Array.isArray(value)) return `a list of ${value.length}`
  if (typeof value === 'object' && value !== null) {
    return `an object with ${Object.keys(value).join(', ') || 'no fields'}`
  }
  // 1e999 in a file: JSON knows no infinity and would call it null.
  if (value === Infinity || value === -Infinity) return 'a number too large to hold'
  return JSON.stringify(value) ?? typeof value
}

export function problemText({ path, found, expected }: Problem): string {
  return `${path}: found ${found}; would be right: ${expected}`
}
