// @vitest-environment node
import { describe, expect, it } from 'vitest'
import { readImportText, writeFormula, writeFormulaText, writeSetText } from '../../src/documents'
import { startingLeader } from '../../src/stores/startingLeader'

const good = startingLeader('Good')
const problemsOf = (text: string) => readImportText('a.json', text).problems

describe('reading an import', () => {
  it('takes a formula file, also with a byte order mark', () => {
    const imported = readImportText('a.json', `\uFEFF${writeFormulaText(good)}`)
    expect(imported).toEqual({ leaders: [good], problems: [] })
  })

  it('takes what reads of a set and names the place of the rest', () => {
    const broken = { ...writeFormula(good), purpose: 'dancing' }
    const imported = readImportText('a.json', writeSetText([broken, writeFormula(good), 7]))
    expect(imported.leaders).toEqual([good])
    expect(imported.problems).toMatchObject([
      { file: 'a.json', problem: { path: 'formulas[0].purpose', found: '"dancing"' } },
      { file: 'a.json', problem: { path: 'formulas[2]', found: '7' } },
    ])
  })

  it.each([
    ['{ "format": "taperwright-set", "version": 1, "formulas": [', 'file', 'JSON'],
    ['{ "format": "taperwright-set", "version": 2, "formulas": [] }', 'version', 'newer'],
    ['{ "format": "taperwright-set", "version": 1 }', 'formulas', 'a list of formulas'],
    ['{ "format": "another" }', 'format', 'taperwright-leader'],
    ['[]', 'file', 'a formula'],
  ])('refuses %s, saying what would be right', (text, path, words) => {
    expect(problemsOf(text)).toEqual([
      {
        file: 'a.json',
        problem: expect.objectContaining({
          path,
          expected: expect.stringContaining(words) as string,
        }) as object,
      },
    ])
  })

  it('refuses more than 50 MB unread', () => {
    const [refused] = problemsOf(' '.repeat(51e6))
    expect(refused?.problem).toMatchObject({
      found: '51 MB',
      expected: expect.stringContaining('at most 50 MB') as string,
    })
  })
})
