// @vitest-environment node
import { describe, expect, it } from 'vitest'
import { diameter_m } from '../../../src/engine/leader'
import { lineOf, leaderOfPounds, leaderOfRecipe, q } from '../build'
import { POUND_RECIPES, RECIPES } from '../../reference/recipes'
import { reportOf } from './support'

/**
 * Published recipes for special purposes, each with the outfit it is printed for or an ordinary one. By the
 * rules of a trout dry they would all be wrong; none may be called so for being what it is.
 */
const SPECIAL = [
  'slack-line-dry',
  'tight-line-nymph',
  'sinking-line',
  'bite-tippet',
  'salt-water',
  'still-water',
  'streamer',
]
const LINES: Readonly<Record<string, string>> = {
  'tight-line-nymph': 'WF3F',
  'sinking-line': 'WF8S4',
  'bite-tippet': 'WF9F',
  'salt-water': 'WF8F',
  streamer: 'WF7F',
}

const leaders = [...RECIPES.map(leaderOfRecipe), ...POUND_RECIPES.map(leaderOfPounds)]
  .filter(({ purpose }) => SPECIAL.includes(purpose))
  .map((leader) => ({
    ...leader,
    outfit: { line: lineOf(LINES[leader.purpose] ?? 'WF5F'), rod: q('10 ft') },
  }))

/** What these recipes do break, as their authors and readers know: said, and rightly. */
const KNOWN: Readonly<Record<string, readonly string[]>> = {
  // Its 15 lb piece is weaker than the bite piece below it and the taper above: the weak link by design.
  tarpon: ['record-rules'],
}

describe('recipes for special purposes', () => {
  it('there are some of each', () => {
    expect(new Set(leaders.map((l) => l.purpose))).toEqual(new Set(SPECIAL))
  })

  it.each(leaders.map((l) => [l.name, l] as const))(
    '%s is not faulty for being what it is',
    (name, leader) => {
      const { findings } = reportOf(leader)
      expect(findings.filter((f) => f.severity === 'fault')).toEqual([])
      // Shape, length, shares and butt are what its purpose makes it: at most a note on a knot or a label.
      const ofShape = findings.filter(
        (f) =>
          f.severity === 'caution' &&
          ['shares', 'total-and-rod', 'tippet-length', 'butt-and-line', 'segment-length'].includes(
            f.id,
          ),
      )
      expect(ofShape.map((f) => `${f.id} ${f.variant}`)).toEqual([])
      expect((KNOWN[name] ?? []).every((id) => findings.some((f) => f.id === id))).toBe(true)
      expect(leader.segments.every((s) => diameter_m(s) > 0)).toBe(true)
    },
  )

  it('the same judged as trout dries would be', () => {
    const wrong = leaders.filter((l) =>
      reportOf({ ...l, purpose: 'general-dry' }).findings.some((f) =>
        ['shares', 'total-and-rod', 'butt-and-line', 'step-too-big'].includes(f.id),
      ),
    )
    expect(wrong.length).toBeGreaterThan(leaders.length / 2)
  })
})
