// @vitest-environment node
import { describe, expect, it } from 'vitest'
import { readFormula, writeFormula } from '../../src/documents'
import { mendFormula } from '../../src/documents/mend'
import { soundLeader } from '../engine/build'

type Json = Record<string, unknown>
const sound = () => writeFormula(soundLeader()) as Json & { segments: Json[] }

describe('a formula that does not read', () => {
  it.each([
    ['a figure of many zeros', (f) => (f.segments[0]!['diameter'] = `.021${'0'.repeat(120)} in`)],
    ['a stray full stop', (f) => (f.segments[0]!['length'] = '36. in')],
    ['a name that is too long', (f) => (f['name'] = 'x'.repeat(20_001))],
    ['201 pieces', (f) => (f.segments = Array.from({ length: 201 }, () => f.segments[0]!))],
    ['a note that is no text', (f) => (f.segments[0]!['note'] = 7)],
  ] as [string, (file: ReturnType<typeof sound>) => void][])('%s is mended', (_, spoil) => {
    const file = sound()
    spoil(file)
    const before = structuredClone(file)
    expect(readFormula(file).ok).toBe(false)
    const read = readFormula(mendFormula(file))
    expect(read.ok).toBe(true)
    expect(file).toEqual(before)
  })

  it('keeps the figure that was meant', () => {
    const file = sound()
    file.segments[0]!['diameter'] = `.021${'0'.repeat(120)} in`
    const read = readFormula(mendFormula(file))
    expect(read.ok && read.leader.segments[0]?.diameter.text).toBe('.021 in')
  })

  it.each(['no figure at all', '12 parsecs', '1.2.3 in'])('%s is not guessed at', (length) => {
    const file = sound()
    file.segments[0]!['length'] = length
    expect(mendFormula(file)).toBeUndefined()
  })
})
