// @vitest-environment node
import { describe, expect, it } from 'vitest'
import type { CheckId, Remedy } from '../../../src/engine/checks'
import type { BestDelivery, DeliveryState } from '../../../src/engine/delivery'
import type { Leader, Purpose } from '../../../src/engine/leader'
import { DELIVERY_STATES } from '../../../src/engine/delivery'
import { evaluate } from '../../../src/engine/evaluate'
import { soundLeader } from '../build'
import { madeDelivery } from '../delivery/made'
import { findingsOf, whyNotChecked } from './support'

const REMEDY: Remedy = { id: 'scale', edit: { kind: 'scale', total_m: 2.3 } }
const ID: CheckId = 'turnover'

function judged(state: DeliveryState, leader: Leader = soundLeader()) {
  const best = { room: 0.1, roomRecoilForgiven: 0.2, lay: 0.6, lineSpeed_m_s: 16 }
  const delivery = madeDelivery({ state, best })
  return evaluate(leader, {}, { delivery, remedies: [REMEDY] }).checks
}

describe('turnover', () => {
  it.each<[DeliveryState, string, string]>([
    ['falls short', 'falls-short', 'caution'],
    ['will not go over', 'will-not-go-over', 'fault'],
  ])('of a leader that %s is told as %s: a %s', (state, variant, severity) => {
    const { findings, passed } = judged(state)
    expect(passed).not.toContain(ID)
    expect(findings.filter(({ id }) => id === ID)).toMatchObject([
      {
        variant,
        severity,
        place: { kind: 'leader' },
        measured: { room: 0.1, roomRecoilForgiven: 0.2, lay: 0.6, lineSpeed_m_s: 16 },
        remedies: [REMEDY],
      },
    ])
  })

  it('tells falling short from kicking back and from landing hard', () => {
    const variant = (best: Partial<BestDelivery>) => {
      const delivery = madeDelivery({ state: 'falls short', best })
      const { findings } = evaluate(soundLeader(), {}, { delivery, remedies: [] }).checks
      return findings.find(({ id }) => id === ID)?.variant
    }
    expect(variant({ lay: 0.4, straight: 0.98, lineSpeed_m_s: 9 })).toBe('kicks-back')
    expect(variant({ lay: 0.4, straight: 0.98, lineSpeed_m_s: 16 })).toBe('falls-short')
    expect(variant({ lay: 0.6, touch: 'hard' })).toBe('lands-hard')
  })

  it('says the same of every purpose that is cast in loops', () => {
    for (const purpose of ['teaching', 'slack-line-dry', 'streamer'] satisfies Purpose[]) {
      const { findings } = judged('will not go over', { ...soundLeader(), purpose })
      expect(findings.find(({ id }) => id === ID)?.severity).toBe('fault')
    }
  })

  it.each(DELIVERY_STATES.slice(0, 3))('is in order of a leader that goes over %s', (state) => {
    const { findings, passed } = judged(state)
    expect(findings.filter(({ id }) => id === ID)).toEqual([])
    expect(passed).toContain(ID)
  })

  it('never passes before it has been flown, nor says a fault', () => {
    expect(findingsOf(soundLeader(), ID)).toEqual([])
    expect(evaluate(soundLeader()).checks.passed).not.toContain(ID)
    expect(whyNotChecked(soundLeader(), ID)).toBe('not-flown')
  })

  it('is not checked without fly or line', () => {
    const leader = soundLeader()
    expect(whyNotChecked({ ...leader, outfit: {} }, ID)).toBe('no-line')
    expect(whyNotChecked({ ...leader, tip: { joint: leader.tip.joint } }, ID)).toBe('no-fly')
  })

  it('is not checked on a tight line, which is not cast in loops', () => {
    const leader = { ...soundLeader(), purpose: 'tight-line-nymph' as const }
    expect(whyNotChecked(leader, ID)).toBe('not-for-this-purpose')
  })
})
