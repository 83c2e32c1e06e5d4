// @vitest-environment node
import { describe, expect, it } from 'vitest'
import {
  anyLeader,
  leaderOf,
  leaderOfPounds,
  leaderOfRecipe,
  lineOf,
  q,
  soundLeader,
  taperedLeader,
} from '../build'
import { badOffers, rank, reportOf } from './support'
import fc from 'fast-check'
import type { Check, FindingOf } from '../../../src/engine/checks'
import type { LimitDefinition } from '../../../src/engine/checks'
import type { Leader } from '../../../src/engine/leader'
import {
  CHECK_IDS,
  LIMIT_DEFINITIONS,
  LIMIT_IDS,
  limitFor,
  limitSource,
  limitsFor,
} from '../../../src/engine/checks'
import { PURPOSES } from '../../../src/engine/leader'
import { POUND_RECIPES, RECIPES } from '../../reference/recipes'

const PUBLISHED = [...RECIPES.map(leaderOfRecipe), ...POUND_RECIPES.map(leaderOfPounds)]

const idsOf = (leader: Leader) => {
  const { findings, passed, notChecked } = reportOf(leader)
  return [...new Set(findings.map((f) => f.id)), ...passed, ...notChecked.map((n) => n.id)]
}

describe('report', () => {
  it('finds nothing in a sound leader and says what it looked at', () => {
    const { findings, passed, notChecked } = reportOf(soundLeader())
    expect(findings).toEqual([])
    expect(notChecked).toEqual([
      { id: 'turnover', because: 'not-flown' },
      { id: 'record-rules', because: 'no-record-purpose' },
    ])
    expect(passed).toEqual(CHECK_IDS.filter((id) => id !== 'record-rules' && id !== 'turnover'))
  })

  it('says of a bare piece what it lacks', () => {
    const { notChecked } = reportOf(
      leaderOf([{ length: '2 m', diameter: '20 thou', part: 'butt' }]),
    )
    expect(Object.fromEntries(notChecked.map((n) => [n.id, n.because]))).toEqual({
      'butt-and-line': 'no-line',
      'total-and-rod': 'no-rod',
      'tippet-length': 'no-tippet',
      'tip-and-fish': 'no-fish',
      'tippet-and-fly': 'no-fly',
      turnover: 'no-fly',
      label: 'no-label',
      'stated-total': 'no-stated-total',
      'record-rules': 'no-record-purpose',
    })
  })

  it('accounts for every check once, whatever the leader', () => {
    fc.assert(
      fc.property(anyLeader, (leader) => {
        expect(idsOf(leader).sort()).toEqual([...CHECK_IDS].sort())
      }),
    )
  })

  it('puts the severest first, and every finding has a source, a place in the leader and figures', () => {
    fc.assert(
      fc.property(anyLeader, (leader) => {
        const { findings } = reportOf(leader)
        const ranks = findings.map(rank)
        expect(ranks).toEqual([...ranks].sort((a, b) => b - a))
        const last = leader.segments.length
        return findings.every(
          ({ source, place: { kind, index }, measured }) =>
            source !== '' &&
            index >= 0 &&
            index <= (kind === 'joint' ? last : last - 1) &&
            Object.keys(measured).length > 0,
        )
      }),
    )
  })
})

describe('remedies', () => {
  // Each offer costs an evaluation here and one in the engine, so the leaders are fewer than usual.
  it.each([
    ['tapered', taperedLeader],
    ['any', anyLeader],
  ])('every one offered helps and brings nothing severer: %s leaders', (_, leaders) => {
    fc.assert(
      fc.property(leaders, (leader) => {
        expect(badOffers(leader)).toEqual([])
      }),
      { numRuns: 150 },
    )
  })

  it('most findings of tapered leaders come with one', () => {
    const leaders = fc.sample(taperedLeader, { numRuns: 200, seed: 7 })
    const findings = leaders.flatMap((l) => reportOf(l).findings)
    // What is offered may be left out for what it would bring; more than half must remain.
    expect(findings.filter((f) => f.remedies.length > 0).length).toBeGreaterThan(
      findings.length / 2,
    )
  })
})

describe('published leaders, judged for what they are for', () => {
  const outfit = (leader: Leader) => ({
    rod: q('9 ft'),
    line: lineOf(['salt-water', 'bite-tippet'].includes(leader.purpose) ? 'WF8F' : 'WF5F'),
  })

  it.each(PUBLISHED.map((l) => [l.name, l] as const))(
    '%s: no fault, no caution about steps or shares',
    (_, leader) => {
      const { findings } = reportOf({ ...leader, outfit: outfit(leader) })
      expect(findings.filter((f) => f.severity === 'fault')).toEqual([])
      const taper = ['step-too-big', 'step-up', 'shares', 'segment-length']
      expect(findings.filter((f) => f.severity === 'caution' && taper.includes(f.id))).toEqual([])
    },
  )

  it.each(PUBLISHED.map((l) => [l.name, l] as const))('%s: what is offered helps', (_, leader) => {
    expect(badOffers({ ...leader, outfit: outfit(leader) })).toEqual([])
  })
})

describe('limits', () => {
  it.each(LIMIT_IDS)(
    '%s has a source, and the own value of the user wins for every purpose',
    (id) => {
      expect(LIMIT_DEFINITIONS[id].source).not.toBe('')
      for (const purpose of PURPOSES) {
        const own = limitsFor(purpose, { [id]: 0.123456 })
        expect(own[id]).toBe(0.123456)
        expect(limitSource(id, own, purpose)).toBe('your own limit')
        const { source, byPurpose }: LimitDefinition = LIMIT_DEFINITIONS[id]
        // A purpose's own number is ours and says so.
        const adapted =
          byPurpose && purpose in byPurpose ? '; adapted to this purpose: estimate' : ''
        expect(limitSource(id, limitsFor(purpose), purpose)).toBe(source + adapted)
      }
    },
  )

  it.each(PURPOSES)('the limits for %s are in order', (purpose) => {
    const pairs = LIMIT_IDS.filter((id) => id.endsWith('Low')).map(
      (low) => [low, low.replace(/Low$/, 'High') as typeof low] as const,
    )
    for (const [low, high] of pairs) {
      const [a, b] = [limitFor(low, purpose), limitFor(high, purpose)]
      // A larger divisor gives a smaller X: the rule by hook size runs the other way.
      if (a !== null && b !== null && low !== 'flyRuleLow') expect(a).toBeLessThan(b)
    }
    expect(limitFor('tippetShortest', purpose) ?? 0).toBeLessThan(
      limitFor('tippetLongest', purpose) ?? 1,
    )
  })
})

describe('a check', () => {
  const whole = {
    id: 'odd' as const,
    oneFor: 'leader' as const,
    bounds: [{ measured: 'ratio' as const, atMost: 'high' as const }],
    limits: {},
    run: () => [],
  }
  type Odd = FindingOf<'odd', 'odd', { ratio: number }, { high: number }>

  it('is one object, of which nothing can be forgotten or misspelt', () => {
    const { bounds: _, ...boundless } = whole
    const { limits: __, ...limitless } = whole
    const checks: Check<Odd>[] = [
      whole,
      // @ts-expect-error Without bounds a remedy that only lessens the finding would be dropped.
      boundless,
      // @ts-expect-error A check says which limits it has, be it none.
      limitless,
      // @ts-expect-error A bound names a figure of the finding.
      { ...whole, bounds: [{ measured: 'ration', atMost: 'high' }] },
    ]
    expect(checks).toHaveLength(4)
  })
})
