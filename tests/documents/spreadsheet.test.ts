// @vitest-environment node
import { describe, expect, it } from 'vitest'
import { clipboardRow, csvRow } from '../../src/documents/spreadsheet'

describe('cells of a spreadsheet', () => {
  // The first characters that make a cell a formula: OWASP, CSV Injection.
  it.each(['=1+1', '+1', '-1', '@SUM(A1)', '\t=1', '\r=1', '\n=1', " =cmd|' /C calc'!A0"])(
    '%j is no formula any more, in a file or by the clipboard',
    (text) => {
      const [cell] = csvRow([text, 1]).replaceAll('"', '').split(',')
      for (const made of [cell, clipboardRow([text]).split('\t')[0]]) expect(made).toMatch(/^ /)
      expect(clipboardRow([text, 'next']).split('\t')).toHaveLength(2)
    },
  )

  it('quotes as RFC 4180 says, and leaves figures and plain texts alone', () => {
    expect(csvRow(['a "b", c', -0.5, '5X', '.006 in', '1\n2'])).toBe(
      '"a ""b"", c",-0.5,5X,.006 in,"1\n2"',
    )
  })
})
