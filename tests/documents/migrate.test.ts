// @vitest-environment node
import { existsSync, readFileSync } from 'node:fs'
import { fileURLToPath } from 'node:url'
import { describe, expect, it } from 'vitest'
import { FORMAT, VERSION, readFormula, readFormulaText } from '../../src/documents'
import type { Migration } from '../../src/documents/migrate'
import { MIGRATIONS, migrate } from '../../src/documents/migrate'
import { smallest } from '../support/formulas'

const at = (file: string) => fileURLToPath(new URL(file, import.meta.url))
const fileOf = (version: number | string) => `version-${version}.json`

/** Versions 2 and 3 that never were: the name was called title, and the purpose came later. */
const INVENTED: Readonly<Record<number, Migration>> = {
  1: ({ title, ...file }) => ({ ...file, name: title }),
  2: (file) => ({ ...file, purpose: 'nymph' }),
}

/** Older versions without a migration, migrations without a file that shows them at work. */
function missing(migrations: Readonly<Record<number, Migration>>, current: number): string[] {
  const older = Array.from({ length: current - 1 }, (_, i) => i + 1)
  return [
    ...older.filter((version) => !migrations[version]).map((version) => `migration ${version}`),
    ...Object.keys(migrations)
      .map(fileOf)
      .filter((file) => !existsSync(at(file))),
  ]
}

describe('migrations', () => {
  it('run one after the other up to the present version', () => {
    const file = { format: FORMAT, version: 1, title: 'A', 'x-kept': 1 }
    const expected = { format: FORMAT, version: 3, name: 'A', purpose: 'nymph', 'x-kept': 1 }
    expect(migrate(file, INVENTED, 3)).toEqual({ file: expected })
  })

  it('start at the version of the file', () => {
    const file = { format: FORMAT, version: 2, title: 'A' }
    expect(migrate(file, INVENTED, 3)).toEqual({ file: { ...file, version: 3, purpose: 'nymph' } })
  })

  it('leave the file they are given as it was', () => {
    const file = Object.freeze({ format: FORMAT, version: 1, title: 'A' })
    migrate(file, INVENTED, 3)
    expect(file).toEqual({ format: FORMAT, version: 1, title: 'A' })
  })

  it('of every older version exist and have a file here', () => {
    expect(missing(MIGRATIONS, VERSION)).toEqual([])
  })

  it('that lack a file, or are lacking themselves, are found out', () => {
    expect(missing(INVENTED, 4)).toEqual(['migration 3', 'version-1.json', 'version-2.json'])
  })

  it.each([...Object.keys(MIGRATIONS), 'none'])('version %s: its file is read', (version) => {
    const text =
      version === 'none' ? JSON.stringify(smallest()) : readFileSync(at(fileOf(version)), 'utf8')
    expect(readFormulaText(text).ok).toBe(true)
  })
})

const REFUSED: [what: string, json: unknown, path: string, words: string][] = [
  ['a newer version', { version: VERSION + 1 }, 'version', 'a newer Taperwright wrote this file'],
  ['a much newer one', { version: 1e9 }, 'version', 'update this one to read it'],
  ['an older one than any', { version: 0 }, 'version', `version ${VERSION}`],
  ['a version below none', { version: -5 }, 'version', `version ${VERSION}`],
  ['a version between', { version: 1.5 }, 'version', 'a whole number'],
  ['a version as a text', { version: '1' }, 'version', 'a whole number'],
  ['no version', { version: undefined }, 'version', 'a whole number'],
  ['another format', { format: 'recipe' }, 'format', `"${FORMAT}"`],
  ['no format', { format: undefined }, 'format', `"${FORMAT}"`],
]

describe('refused by name', () => {
  it.each(REFUSED)('%s', (_, patch, path, words) => {
    const result = readFormula({ ...smallest(), ...(patch as object) })
    expect(result).toMatchObject({
      ok: false,
      problems: [{ path, expected: expect.stringContaining(words) as string }],
    })
  })

  it.each([null, 7, 'text', true, []])('%j, which is no formula', (json) => {
    expect(readFormula(json)).toMatchObject({
      ok: false,
      problems: [
        { path: 'file', expected: expect.stringContaining('a formula: an object with') as string },
      ],
    })
  })

  it('a version older than the oldest that can be read, with the range that can', () => {
    expect(migrate({ format: FORMAT, version: 0 }, INVENTED, 3)).toMatchObject({
      problems: [{ path: 'version', expected: 'a version from 1 to 3' }],
    })
  })
})
