// @vitest-environment node
import { describe, expect, it } from 'vitest'
import type { Landing } from '../../../src/engine/delivery'
import {
  deliveryQuestion,
  firmestRatio,
  isLaid,
  isLaidForgiven,
  LAID,
  touchOf,
  wantedOf,
} from '../../../src/engine/delivery'
import { SHIPPED, leaderOf } from '../../support/formulas'

const leader = (file: string) => leaderOf(SHIPPED.find((f) => f.file === `${file}.json`)!.text)
const landing = (lay: number | null, straight = 1, reachShare = lay): Landing => ({
  status: 'ok',
  lay,
  reachShare,
  straight,
  touchSpeedDown_m_s: 1,
  touchSpeedRatio: 1,
  touchOrder: ['fly'],
  pieceLays: [],
})

// Limits by purpose are the project's own estimates; these hold them to what is said of them.
describe('what is wanted of a leader', () => {
  it.each([
    ['middle-sallow-9ft-5x', { by: 'lay', least: 0.8 }],
    ['upper-sallow-dry-11ft-6x', { by: 'lay', least: 0.6 }],
    ['lower-sallow-streamer-7ft-1x', { by: 'reach', least: 0.9 }],
    ['ash-tarn-sinking-4ft-2x', { by: 'reach', least: 0.9 }],
    ['middle-sallow-indicator-9ft-4x', { by: 'reach', least: 0.9 }],
    ['middle-sallow-nymph-9ft-5x', { by: 'lay', least: 0.6 }],
    ['saturday-class-even-taper', { by: 'lay', least: 0.8 }],
  ])('%s: %o', (file, wanted) => {
    expect(wantedOf(leader(file))).toMatchObject(wanted)
  })

  it('a slack-line leader wants curves: neither a heap nor a straight line', () => {
    const wanted = wantedOf({ ...leader('middle-sallow-9ft-5x'), purpose: 'slack-line-dry' })
    expect([0.4, 0.6, 0.95].map((lay) => isLaid(wanted, landing(lay)))).toEqual([
      false,
      true,
      false,
    ])
  })

  it('one that never came down lies nowhere', () => {
    expect(isLaid(LAID, landing(null))).toBe(false)
    expect(isLaidForgiven(LAID, landing(null))).toBe(false)
  })

  it('recoil is forgiven to one that straightened and lies half out, no heap', () => {
    expect(isLaidForgiven(LAID, landing(0.6, 0.99))).toBe(true)
    expect(isLaidForgiven(LAID, landing(0.6, 0.9))).toBe(false)
    expect(isLaidForgiven(LAID, landing(0.4, 0.99))).toBe(false)
  })

  it('recoil is no excuse for a slack-line leader that lies dead straight', () => {
    const slack = { by: 'lay', least: 0.5, most: 0.8 } as const
    expect(isLaidForgiven(slack, landing(0.98, 0.99))).toBe(false)
    expect(isLaidForgiven(slack, landing(0.6, 0.99))).toBe(true)
  })
})

describe('how a fly lands', () => {
  it('soft to 1.2 of its fall speed, firm to 1.5 or a metre a second more, hard beyond', () => {
    expect([1.1, 1.3, 1.6, 1.9].map((ratio) => touchOf(2, ratio))).toEqual([
      'soft',
      'firm',
      'hard',
      'hard',
    ])
    expect(firmestRatio(1)).toBe(2)
    expect(touchOf(1, 1.9)).toBe('firm')
  })

  it('a dense fly plops, and without drag nothing is said', () => {
    expect(touchOf(7, 0.5)).toBe('plops')
    expect(touchOf(null, 1)).toBeNull()
    expect(touchOf(2, null)).toBeNull()
  })
})

describe('what is asked of a leader', () => {
  it('nothing without fly or line, or where it is lobbed', () => {
    const whole = leader('middle-sallow-9ft-5x')
    const { fly: _, ...tip } = whole.tip
    expect(deliveryQuestion({ ...whole, tip })).toBe('no-fly')
    const { line: _line, ...outfit } = whole.outfit
    expect(deliveryQuestion({ ...whole, outfit })).toBe('no-line')
    expect(deliveryQuestion(leader('middle-sallow-tight-line-6m-5x'))).toBe('lobbed')
  })

  it('droppers, indicators and weights hang where they are tied', () => {
    const asked = deliveryQuestion(leader('middle-sallow-dry-and-dropper-9ft-5x'))
    const indicated = deliveryQuestion(leader('middle-sallow-indicator-9ft-4x'))
    if (typeof asked === 'string' || typeof indicated === 'string') throw new Error('not asked')
    const total = (input: typeof asked.input) =>
      input.segments.reduce((sum, { length_m }) => sum + length_m, 0)
    for (const { input } of [asked, indicated]) {
      expect(input.hung!.length).toBeGreaterThan(0)
      for (const { at_m, mass_kg } of input.hung!) {
        expect(at_m).toBeGreaterThan(0)
        expect(at_m).toBeLessThanOrEqual(total(input))
        expect(mass_kg).toBeGreaterThan(1e-6)
      }
    }
  })

  it('no more than half of a short line is in the rod leg, and a fly has time to come down', () => {
    const asked = deliveryQuestion(leader('middle-sallow-9ft-5x'), { lineOut_m: 5 })
    if (typeof asked === 'string') throw new Error(asked)
    expect(asked.input.cast.loopStart_m).toBeCloseTo(2.25, 6)
    expect(asked.input.endTime_s).toBe(6)
  })
})
