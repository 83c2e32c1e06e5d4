// @vitest-environment node
import { describe, expect, it } from 'vitest'
import type { Remedy } from '../../src/engine/checks'
import type { DeliveryState } from '../../src/engine/delivery'
import { evaluate } from '../../src/engine/evaluate'
import { applyEdit } from '../../src/engine/leader'
import { changesToTry, TIE, whatHelps } from '../../src/engine/whatHelps'
import { leaderOf, SHIPPED } from '../support/formulas'
import { soundLeader } from './build'
import { madeDelivery } from './delivery/made'

const SCALE: Remedy = { id: 'scale', edit: { kind: 'scale', total_m: 2.4 } }
const SHORTER: Remedy = { id: 'scale', edit: { kind: 'scale', total_m: 2.1 } }
const TURN: Remedy = { id: 'turn-round', edit: { kind: 'turn-round' } }
const FLY: Remedy = { id: 'smaller-fly', edit: { kind: 'hook', hook: 16 } }

const over = (roomRecoilForgiven: number, least_m_s?: number, state: DeliveryState = 'only just') =>
  madeDelivery({
    state,
    best: { roomRecoilForgiven },
    least: least_m_s === undefined ? null : { lineSpeed_m_s: least_m_s, launchAngle_deg: 0 },
  })
const idsOf = (helps: readonly { remedy: Remedy }[]) => helps.map(({ remedy }) => remedy)

describe('changes to throw', () => {
  it.each(SHIPPED.map(({ file, text }) => [file, leaderOf(text)] as const))(
    'of %s make no finding that the leader has not got, and the fly comes last',
    (_, leader) => {
      const changes = changesToTry(leader)
      const had = evaluate(leader).checks.findings
      for (const { edit } of changes) {
        const found = evaluate(applyEdit(leader, edit)).checks.findings
        const fresh = found.filter(
          ({ id, severity }) =>
            id !== 'stated-total' && !had.some((f) => f.id === id && f.severity === severity),
        )
        expect(fresh).toEqual([])
      }
      const first = changes.findIndex(({ id }) => id === 'smaller-fly')
      const rest = first < 0 ? [] : changes.slice(first)
      expect(rest.every(({ id }) => id === 'smaller-fly')).toBe(true)
    },
  )

  it('are there for an ordinary leader: of tippet, taper and fly', () => {
    const kinds = new Set(changesToTry(soundLeader()).map(({ id }) => id))
    expect([...kinds]).toEqual(expect.arrayContaining(['shorten', 'smaller-fly']))
  })

  it('keep within limits of the user’s own', () => {
    const tippet = soundLeader().segments.at(-1)!
    const shortest = { tippetShortest: tippet.length.si }
    expect(changesToTry(soundLeader(), shortest).map(({ id }) => id)).not.toContain('shorten')
  })
})

describe('what helps', () => {
  const now = over(0.2)

  it('comes in the order of what it gains, changes of the leader before the fly', () => {
    const tried = [
      { remedy: FLY, delivery: over(0.9) },
      { remedy: TURN, delivery: over(0.5) },
      { remedy: SCALE, delivery: over(0.7) },
    ]
    expect(idsOf(whatHelps(now, tried, 'more-casts'))).toEqual([SCALE, TURN, FLY])
  })

  it('is nothing within the tie', () => {
    const tried = [{ remedy: SCALE, delivery: over(0.2 + TIE) }]
    expect(whatHelps(now, tried, 'more-casts')).toEqual([])
  })

  it('is of each kind the mildest that does as well', () => {
    const alike = [
      { remedy: SCALE, delivery: over(0.6) },
      { remedy: SHORTER, delivery: over(0.64) },
    ]
    expect(idsOf(whatHelps(now, alike, 'more-casts'))).toEqual([SCALE])
    const better = [alike[0]!, { remedy: SHORTER, delivery: over(0.9) }]
    expect(idsOf(whatHelps(now, better, 'more-casts'))).toEqual([SHORTER])
  })

  it('to less power is what comes over from less speed on, as surely as now', () => {
    const from = over(0.7, 8, 'surely enough')
    const tried = [
      { remedy: SCALE, delivery: over(0.7, 7, 'surely enough') },
      { remedy: TURN, delivery: over(0.5, 5, 'only just') },
      { remedy: FLY, delivery: over(0.7, undefined, 'surely enough') },
    ]
    expect(idsOf(whatHelps(from, tried, 'less-power'))).toEqual([SCALE])
  })

  it('to less power than all of it, where nothing comes over yet', () => {
    const tried = [
      { remedy: SCALE, delivery: over(0.6, 15) },
      { remedy: TURN, delivery: over(0.6, 13) },
    ]
    // The greatest speed of this caster is 16 m/s.
    const [best, next] = whatHelps(now, tried, 'less-power')
    expect([best?.remedy, next?.remedy]).toEqual([TURN, SCALE])
    expect(best?.gain).toBeCloseTo(Math.log(16 / 13), 12)
  })
})
