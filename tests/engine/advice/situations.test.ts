// @vitest-environment node
import { describe, expect, it } from 'vitest'
import type { ReasonFigures } from '../../../src/engine/advice'
import { judgeAgainstBrief } from '../../../src/engine/advice'
import { evaluate } from '../../../src/engine/evaluate'
import { diameter_m, tippetIndex, totalLength_m } from '../../../src/engine/leader'
import { strengthOf } from '../../../src/engine/strength'
import type { BriefPatch } from './briefs'
import { adviceFor, codesOf, firstFor } from './briefs'

const [IN, FT] = [0.0254, 0.3048]

describe('fly and fish that do not go together', () => {
  // Generic tables of the trade: 6X for hooks to 26, 5X to 20 only; by hook / 4 to hook / 3 a 24 is 6X to 8X.
  it.each(['flat', 'riffle', 'pocket-water', 'still-water'] as const)(
    'a midge 24 on a %s stays at 6X or finer for a fish of 5 lb, and the conflict is told',
    (water) => {
      const wariness = water === 'flat' ? 'pressured' : 'usual'
      const { tippet } = adviceFor({
        fly: { style: 'midge', hook: 24 },
        conditions: { water, wariness, wind: 'strong', warm: true },
        fish: '5 lb',
      })
      expect(tippet.recommendedX).toBeGreaterThanOrEqual(6)
      const told = tippet.reasons.find(({ code }) => code === 'fish-beyond')
      const figures = told?.figures as ReasonFigures['fish-beyond']
      expect(figures).toMatchObject({ hook: 24, toX: tippet.recommendedX })
      expect(figures.heldX).toBeLessThan(6)
      // The same fish with the bigger fly that is named has the tippet that it asks for.
      const bigger = adviceFor({
        fly: { style: 'midge', hook: figures.biggerHook ?? NaN },
        fish: '5 lb',
        conditions: { water },
      })
      expect(bigger.tippet.recommendedX).toBeLessThanOrEqual(figures.heldX)
      expect(codesOf(bigger)).not.toContain('fish-beyond')
    },
  )

  // A 14 is 4X to 5X by its hook; tables of the trade still give it 3X, one size beyond.
  it('a dry 14 goes to 3X for a heavy fish and no further, whatever wind and warmth ask', () => {
    const conditions = { wind: 'strong', warm: true, snags: true } as const
    const { tippet } = adviceFor({
      fly: { style: 'bushy', hook: 14 },
      conditions,
      fish: '8 lb',
    })
    expect(tippet.recommendedX).toBe(3)
    expect(tippet.reasons.map(({ code }) => code)).toContain('rule-bounds')
  })
})

describe('a line that sinks', () => {
  const lake = { water: 'still-water', distance: 'far' } as const

  // 4X to 3X by the hook, and short stout leaders behind sinking lines (common practice).
  it.each(['WF7S', 'WF7S3', 'WF7F/S4', 'WF7I'])('a nymph 12 on a %s on a lake takes 3X', (line) => {
    const patch = { fly: { style: 'nymph', hook: 12 }, conditions: lake, line, fish: '3 lb' }
    const advice = adviceFor(patch as BriefPatch)
    expect(advice.tippet.recommendedX).toBe(3)
    expect(advice.tries[0]?.tippetX).toBe(3)
    expect(codesOf(advice)).toContain('sinking-stouter')
  })

  // Full-sink streamers fish 2 to 5 ft (from memory).
  it('a streamer 8 on it hears nothing of wary fish or of longer leaders, and has four feet', () => {
    const advice = adviceFor({
      fly: { style: 'streamer', hook: 8 },
      conditions: { ...lake, wind: 'strong' },
      line: 'WF7S',
    })
    expect(codesOf(advice).filter((code) => /^(wary|wind|length-(far|wind))/.test(code))).toEqual(
      [],
    )
    expect(advice.length.length_m / FT).toBeCloseTo(4, 6)
  })

  it('on a floating line a streamer on a lake is no longer, and none says that it is', () => {
    const fly = { style: 'streamer', hook: 8 } as const
    const [lakeSide, run] = [
      adviceFor({ fly, line: 'WF7F', conditions: { water: 'still-water' } }),
      adviceFor({ fly, line: 'WF7F' }),
    ]
    expect(lakeSide.length.length_m).toBe(run.length.length_m)
    expect(codesOf(lakeSide)).not.toContain('wary-longer-first')
  })
})

describe('a fish with teeth', () => {
  const pike: BriefPatch = {
    fly: { style: 'streamer', hook: -3 },
    conditions: { water: 'still-water', toothy: true },
    line: 'WF9F',
    fish: '10 lb',
  }

  it('a streamer 4/0 for it gets a bite piece of wire below its tippet', () => {
    const { leader, changes } = firstFor(pike)
    const [tippet, bite] = leader.segments.slice(-2)
    expect([tippet?.part, bite?.part]).toEqual(['tippet', 'bite'])
    expect(leader.materials.find(({ id }) => id === bite?.material)?.family).toBe('wire')
    expect(changes.map(({ code }) => code)).toContain('bite-added')
    expect(leader.purpose).toBe('bite-tippet')
  })

  // IGFA fly fishing rules: shock tippet of 12 in at most with its knots, class tippet of 15 in inside its own.
  it('the piece keeps to the record rules and to its length in the whole', () => {
    const advice = adviceFor(pike)
    const { leader } = advice.tries[0]!
    expect(leader.segments.at(-1)!.length.si).toBeLessThan(12 * IN)
    const { findings } = evaluate(leader).checks
    expect(findings.filter(({ id }) => id === 'record-rules')).toEqual([])
    expect(findings.filter(({ severity }) => severity === 'fault')).toEqual([])
    expect(totalLength_m(leader)).toBeCloseTo(advice.length.length_m, 2)
  })

  it('the tippet breaks first, and holds what the fish asks', () => {
    const advice = adviceFor(pike)
    const { leader } = advice.tries[0]!
    const { weakest } = strengthOf(leader)
    expect(weakest.piece).toBe(tippetIndex(leader))
    expect(weakest.strength.wet.value).toBeGreaterThan(advice.strength.pull.value * 0.9)
    expect(diameter_m(leader.segments.at(-1)!)).toBeGreaterThanOrEqual(0.44e-3)
  })

  it.each(['WF7S', 'WF9I'])('on a %s too', (line) => {
    const { leader } = firstFor({ ...pike, line })
    expect(leader.segments.at(-1)?.part).toBe('bite')
  })

  it('without the piece the leader does not keep to the brief', () => {
    const { leader } = firstFor(pike)
    const wrong = (segments: typeof leader.segments) =>
      judgeAgainstBrief({ ...leader, segments })
        ?.filter(({ ok }) => !ok)
        .map(({ what }) => what)
    expect(wrong(leader.segments)).toEqual([])
    expect(wrong(leader.segments.slice(0, -1))).toContain('bite')
  })
})

describe('the leader that is laid down', () => {
  it('for a bushy dry 12 on a small stream is made from a dry-fly leader, without a step too big', () => {
    const { from, leader } = firstFor({
      fly: { style: 'bushy', hook: 12 },
      conditions: { water: 'small-stream' },
      line: 'WF3F',
    })
    expect(from.leader.purpose).toBe('general-dry')
    const { findings } = evaluate(leader).checks
    expect(findings.map(({ id }) => id)).toEqual([])
  })

  // Spools of one size differ by 2 to 3 % (estimate): .020 and .0195 in are one size and a knot.
  it.each(['WF3F', 'WF4F', 'WF5F', 'WF6F', 'WF7F', 'WF8F'])(
    'for a hopper 8 on a %s ties no two pieces of one size',
    (line) => {
      const { tries } = adviceFor({ fly: { style: 'foam-terrestrial', hook: 8 }, line })
      for (const sizes of tries.map(({ leader }) => leader.segments.map(diameter_m)))
        for (const [i, size] of sizes.slice(1).entries())
          expect(size / sizes[i]!).toBeLessThan(0.97)
    },
  )

  it('is one of its purpose where there is one, and of the likest else', () => {
    const fromFor = (patch: BriefPatch) => firstFor(patch).from.leader.purpose
    expect(fromFor({ fly: { style: 'nymph' } })).toBe('nymph')
    expect(fromFor({ fly: { style: 'streamer', hook: 4 } })).toBe('streamer')
    expect(fromFor({ conditions: { water: 'still-water' } })).toBe('general-dry')
  })
})

describe('nothing is said that says nothing', () => {
  it('no current on a lake, no hints on fluorocarbon where nylon is advised', () => {
    const codes = codesOf(adviceFor({ conditions: { water: 'still-water', snags: true } }))
    expect(codes.filter((code) => /current|knots$|cost|abrasion/.test(code))).toEqual([
      'strength-knots',
    ])
    expect(codesOf(adviceFor({ fly: { style: 'nymph' } }))).toContain('material-knots')
  })

  it('nor that a streamer is neither light nor heavy for its hook', () => {
    const codes = codesOf(adviceFor({ fly: { style: 'streamer', hook: 4 } }))
    expect(codes).toContain('unruled-middle')
    expect(codes).not.toContain('ordinary-fly')
  })
})
