// @vitest-environment node
import { describe, expect, it } from 'vitest'
import type { Finding } from '../../src/engine/checks'
import type { Leader } from '../../src/engine/leader'
import { evaluate } from '../../src/engine/evaluate'
import { diameter_m, restepTo, scaleTo, tippetIndex, totalLength_m } from '../../src/engine/leader'
import { diameterOfX, quantityOf, xOfDiameter } from '../../src/engine/units'
import { leaderOfRecipe } from '../engine/build'
import { RECIPES } from '../reference/recipes'
import { SHIPPED, leaderOf } from '../support/formulas'

/** The shipped formulas: what they promise by their names, and that they are what we would advise. */

const FORMULAS = SHIPPED.map(({ file, text }) => {
  const leader = leaderOf(text)
  return { file, leader, result: evaluate(leader) }
})
const TEACHING = FORMULAS.filter(({ leader }) => leader.purpose === 'teaching')
const FISHING = FORMULAS.filter(({ leader }) => leader.purpose !== 'teaching')

/** Each kind of finding once, as "severity id variant". */
function kinds(findings: readonly Finding[]): string[] {
  return [...new Set(findings.map((f) => `${f.severity} ${f.id} ${f.variant}`))].sort()
}

/** What each lesson of the Saturday class shows of itself, and nothing else; how it goes over shows when it is thrown. */
const LESSONS: Readonly<Record<string, readonly string[]>> = {
  'saturday-class-even-taper.json': [],
  'saturday-class-long-butt.json': ['note shares butt-large'],
  'saturday-class-short-butt.json': ['note shares butt-small'],
  'saturday-class-one-step-too-far.json': ['caution step-too-big ratio'],
  'saturday-class-level-line.json': ['caution butt-and-line thin'],
  // Turned round, the thin end stands at the line, where it folds, and breaks first.
  'saturday-class-reversed.json': [
    'caution butt-and-line thin',
    'caution weakest-link joint',
    'note step-up reversed',
  ],
}

describe('shipped formulas', () => {
  it('are there for every purpose', () => {
    expect(FORMULAS.length).toBeGreaterThanOrEqual(16)
    expect([...new Set(FORMULAS.map(({ leader }) => leader.purpose))].sort()).toEqual([
      'bite-tippet',
      'general-dry',
      'nymph',
      'salt-water',
      'sinking-line',
      'slack-line-dry',
      'still-water',
      'streamer',
      'teaching',
      'tight-line-nymph',
    ])
  })

  it.each(FISHING)('$file gives no caution and no fault', ({ result }) => {
    const severe = result.checks.findings.filter(({ severity }) => severity !== 'note')
    expect(kinds(severe)).toEqual([])
  })

  it('for fishing give no note', () => {
    const notes = FISHING.flatMap(({ file, result }) =>
      kinds(result.checks.findings).map((kind) => `${file} ${kind}`),
    )
    expect(notes).toEqual([])
  })

  it('for fishing stay tapers when they are re-stepped two sizes either way, or scaled by a sixth', () => {
    const isOfTaper = ({ id }: { id: string }) =>
      /step|same-neighbours|segment-length|knot-unsuited|stated-total/.test(id)
    const changed = FISHING.flatMap(({ file, leader }) => {
      const tippet = leader.segments[tippetIndex(leader)]
      if (!tippet) throw new Error(`${file} has no tippet`)
      const x = xOfDiameter(diameter_m(tippet))
      const sizes = [x - 2, x + 2].filter((n) => n <= 8)
      return [
        ...sizes.map((n) => restepTo(leader, quantityOf(diameterOfX(n), 'diameter', 'in'))),
        ...[5 / 6, 7 / 6].map((factor) => scaleTo(leader, totalLength_m(leader) * factor)),
      ]
    })
    const found = changed.flatMap((leader) =>
      kinds(evaluate(leader).checks.findings.filter(isOfTaper)).map(
        (kind) => `${leader.name}: ${kind}`,
      ),
    )
    expect(found).toEqual([])
  })

  it('of the class are the ones with a lesson', () => {
    expect(TEACHING.map(({ file }) => file)).toEqual(Object.keys(LESSONS).sort())
  })

  it.each(TEACHING)('$file shows what it teaches and nothing else', ({ file, result }) => {
    expect(kinds(result.checks.findings)).toEqual(LESSONS[file])
  })

  it('of the class change one thing at a time: outfit, fly and total are the same', () => {
    const same = TEACHING.map(({ leader: { outfit, tip, statedTotal } }) =>
      JSON.stringify([outfit, tip, statedTotal?.text]),
    )
    expect(new Set(same).size).toBe(1)
  })

  it('write their figures in inches, thousandths, millimetres, centimetres, metres, feet and X', () => {
    const units = FORMULAS.flatMap(({ leader }) =>
      leader.segments.flatMap(({ diameter, length }) => [diameter.unit, length.unit]),
    )
    expect([...new Set(units)].sort()).toEqual(['X', 'cm', 'in', 'm', 'mm', 'thou'])
  })
})

describe.each(FORMULAS)('$file', ({ file, leader, result }) => {
  it('has a name of its own and is filed under words of it', () => {
    expect(FORMULAS.filter((other) => other.leader.name === leader.name)).toHaveLength(1)
    expect(file).toMatch(/^[a-z0-9]+(-[a-z0-9]+)*\.json$/)
    const [first = '', second = ''] = leader.name.toLowerCase().split(/[ :]+/)
    expect(file.startsWith(`${first}-${second}`)).toBe(true)
  })

  it('has a note that teaches, in one or two sentences', () => {
    const sentences = (leader.notes ?? '').split(/[.?!](?:\s|$)/).filter(Boolean)
    expect([1, 2]).toContain(sentences.length)
  })

  it('has an outfit and a fly, so that every check that bears on it is made', () => {
    expect(Object.keys(leader.outfit)).toEqual(expect.arrayContaining(['rod', 'line', 'caster']))
    expect(leader.tip.fly).toBeDefined()
    const missing = ['no-line', 'no-rod', 'no-fly', 'no-tippet', 'no-stated-total']
    expect(result.checks.notChecked.filter(({ because }) => missing.includes(because))).toEqual([])
  })
})

/** Published leaders, to be learnt from and not to be passed off as ours. */
const PUBLISHED = RECIPES.map(leaderOfRecipe)

/** Pieces that are the same in both, at the same place, within half an inch and half a thousandth. */
function sharedPieces({ segments }: Leader, published: Leader): number {
  return published.segments.filter(({ length, diameter }, i) => {
    const own = segments[i]
    if (!own) return false
    const inches = Math.abs(own.length.si - length.si) / 0.0254
    const thou = Math.abs(own.diameter.si - diameter.si) / 2.54e-5
    return inches < 0.5 && thou < 0.5
  }).length
}

describe.each(PUBLISHED.map((leader) => [leader.name, leader] as const))(
  'published: %s',
  (_, published) => {
    it('is not among the shipped formulas, whole or in half', () => {
      const copies = FORMULAS.filter(
        ({ leader }) => sharedPieces(leader, published) >= published.segments.length / 2,
      )
      expect(copies.map(({ file }) => file)).toEqual([])
    })

    it('would be recognised', () => {
      expect(sharedPieces({ ...published, name: 'ours' }, published)).toBe(
        published.segments.length,
      )
    })
  },
)
