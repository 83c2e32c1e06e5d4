// @vitest-environment node
import * as fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import type { ReadResult } from '../../src/documents'
import { readFormula, readFormulaText, writeFormulaText } from '../../src/documents'
import { SHIPPED } from '../support/formulas'

/** A file spoiled at random is read or refused with place and reason: nothing else may happen. */

type Parent = Record<string, unknown>
type Spoil = (parent: Parent, key: string, junk: unknown) => void

/** Every object and list of a file with its keys, in order, so that a number picks a place. */
function placesOf(value: unknown): [Parent, string][] {
  if (typeof value !== 'object' || value === null) return []
  const parent = value as Parent
  return Object.keys(parent).flatMap((key) => [
    [parent, key] as [Parent, string],
    ...placesOf(parent[key]),
  ])
}

const SPOILS: Readonly<Record<string, Spoil>> = {
  delete: (parent, key) => {
    delete parent[key]
  },
  replace: (parent, key, junk) => {
    parent[key] = junk
  },
  duplicate: (parent, key) => {
    if (Array.isArray(parent)) parent.splice(Number(key), 0, structuredClone(parent[Number(key)]))
    else parent[`${key}2`] = structuredClone(parent[key])
  },
  rename: (parent, key, junk) => {
    const value = parent[key]
    delete parent[key]
    // Not by assignment: "__proto__" is a key like any other in JSON.
    Object.defineProperty(parent, String(junk), {
      value,
      enumerable: true,
      configurable: true,
      writable: true,
    })
  },
  swap: (parent, key) => {
    const other = Object.keys(parent).at(-1) ?? key
    ;[parent[key], parent[other]] = [parent[other], parent[key]]
  },
  wrap: (parent, key) => {
    parent[key] = [parent[key]]
  },
}

function nested(depth: number): unknown {
  let value: unknown = 'deep'
  for (let i = 0; i < depth; i++) value = i % 2 ? [value] : { a: value }
  return value
}

const junk = fc.oneof(
  fc.jsonValue({ maxDepth: 3 }),
  fc.constantFrom<unknown>(
    null,
    true,
    0,
    -1,
    1e308,
    -1e308,
    5e-324,
    '',
    '1e999 in',
    '-5 in',
    '0 in',
    '0.0000001 in',
    '99999999999999999999 m',
    '1/0 in',
    '1,000,000 mm',
    '__proto__',
    'constructor',
    'x'.repeat(30_000),
    [],
    {},
    { text: '5' },
    { text: '5', unit: 'X' },
    { text: '5 in', unit: 'in' },
    { text: '', unit: '' },
  ),
  fc.integer({ min: 1, max: 500 }).map(nested),
)

const step = fc.record({
  place: fc.nat(),
  spoil: fc.constantFrom(...Object.values(SPOILS)),
  junk,
})

const shipped = fc.constantFrom(...SHIPPED)

function spoiled(text: string, steps: readonly { place: number; spoil: Spoil; junk: unknown }[]) {
  const file = JSON.parse(text) as unknown
  for (const { place, spoil, junk } of steps) {
    const places = placesOf(file)
    const [parent, key] = places[place % Math.max(1, places.length)] ?? []
    if (parent && key !== undefined) spoil(parent, key, structuredClone(junk))
  }
  return JSON.parse(JSON.stringify(file)) as unknown
}

/** Read, and then written and read the same; or refused in words. */
function expectReadOrRefused(result: ReadResult): void {
  if (result.ok) {
    expect(readFormulaText(writeFormulaText(result.leader))).toEqual(result)
    return
  }
  expect(result.problems.length).toBeGreaterThan(0)
  for (const { path, found, expected } of result.problems) {
    expect(path).not.toBe('')
    expect(found).not.toBe('')
    expect(expected).not.toMatch(/^$|^Invalid |undefined|\[object/)
  }
}

describe('a file spoiled at random', () => {
  it('in its fields, 2,500 times over, is read or refused', () => {
    const seen = { read: 0, refused: 0 }
    fc.assert(
      fc.property(shipped, fc.array(step, { minLength: 1, maxLength: 5 }), ({ text }, steps) => {
        const result = readFormula(spoiled(text, steps))
        seen[result.ok ? 'read' : 'refused']++
        expectReadOrRefused(result)
      }),
      { seed: 7, numRuns: 2500 },
    )
    // Both must happen, or the spoiling does nothing or too much.
    expect(seen.read).toBeGreaterThan(100)
    expect(seen.refused).toBeGreaterThan(1000)
  })

  it('in its text, 1,500 times over, is read or refused', () => {
    const cut = fc.record({ from: fc.nat(), length: fc.nat(60), put: fc.string({ maxLength: 5 }) })
    fc.assert(
      fc.property(shipped, cut, fc.boolean(), ({ text }, { from, length, put }, twice) => {
        const at = from % text.length
        const span = twice ? text.slice(at, at + length) : ''
        const rest = text.slice(twice ? at : at + length)
        expectReadOrRefused(readFormulaText(text.slice(0, at) + span + put + rest))
      }),
      { seed: 8, numRuns: 1500 },
    )
  })

  it.each(SHIPPED)('$file cut off anywhere is refused as no JSON', ({ text }) => {
    const whole = text.trimEnd().length
    for (let end = 0; end < whole; end += 7) {
      const result = readFormulaText(text.slice(0, end))
      expect(result.ok ? [] : result.problems.map((p) => p.path)).toEqual(['file'])
    }
  })

  it('with a key twice is read with the last one, as JSON has it', () => {
    const { text } = SHIPPED[0] ?? { text: '' }
    const result = readFormulaText(text.replace('"name":', '"name": "first", "name":'))
    expect(result).toEqual(readFormulaText(text))
  })

  it('cannot reach the prototype of anything', () => {
    const { text } = SHIPPED[0] ?? { text: '' }
    const result = readFormulaText(text.replace('"name":', '"__proto__": {"wet": true}, "name":'))
    expect(result).toEqual(readFormulaText(text))
    expect(({} as { wet?: boolean }).wet).toBeUndefined()
  })
})
