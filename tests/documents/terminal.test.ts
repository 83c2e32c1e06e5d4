// @vitest-environment node
import { mkdtempSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest'
import { flyCase, main, Work } from '../../src/cli/cast.ts'
import { main as report } from '../../src/cli/report.ts'
import { readCastCases } from '../../src/documents'

const SEGMENTS = [
  { length_m: 0.9, diameter_m: 5e-4, density_kg_m3: 1140, modulus_Pa: 2.5e9 },
  { length_m: 0.6, diameter_m: 1.5e-4, density_kg_m3: 1140, modulus_Pa: 2.5e9 },
]
const CASE = { segments: SEGMENTS, fly: { mass_kg: 3e-5, dragArea_m2: 5e-5 }, mesh: 'coarse' }

let said = ''
const folder = mkdtempSync(join(tmpdir(), 'cases-'))

function fileOf(content: string | Uint8Array): string {
  const path = join(folder, 'case.json')
  writeFileSync(path, content)
  return path
}

beforeEach(() => {
  said = ''
  vi.spyOn(process.stderr, 'write').mockImplementation((text) => (said += String(text)) !== '')
  vi.spyOn(process.stdout, 'write').mockReturnValue(true)
})
afterEach(() => vi.restoreAllMocks())

function statusOf(patch: object): string {
  const read = readCastCases({ ...CASE, ...patch })
  if (!read.ok)
    throw new Error(read.problems.map(({ path, expected }) => `${path}: ${expected}`).join())
  return flyCase(read.jobs[0]!).status
}

describe('the status of a case', () => {
  it('is ok for a cast', () => expect(statusOf({})).toBe('ok'))

  it.each([
    ['a loop that starts beyond the line', { cast: { loopStart_m: 60 } }, 'nothing is thrown'],
    ['no line', { line: [], cast: { loopStart_m: 4 } }, 'nothing is thrown'],
    [
      'a strand coiled to a millimetre',
      { segments: [{ ...SEGMENTS[0], curl_1_m: 1000 }] },
      'does not close',
    ],
    [
      'a gale of honey',
      { cast: { lineSpeed_m_s: 100 }, air: { kinematicViscosity_m2_s: 1e-9 } },
      'Reynolds',
    ],
  ])('says so of %s', (_, patch, words) => expect(statusOf(patch)).toContain(words))

  it.each([0.5, 99, -1])('a knot at joint %s is refused, saying which there are', (joint) => {
    const read = readCastCases({ ...CASE, knots: [{ joint, mass_kg: 1e-6 }] })
    expect(read.ok ? [] : read.problems.map(({ path }) => path)).toEqual(['knots[0].joint'])
    expect(read.ok ? '' : read.problems[0]?.expected).toContain('joint')
  })

  it('a search stops at the work that one case may take', () => {
    function* endless() {
      for (;;) yield null
    }
    expect(new Work().search(endless(), 1e8)).toBeUndefined()
  })
})

describe('what a command reads', () => {
  it('may begin with a byte order mark', () => {
    expect(main([fileOf(`\uFEFF${JSON.stringify(CASE)}`)])).toBe(0)
    expect(said).toBe('')
  })

  it('in another encoding is told as such', () => {
    expect(main([fileOf(Buffer.from('{"name": "Äsche"}', 'latin1'))])).toBe(1)
    expect(said).toContain('is not UTF-8')
    expect(report([fileOf(Buffer.from('{"name": "Äsche"}', 'latin1'))])).toBe(1)
  })

  it('with a number that no number can hold says so', () => {
    expect(main([fileOf(JSON.stringify(CASE).replace('0.9', '1e999'))])).toBe(1)
    expect(said).toContain('too large')
    expect(said).not.toContain('found null')
  })

  it('never reaches the terminal raw, and stops at a hundred lines with a count', () => {
    const bad = { ...CASE, segments: Array.from({ length: 200 }, () => ({ '\u001b[2Jx': 1 })) }
    expect(main([fileOf(JSON.stringify(bad))])).toBe(1)
    // eslint-disable-next-line no-control-regex
    expect(said).not.toMatch(/\u001b/)
    expect(said.trim().split('\n')).toHaveLength(101)
    expect(said).toMatch(/and \d+ more of the kind/)
  })
})
