// @vitest-environment node
import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import type { Advice } from '../../../src/engine/advice'
import type { Drawn } from './drawn'
import { evaluate } from '../../../src/engine/evaluate'
import { describeAdvice, sayIn } from '../../../src/wording'
import { reasonsOf } from './briefs'
import { adviceOn, anyBrief, anyHook } from './drawn'

/** The leader by the rules and all that practice allows beside it; never none. */
function triesOn(drawn: Drawn) {
  const { tries } = adviceOn(drawn)
  expect(tries.length).toBeGreaterThan(0)
  return tries
}
const codesIn = ({ tippet }: Advice) => tippet.reasons.map(({ code }) => code)

/** Holds for every drawn brief, the same ones each time. */
function always(seed: number, holds: (drawn: Drawn) => void, numRuns = 300) {
  fc.assert(fc.property(anyBrief, holds), { seed, numRuns })
}

const OF_TAPER = /^(step-too-big|step-up|same-neighbours|knot-unsuited|segment-length)$/

describe('of any brief', () => {
  it('the tippet never gets stouter when the hook gets smaller and all else is equal', () => {
    fc.assert(
      fc.property(anyBrief, anyHook, (drawn, other) => {
        const [larger, smaller] = [Math.min(drawn.hook, other), Math.max(drawn.hook, other)]
        const [stout, fine] = [larger, smaller].map((n) => adviceOn({ ...drawn, hook: n }).tippet)
        expect(fine!.recommendedX).toBeGreaterThanOrEqual(stout!.recommendedX)
      }),
      { seed: 11, numRuns: 300 },
    )
  })

  // Common practice: hook size divided by four (fast water) to three (slow).
  it('the tippet is never more than one size beyond the rule by its hook', () => {
    always(12, (drawn) => {
      const { tippet, tries } = adviceOn(drawn)
      if (!tippet.rule) return
      const whole = (x: number) => Math.min(8, Math.round(x))
      for (const x of [
        tippet.recommendedX,
        ...tries.map(({ tippetX }) => tippetX),
        tippet.interval.stoutX,
        tippet.interval.fineX,
      ]) {
        expect(x).toBeLessThanOrEqual(whole(drawn.hook / 3) + 1)
        expect(x).toBeGreaterThanOrEqual(whole(drawn.hook / 4) - 1)
      }
    })
  })

  it('a fish with teeth always has a bite piece before it, and no other has', () => {
    always(13, (drawn) => {
      for (const { leader } of triesOn(drawn))
        expect(leader.segments.at(-1)?.part).toBe(drawn.conditions.toothy ? 'bite' : 'tippet')
    })
  })

  it('the strength that the fish asks for is met, or a warning stands', () => {
    always(14, (drawn) => {
      const advice = adviceOn(drawn)
      const isWarned = codesIn(advice).includes('fish-beyond')
      for (const { tippetX } of advice.tries)
        expect(tippetX <= advice.strength.finestX + 0.1 || isWarned).toBe(true)
    })
  })

  it('the leader is a taper: no step up, no two pieces of one size, no knot that does not seat', () => {
    always(16, (drawn) => {
      for (const { leader, tippetX, length_m } of triesOn(drawn)) {
        // Between the butt for a light line and a tippet stouter than 0X there is no room for a taper.
        if (tippetX < 0 && !/[89]/.test(drawn.line)) continue
        const { findings } = evaluate(leader).checks
        const found = findings.filter(({ id }) => OF_TAPER.test(id)).map(({ id }) => id)
        // Under eight feet are too few for the pieces between a stout butt and 5X.
        const isShort = tippetX >= 5 && length_m < 2.5
        expect(isShort ? found.filter((id) => id !== 'step-too-big') : found).toEqual([])
      }
    })
  })

  it('every reason has a sentence and a source', () => {
    const say = sayIn({ diameter: 'in', length: 'in', force: 'lb', speed: 'm/s' })
    always(15, (drawn) => {
      for (const reason of reasonsOf(adviceOn(drawn))) {
        const text = describeAdvice(reason, say)
        expect(text).toMatch(/^[A-Z0-9.].*[.]$/)
        expect(text).not.toMatch(/undefined|NaN|\[object|null|Infinity|\b0\.0\b/)
        expect(reason.source).not.toBe('')
      }
    })
  })
})
