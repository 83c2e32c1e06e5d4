// @vitest-environment node
import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import type { Judgement } from '../../../src/engine/delivery'
import type { Leader } from '../../../src/engine/leader'
import { chosenOf, judgeAgainstBrief } from '../../../src/engine/advice'
import { limitFor } from '../../../src/engine/checks'
import { evaluate } from '../../../src/engine/evaluate'
import { anyBrief, adviceOn } from './drawn'
import { adviceFor } from './briefs'
import { judgedAs } from '../delivery/made'

const FT = 0.3048

const everyBrief = (holds: (advice: ReturnType<typeof adviceOn>) => void) =>
  fc.assert(
    fc.property(anyBrief, (drawn) => holds(adviceOn(drawn))),
    { seed: 21, numRuns: 200 },
  )

const troublesOf = (leader: Leader) =>
  evaluate(leader).checks.findings.flatMap(({ id, severity }) =>
    severity === 'note' ? [] : [`${severity}: ${id}`],
  )
const departuresOf = (leader: Leader) =>
  (judgeAgainstBrief(leader) ?? []).flatMap(({ what, ok }) => (ok ? [] : [what]))

describe('what practice allows for a brief', () => {
  it('begins with the leader by the rules, and goes no farther than practice', () => {
    everyBrief(({ tries, tippet, length, purpose }) => {
      expect(tries[0]).toMatchObject({
        tippetX: tippet.recommendedX,
        length_m: length.length_m,
        tippet_m: length.tippet_m,
      })
      for (const { tippetX, length_m, tippet_m } of tries) {
        expect(tippetX).toBeGreaterThanOrEqual(tippet.interval.stoutX)
        expect(tippetX).toBeLessThanOrEqual(tippet.recommendedX)
        expect(length_m).toBeGreaterThanOrEqual(length.low_m)
        expect(length_m).toBeLessThanOrEqual(length.length_m)
        expect(tippet_m).toBeGreaterThanOrEqual(limitFor('tippetShortest', purpose) ?? 0)
        expect(tippet_m).toBeLessThanOrEqual(length.tippet_m)
      }
    })
  })

  it('is a short list without two alike, all for the same fly', () => {
    everyBrief(({ tries }) => {
      expect(tries.length).toBeLessThanOrEqual(6)
      const shapes = tries.map(({ leader }) => JSON.stringify(leader.segments))
      expect(new Set(shapes).size).toBe(shapes.length)
      for (const { leader } of tries) expect(leader.tip.fly).toEqual(tries[0]!.leader.tip.fly)
    })
  })
})

describe('a fly that the air holds back', () => {
  // Tables of the trade give a hook 8 1X and a hook 10 2X, one size beyond the rule (common practice).
  it.each([
    [8, 1],
    [10, 2],
    [12, 3],
  ])('a bushy %i may have %iX, on less leader than another', (hook, stoutest) => {
    const { tries } = adviceFor({ fly: { style: 'bushy', hook } })
    expect(Math.min(...tries.map(({ tippetX }) => tippetX))).toBe(stoutest)
    expect(Math.min(...tries.map(({ length_m }) => length_m)) / FT).toBe(7.5)
    const usual = adviceFor({ fly: { style: 'collar-hackle', hook } }).length
    expect(usual.low_m / usual.length_m).toBeCloseTo(0.92, 9)
  })
})

describe('a leader beside the one by the rules', () => {
  it('brings no caution and no fault that the one by the rules has not', () => {
    everyBrief(({ tries }) => {
      const [first, ...others] = tries.map(({ leader }) => troublesOf(leader))
      for (const other of others)
        expect(other.filter((trouble) => !first!.includes(trouble))).toEqual([])
    })
  })

  it('keeps to the brief as well as that one', () => {
    everyBrief(({ tries }) => {
      const [first, ...others] = tries.map(({ leader }) => departuresOf(leader))
      for (const other of others) expect(other.filter((each) => !first!.includes(each))).toEqual([])
    })
  })
})

describe('which of the tries is taken', () => {
  /** 3X to 4X would do, from a length on that may be a little shorter. */
  const { tries } = adviceFor({ fly: { hook: 12 } })
  const [first, shortened, stouter] = tries
  const sure = judgedAs('surely enough', 0.7)
  const easy = judgedAs('easily', 0.9)
  const just = (room = 0.4) => judgedAs('only just', room)
  const never = (room = 0.1) => judgedAs('will not go over', room)
  const checking: Judgement = { kind: 'checking' }
  /** One for each try, the last again for those that are left. */
  const judged = (...some: Judgement[]) => tries.map((_, i) => some[i] ?? some.at(-1)!)

  it('has something to choose from here', () => {
    expect(tries.length).toBeGreaterThan(3)
    expect(shortened).toMatchObject({ tippetX: first!.tippetX, length_m: first!.length_m })
    expect(shortened!.tippet_m).toBeLessThan(first!.tippet_m)
    expect(stouter).toMatchObject({ tippetX: first!.tippetX - 1, length_m: first!.length_m })
    expect(tries.at(-1)!.length_m).toBeLessThan(first!.length_m)
  })

  it('none yet while the first is thrown', () => {
    expect(chosenOf(tries, judged(checking))).toEqual({
      taken: 0,
      next: 0,
      looked: 1,
      reason: undefined,
      isHopeless: false,
    })
    expect(chosenOf(tries, [])).toMatchObject({ taken: 0, next: 0 })
  })

  it.each([sure, easy])('the first where it comes over surely enough; no other is thrown', (by) => {
    const choice = chosenOf(tries, judged(by, checking))
    expect(choice).toMatchObject({ taken: 0, next: undefined, isHopeless: false })
    expect(choice.reason).toMatchObject({
      code: 'thrown-holds',
      figures: { room: by.delivery.best.room },
    })
  })

  it('the next is thrown where those before it come over too seldom', () => {
    expect(chosenOf(tries, judged(just(), checking)).next).toBe(1)
    expect(chosenOf(tries, judged(never(), just(), checking)).next).toBe(2)
  })

  it('the first that is sure, though a later one came over more often', () => {
    const choice = chosenOf(tries, judged(just(0.5), just(0.45), sure, easy))
    expect(choice).toMatchObject({ taken: 2, next: undefined, isHopeless: false })
    expect(choice.reason).toMatchObject({
      code: 'thrown-changed',
      figures: { firstRoom: 0.5, room: 0.7, x: first!.tippetX, toX: stouter!.tippetX },
    })
  })

  it('where none is sure the one that comes over most, at a tie the milder', () => {
    expect(chosenOf(tries, judged(just(0.32), just(0.5), just(0.4))).taken).toBe(1)
    expect(chosenOf(tries, judged(just(0.48), just(0.5), just(0.4))).taken).toBe(0)
    expect(chosenOf(tries, judged(never(0.2), just(0.35), never(0.1)))).toMatchObject({
      taken: 1,
      isHopeless: false,
    })
  })

  it('one that fails is not milder than one that only just comes over', () => {
    const choice = chosenOf(tries, judged(judgedAs('falls short', 0.29), just(0.31), never()))
    expect(choice).toMatchObject({ taken: 1, isHopeless: false })
  })

  it('none goes over: that is said, of the best', () => {
    const choice = chosenOf(tries, judged(never(0.05), judgedAs('falls short', 0.2), never(0)))
    expect(choice).toMatchObject({ taken: 1, next: undefined, isHopeless: true })
    expect(choice.reason).toMatchObject({ code: 'thrown-in-vain', figures: { room: 0.2 } })
  })

  it.each<Judgement>([
    { kind: 'not-asked', because: 'no-line' },
    { kind: 'not-flown', reason: 'it failed' },
  ])('the first as advised where nothing is flown: %o', (why) => {
    expect(chosenOf(tries, judged(why))).toMatchObject({
      taken: 0,
      next: undefined,
      isHopeless: false,
      reason: { code: 'not-thrown' },
    })
  })

  it('a try that failed in the air does not undo those that were flown', () => {
    const failed: Judgement = { kind: 'not-flown', reason: 'it failed' }
    expect(
      chosenOf(tries, judged(just(0.5), failed, judgedAs('surely enough', 0.7))),
    ).toMatchObject({
      taken: 2,
      isHopeless: false,
      reason: { code: 'thrown-changed', figures: { room: 0.7 } },
    })
  })

  it('of all of them nothing is said where one could not be flown', () => {
    const failed: Judgement = { kind: 'not-flown', reason: 'it failed' }
    for (const known of [just(0.5), never(0.1)]) {
      const choice = chosenOf(
        tries,
        tries.map((_, i) => (i === 0 ? known : failed)),
      )
      expect(choice).toMatchObject({ taken: 0, next: undefined, isHopeless: false })
      expect(choice.reason).toBeUndefined()
      // What was looked at stays asked: let go, it would be asked anew, and fail anew.
      expect(choice.looked).toBe(tries.length)
    }
  })

  it('nothing where there is none', () => {
    expect(chosenOf([], [])).toMatchObject({ taken: 0, next: undefined, isHopeless: false })
  })
})
