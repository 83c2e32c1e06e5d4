import { readdirSync, readFileSync } from 'node:fs'
import { fileURLToPath } from 'node:url'
import type { Leader } from '../../src/engine/leader'
import { readFormulaText } from '../../src/documents'

export const FORMULAS_FOLDER = fileURLToPath(new URL('../../formulas/', import.meta.url))

/** The shipped formula files by name, as text. */
export const SHIPPED: readonly { readonly file: string; readonly text: string }[] = readdirSync(
  FORMULAS_FOLDER,
)
  .filter((file) => file.endsWith('.json'))
  .sort()
  .map((file) => ({ file, text: readFileSync(`${FORMULAS_FOLDER}${file}`, 'utf8') }))

/** A leader from the text of a file that must be right. */
export function leaderOf(text: string): Leader {
  const result = readFormulaText(text)
  if (!result.ok) throw new Error(JSON.stringify(result.problems))
  return result.leader
}

/** The smallest right file, for tests that spoil one thing of it. */
export function smallest(): Record<string, unknown> {
  return {
    format: 'taperwright-leader',
    version: 1,
    name: 'A',
    purpose: 'nymph',
    segments: [segment()],
  }
}

export function segment(fields: object = {}): Record<string, unknown> {
  return {
    part: 'tippet',
    material: 'nylon-supple',
    diameter: '5X',
    length: '24 in',
    ...fields,
  }
}
