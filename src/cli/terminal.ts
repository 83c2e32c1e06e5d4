/** What commands read and say: files as people have them, and nothing raw on a terminal. */
import { readFileSync } from 'node:fs'
import type { Problem } from '../documents'
import { problemText } from '../documents'
import { messageOf } from '../engine/messageOf'

/** Of one file no more is listed; thousands of lines would only hide the first. */
const MOST_PROBLEMS = 100

/** Characters that a terminal would obey: all controls of ISO 6429 but for tab and line end. */
const isControl = (code: number): boolean =>
  (code < 0x20 && code !== 0x09 && code !== 0x0a) || (code >= 0x7f && code < 0xa0)

/** The text with such characters written out. */
const printable = (text: string): string =>
  [...text]
    .map((c) => {
      const code = c.charCodeAt(0)
      return isControl(code) ? `\\u${code.toString(16).padStart(4, '0')}` : c
    })
    .join('')

export function say(line: string): void {
  process.stderr.write(`${printable(line)}\n`)
}

/** The text of a file, without a byte order mark; undefined, and said why, where it cannot be had. */
export function textOf(path: string): string | undefined {
  try {
    return new TextDecoder('utf-8', { fatal: true }).decode(readFileSync(path))
  } catch (error) {
    const isEncoding =
      error instanceof TypeError &&
      'code' in error &&
      error.code === 'ERR_ENCODING_INVALID_ENCODED_DATA'
    say(
      `${path}: ${isEncoding ? 'is not UTF-8, perhaps Latin-1. Save it as UTF-8 and try again.' : messageOf(error)}`,
    )
    return undefined
  }
}

export function sayProblems(path: string, problems: readonly Problem[]): void {
  for (const problem of problems.slice(0, MOST_PROBLEMS)) say(`${path}: ${problemText(problem)}`)
  const more = problems.length - MOST_PROBLEMS
  if (more > 0) say(`${path}: and ${more} more of the kind`)
}

/** Writes the result out; see run.mjs for a disk that is full and a reader that has gone. */
export const print = (result: unknown): void =>
  void process.stdout.write(`${JSON.stringify(result, null, 2)}\n`)
