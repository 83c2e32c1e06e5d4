// @vitest-environment node
import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import type { Brief } from '../../../src/engine/advice'
import {
  adapt,
  advise,
  againstOrdinary,
  currentOnFish_N,
  judgeAgainstBrief,
  nearest,
  strengthAdvice,
} from '../../../src/engine/advice'
import { evaluate } from '../../../src/engine/evaluate'
import {
  DISTANCES,
  WARINESS,
  WATERS,
  WINDS,
  diameter_m,
  tippetIndex,
  totalLength_m,
} from '../../../src/engine/leader'
import { BUILT_IN_MATERIALS, sourced } from '../../../src/engine/materials'
import { FLY_STYLES } from '../../../src/engine/tackle'
import { soundLeader } from '../build'
import { CANDIDATES, adviceFor, briefFor, codesOf, firstFor } from './briefs'

const FT = 0.3048

describe('the fly first', () => {
  // Common practice: X is hook size divided by four (fast) to three (slow water).
  it.each([
    [12, 3, 4],
    [16, 4, 5],
    [20, 5, 7],
    [8, 2, 3],
    [24, 6, 8],
  ])('a size %i gives %iX to %iX', (hook, stoutX, fineX) => {
    expect(adviceFor({ fly: { hook } }).tippet.rule).toEqual({ stoutX, fineX })
  })

  // Common practice: a light dry takes the finer end, a beaded or bulky fly the stouter.
  it.each([
    ['parachute', 'light-fly', 4],
    ['collar-hackle', 'ordinary-fly', 4],
    ['bushy', 'heavy-fly', 3],
    ['beaded-nymph', 'heavy-fly', 3],
    ['foam-terrestrial', 'heavy-fly', 3],
  ] as const)('a size 12 %s is a %s and takes %iX', (style, code, x) => {
    const advice = adviceFor({ fly: { style, hook: 12 } })
    expect(codesOf(advice)).toContain(code)
    expect(advice.tippet.recommendedX).toBe(x)
  })

  it('goes by what the fly was weighed at', () => {
    const light = adviceFor({ fly: { style: 'nymph', hook: 12 } })
    const leaded = adviceFor({ fly: { style: 'nymph', hook: 12, mass_kg: 3e-4 } })
    expect(
      againstOrdinary(briefFor({ fly: { style: 'nymph', hook: 12, mass_kg: 3e-4 } }).fly).kind,
    ).toBe('heavy')
    expect(leaded.tippet.recommendedX).toBeLessThan(light.tippet.recommendedX)
  })

  it.each(['streamer', 'weighted-streamer', 'popper', 'deer-hair'] as const)(
    'the rule is not applied to a %s, and that is said',
    (style) => {
      const advice = adviceFor({ fly: { style, hook: 6 }, line: 'WF7F' })
      expect(advice.tippet.rule).toBeNull()
      expect(codesOf(advice)).toContain('rule-not-for-style')
    },
  )

  it('nor to a large dry, nor in salt water', () => {
    expect(codesOf(adviceFor({ fly: { style: 'bushy', hook: 2 } }))).toContain('rule-not-for-hook')
    const salt = adviceFor({ conditions: { water: 'salt-water' }, line: 'WF8F', fish: '6 lb' })
    expect(salt.tippet.rule).toBeNull()
    expect(codesOf(salt)).toContain('rule-not-for-water')
    expect(salt.purpose).toBe('salt-water')
  })
})

describe('then wariness and water', () => {
  const wary = { water: 'flat', wariness: 'pressured', distance: 'usual', wind: 'calm' } as const

  it('longer first: a clear flat lengthens and leaves the tippet', () => {
    const [plain, flat] = [adviceFor(), adviceFor({ conditions: { water: 'flat' } })]
    expect(flat.length.length_m).toBeGreaterThan(plain.length.length_m + 2 * FT)
    expect(flat.tippet.recommendedX).toBe(plain.tippet.recommendedX)
    expect(codesOf(flat)).toContain('wary-longer-first')
  })

  it('then finer: pressured fish on it take a size off', () => {
    const [plain, fine] = [adviceFor(), adviceFor({ conditions: wary })]
    expect(fine.tippet.recommendedX).toBe(plain.tippet.recommendedX + 1)
    expect(codesOf(fine)).toContain('wary-finer')
  })

  it('wind: shorter first, then stouter', () => {
    const [calm, breeze, strong] = (['calm', 'breeze', 'strong'] as const).map((wind) =>
      adviceFor({ conditions: { wind } }),
    )
    expect(breeze!.length.length_m).toBeLessThan(calm!.length.length_m)
    expect(breeze!.tippet.recommendedX).toBe(calm!.tippet.recommendedX)
    expect(strong!.length.length_m).toBeLessThan(breeze!.length.length_m)
    expect(strong!.tippet.recommendedX).toBe(calm!.tippet.recommendedX - 1)
  })

  it('has a plain leader for the same fly beside it, to see what length and tippet cost', () => {
    const { plain, tippet, length, tries } = adviceFor({ conditions: wary })
    expect(plain?.length_m).toBe(length.plain_m)
    expect(plain?.length_m).toBeLessThan(tries[0]!.length_m)
    expect(plain?.x).toBeGreaterThanOrEqual(tippet.rule!.stoutX)
    expect(plain?.x).toBeLessThan(tries[0]!.tippetX)
    expect(totalLength_m(plain!.leader)).toBeCloseTo(plain!.length_m, 2)
    expect(plain!.leader.tip.fly).toEqual(tries[0]!.leader.tip.fly)
  })

  // Common practice: 7 1/2 ft on small streams, 9 on riffles, 12 on flats and lakes, about 4 behind a
  // sinking tip.
  it.each([
    ['small-stream', 'WF5F', 7.5],
    ['riffle', 'WF5F', 9],
    ['flat', 'WF5F', 12],
    ['still-water', 'WF5F', 12],
    ['still-water', 'WF7S3', 4],
    ['riffle', 'WF7F/S3', 4],
  ] as const)('%s with a %s: about %f ft', (water, line, feet) => {
    expect(adviceFor({ conditions: { water }, line }).length.length_m / FT).toBeCloseTo(feet, 6)
  })
})

describe('then the fish', () => {
  it('a heavy fish takes a stouter tippet, and one that the fly cannot have is said', () => {
    const [small, large] = [adviceFor({ fish: '1 lb' }), adviceFor({ fish: '4 lb' })]
    expect(large.tippet.recommendedX).toBeLessThan(small.tippet.recommendedX)
    expect(codesOf(large)).toContain('fish-stouter')
    const huge = adviceFor({ fish: '12 lb' })
    expect(codesOf(huge)).toContain('fish-beyond')
    expect(huge.tippet.recommendedX).toBeGreaterThanOrEqual((huge.tippet.rule?.stoutX ?? 0) - 1)
  })

  it('the finest tippet just holds the pull through its knot', () => {
    const nylon = BUILT_IN_MATERIALS.find((m) => m.id === 'nylon-supple')!
    const { finest_m, pull } = strengthAdvice(briefFor({ fish: '3 lb' }), nylon)
    // By hand: breaking stress 850 MPa, 0.85 of it wet (Net materials, US Fish & Wildlife Service), 0.85 kept by the knot.
    const holds = 850e6 * 0.85 * 0.85 * (Math.PI / 4) * finest_m ** 2
    expect(holds).toBeCloseTo(pull.value, 6)
    // Half of 3 lb is 6.67 N; current and jerk come on top, within a factor of two.
    expect(pull.value).toBeGreaterThan(6.67)
    expect(pull.value).toBeLessThan(2 * 6.67)
  })

  it('snags, current and warm water ask for more', () => {
    const x = (conditions: Partial<Brief['conditions']>) =>
      strengthAdvice(briefFor({ conditions }), BUILT_IN_MATERIALS[1]!).finestX
    expect(x({ snags: true })).toBeLessThan(x({}))
    expect(x({ water: 'pocket-water' })).toBeLessThan(x({ water: 'flat' }))
    const [cool, warm] = [adviceFor(), adviceFor({ conditions: { warm: true } })]
    expect(warm.tippet.recommendedX).toBe(cool.tippet.recommendedX - 1)
  })

  it('the current on a fish grows as the square of its speed and is none in still water', () => {
    const at = (v: number) => currentOnFish_N(1, sourced(v, v, v, '')).value
    expect(at(1) / at(0.5)).toBeCloseTo(4, 9)
    expect(at(0)).toBe(0)
  })
})

describe('the leader', () => {
  const anyBrief = fc.record({
    style: fc.constantFrom(...FLY_STYLES.filter((s) => s !== 'yarn-tuft')),
    hook: fc.integer({ min: -2, max: 24 }),
    water: fc.constantFrom(...WATERS),
    wariness: fc.constantFrom(...WARINESS),
    distance: fc.constantFrom(...DISTANCES),
    wind: fc.constantFrom(...WINDS),
    line: fc.constantFrom('WF3F', 'DT4F', 'WF5F', 'WF6F', 'WF8F', 'WF6I', 'WF7S3', 'WF7F/S4'),
    fish: fc.constantFrom('0.5 lb', '1 lb', '3 lb', '6 lb'),
  })

  it('of any brief has the length and tippet that were advised, and nothing about it is a fault', () => {
    fc.assert(
      fc.property(anyBrief, ({ style, hook, line, fish, ...conditions }) => {
        const advice = adviceFor({ fly: { style, hook }, conditions, line, fish })
        expect(advice.tries[0]).toMatchObject({
          tippetX: advice.tippet.recommendedX,
          length_m: advice.length.length_m,
        })
        for (const { leader, tippetX, length_m } of advice.tries) {
          expect(Math.abs(totalLength_m(leader) - length_m)).toBeLessThan(0.01)
          const tippet = leader.segments[tippetIndex(leader)]!
          const x = 11 - diameter_m(tippet) / 2.54e-5
          expect(Math.abs(x - tippetX)).toBeLessThan(0.3)
          expect(tippet.material).toBe(advice.material.material.id)
          expect(evaluate(leader).checks.findings.filter((f) => f.severity === 'fault')).toEqual([])
        }
      }),
      { seed: 7, numRuns: 150 },
    )
  })

  it('of a trout brief with a floating line comes without cautions from the taper', () => {
    fc.assert(
      fc.property(anyBrief, ({ style: _s, hook, line: _l, fish: _f, ...conditions }) => {
        fc.pre(conditions.water !== 'salt-water')
        const { tries } = adviceFor({
          fly: { style: 'parachute', hook: Math.max(10, hook) },
          conditions,
        })
        const cautions = tries.flatMap(({ leader }) =>
          evaluate(leader).checks.findings.filter(
            (f) => f.severity !== 'note' && f.id !== 'tip-and-fish',
          ),
        )
        expect(cautions).toEqual([])
      }),
      { seed: 8, numRuns: 100 },
    )
  })

  it('lists every change', () => {
    const made = firstFor({ conditions: { water: 'flat' }, line: 'DT4F' })
    const codes = new Set(made.changes.map((c) => c.code))
    // Each piece whose diameter differs from that of the formula is named.
    const before = new Map(made.from.leader.segments.map((s) => [s.key, s]))
    for (const [i, s] of made.leader.segments.entries()) {
      const was = before.get(s.key)
      if (!was || Math.abs(diameter_m(was) / diameter_m(s) - 1) < 0.005) continue
      const named = made.changes.some(
        (c) =>
          ('piece' in c.figures && c.figures.piece === i + 1) ||
          (c.code === 'tippet-diameter' && i === tippetIndex(made.leader)),
      )
      expect(named, `piece ${i + 1}`).toBe(true)
    }
    expect(codes.has('scaled')).toBe(true)
  })

  it('a formula that is what was asked for is taken as it is', () => {
    const own = { id: 'own', leader: soundLeader() }
    const advice = adviceFor({ fly: { style: 'parachute', hook: 16 } })
    const target = {
      name: 'same',
      purpose: 'general-dry' as const,
      length_m: 9 * FT,
      tippetX: 5,
      tippet_m: 26 * 0.0254,
      material: BUILT_IN_MATERIALS.find((m) => m.id === 'nylon-supple')!,
      outfit: own.leader.outfit,
      conditions: briefFor().conditions,
      fly: own.leader.tip.fly!,
    }
    expect(nearest([...CANDIDATES.slice(0, 3), own], target)?.id).toBe('own')
    const { leader, changes } = adapt(own.leader, target)
    expect(changes.filter((c) => c.code !== 'knot')).toEqual([])
    for (const [i, s] of leader.segments.entries())
      expect(s.length.si).toBeCloseTo(own.leader.segments[i]!.length.si, 9)
    expect(advice.tries[0]?.from.id).toBeTruthy()
  })

  it('without any formula there is advice, and no leader', () => {
    const advice = advise(briefFor(), { candidates: [], name: 'advised' })
    expect(advice.tries).toEqual([])
    expect(advice.plain).toBeNull()
    expect(advice.tippet.rule).toEqual({ stoutX: 4, fineX: 5 })
  })
})

describe('a leader against its brief', () => {
  it('as advised is in order', () => {
    for (const water of WATERS) {
      const line = water === 'salt-water' ? 'WF8F' : 'WF5F'
      for (const { leader } of adviceFor({ conditions: { water }, line }).tries)
        expect(
          judgeAgainstBrief(leader)?.filter((j) => !j.ok),
          water,
        ).toEqual([])
    }
  })

  it('cut short and tied to a stouter tippet is not', () => {
    const { leader } = firstFor({ conditions: { water: 'flat' } })
    const short = { ...leader, segments: leader.segments.slice(0, -2) }
    const judged = judgeAgainstBrief({
      ...short,
      segments: short.segments.map((s, i) =>
        i === short.segments.length - 1 ? { ...s, part: 'tippet' as const } : s,
      ),
    })
    expect(judged?.filter((j) => !j.ok).map((j) => j.what)).toEqual(['tippet', 'length'])
  })

  it('without a brief there is nothing to judge', () => {
    expect(judgeAgainstBrief(soundLeader())).toBeUndefined()
  })
})
