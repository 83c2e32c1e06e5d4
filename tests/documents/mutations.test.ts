// @vitest-environment node
import * as fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import type { ReadResult } from '../../src/documents'
import { readFormula, readFormulaText, writeFormulaText } from '../../src/documents'
import { spoiled, step } from '../attack/spoil'
import { SHIPPED } from '../support/formulas'

/** A file spoiled at random is read or refused with place and reason: nothing else may happen. `tests/attack` does more. */

const shipped = fc.constantFrom(...SHIPPED)

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
  it('in its fields, 1,000 times over, is read or refused', () => {
    const seen = { read: 0, refused: 0 }
    fc.assert(
      fc.property(shipped, fc.array(step, { minLength: 1, maxLength: 5 }), ({ text }, steps) => {
        const result = readFormula(spoiled(JSON.parse(text), steps))
        seen[result.ok ? 'read' : 'refused']++
        expectReadOrRefused(result)
      }),
      { seed: 7, numRuns: 1000 },
    )
    // Both must happen, or the spoiling does nothing or too much.
    expect(seen.read).toBeGreaterThan(40)
    expect(seen.refused).toBeGreaterThan(400)
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
