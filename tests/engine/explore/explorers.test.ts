import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import type { ExplorerId, Posed } from '../../../src/engine/explore'
import { caseOf, runCast } from '../../../src/engine/cast'
import { diameter_m, tippetIndex, totalLength_m } from '../../../src/engine/leader'
import {
  changed,
  EXPLORER_IDS,
  measuresOf,
  spanOf,
  stepAt,
  valuesOver,
} from '../../../src/engine/explore'
import { soundLeader } from '../build'

const posed: Posed = { leader: soundLeader(), choices: { mesh: 'coarse' } }
const explored = (id: ExplorerId) => ({ id, piece: 3 })
const inputOf = ({ leader, choices }: Posed) => {
  const input = caseOf(leader, choices)
  if (typeof input === 'string') throw new Error(input)
  return input
}
const fly = (p: Posed) => measuresOf(runCast(inputOf(p)))

describe.each(EXPLORER_IDS)('exploring %s', (id) => {
  const span = spanOf(posed, explored(id))!

  it('has a range with the present in it', () => {
    expect(span.low).toBeLessThanOrEqual(span.present)
    expect(span.high).toBeGreaterThanOrEqual(span.present)
    expect(span.high).toBeGreaterThan(span.low)
  })

  it('set to the present changes nothing that flies', () => {
    const same = inputOf(changed(posed, explored(id), span.present))
    const as = inputOf(posed)
    expect(same.segments.map((s) => s.length_m)).toEqual(
      as.segments.map((s) => expect.closeTo(s.length_m, 4) as number),
    )
    expect(same.segments.map((s) => s.diameterFrom_m)).toEqual(
      as.segments.map((s) => expect.closeTo(s.diameterFrom_m, 8) as number),
    )
    expect(same.fly).toEqual(as.fly)
    expect(same.cast).toEqual(as.cast)
  })

  it('once set, stands where it was set', () => {
    fc.assert(
      fc.property(fc.double({ min: 0, max: 1, noNaN: true }), (share) => {
        const value = span.low + share * (span.high - span.low)
        const next = changed(posed, explored(id), value)
        // What was made stiffer is the material from then on.
        if (id === 'material') return
        const now = spanOf(next, explored(id))!.present
        // Written as a bench measures it: to a tenth of a thousandth and a tenth of an inch.
        expect(Math.abs(now / value - 1) < 0.02 || Math.abs(now - value) < 1e-9).toBe(true)
      }),
      { numRuns: 30 },
    )
  })
})

describe('what is held while one thing changes', () => {
  const total = totalLength_m(posed.leader)

  it('is the total, for the share of the butt', () => {
    const { leader } = changed(posed, { id: 'butt-share' }, 0.3)
    expect(totalLength_m(leader)).toBeCloseTo(total, 2)
  })

  it('is every other piece, for tippet and step', () => {
    const at = tippetIndex(posed.leader)
    const longer = changed(posed, { id: 'tippet-length' }, 1.5).leader
    expect(totalLength_m(longer) - total).toBeCloseTo(1.5 - posed.leader.segments[at]!.length.si, 2)
    const stepped = changed(posed, { id: 'step', piece: 2 }, 0.6).leader
    expect(stepAt(stepped, 2)).toBeCloseTo(0.6, 2)
    expect(stepped.segments.map(diameter_m).filter((_, i) => i !== 2)).toEqual(
      posed.leader.segments.map(diameter_m).filter((_, i) => i !== 2),
    )
  })

  it('multiplies the modulus alone, for the material', () => {
    const [soft, as] = [inputOf(changed(posed, { id: 'material' }, 0.5)), inputOf(posed)]
    expect(soft.segments.map((s) => s.modulus_Pa)).toEqual(as.segments.map((s) => s.modulus_Pa / 2))
    expect(soft.line).toEqual(as.line)
  })

  it('is nothing where there is nothing to change', () => {
    const { tip, ...rest } = posed.leader
    const bare = { ...posed, leader: { ...rest, tip: { joint: tip.joint } } }
    expect(spanOf(bare, { id: 'fly-mass' })).toBeNull()
    expect(spanOf(posed, { id: 'step', piece: 0 })).toBeNull()
    expect(spanOf(posed, { id: 'step', piece: 99 })).toBeNull()
    const tippetOnly = { ...posed.leader, segments: posed.leader.segments.slice(-1) }
    expect(spanOf({ ...posed, leader: tippetOnly }, { id: 'butt-share' })).toBeNull()
  })
})

describe('the values over a span', () => {
  it.each([
    [{ low: 0, high: 10, present: 4.2, isLog: false }, [0, 2.5, 4.2, 7.5, 10]],
    [{ low: 1, high: 16, present: 4, isLog: true }, [1, 2, 4, 8, 16]],
    [{ low: 1, high: 2, present: 1, isLog: false }, [1, 1.25, 1.5, 1.75, 2]],
  ])('%o hold both ends and the present', (span, values) => {
    expect(valuesOver(span, 5)).toEqual(values)
  })
})

// Common practice: what every casting lesson shows.
describe('what a class sees', () => {
  it('more line speed never turns a leader over less', () => {
    const at = (speed: number) => fly(changed(posed, { id: 'line-speed' }, speed)).extension
    expect(at(5)).toBeLessThan(at(12) + 0.03)
    expect(at(12)).toBeLessThan(at(20) + 0.03)
  })

  it('a fly with more drag comes round slower', () => {
    const { present } = spanOf(posed, { id: 'fly-drag' })!
    const at = (area: number) => fly(changed(posed, { id: 'fly-drag' }, area)).flySpeedAtTurn_m_s!
    expect(at(present * 3)).toBeLessThan(at(present) * 0.9)
  })

  it('a head wind shortens, a tail wind does not', () => {
    const at = (wind: number) => fly(changed(posed, { id: 'wind' }, wind)).extension
    expect(at(-11)).toBeLessThan(at(0) - 0.03)
    expect(at(4)).toBeGreaterThan(at(0) - 0.05)
  })
})
