// @vitest-environment node
import { describe, expect, it } from 'vitest'
import {
  isFor,
  measuredByShelf,
  readingsOf,
  spoolDiameter_m,
  spoolStrength_N,
  spoolWarnings,
  substitutesFor,
} from '../../../src/engine/tying'
import { pieceChange } from '../../../src/engine/whatChanges'
import { leaderOf, q, size, soundLeader, withPiece } from '../build'
import { shelf, simple, spoolOf } from './shelf'

describe('readings', () => {
  // NIST/SEMATECH e-Handbook of Statistical Methods, 1.3.5.6: sample standard deviation divides by N - 1; the
  // mean of 2, 4, 4, 4, 5, 5, 7, 9 is 5 and the sum of squares about it 32, so s is the root of 32/7.
  it('have the mean and the sample standard deviation', () => {
    const read = readingsOf(
      [2, 4, 4, 4, 5, 5, 7, 9].map((um) => ({ si: um, text: '', unit: 'um' })),
    )
    expect(read).toMatchObject({ count: 8, mean: 5, range: 7 })
    expect(read?.deviation).toBeCloseTo(Math.sqrt(32 / 7), 12)
  })

  it('of none are none, and of one have no spread', () => {
    expect(readingsOf([])).toBeNull()
    expect(readingsOf([size('5X')])).toMatchObject({ count: 1, deviation: 0, range: 0 })
  })

  it('win over the label', () => {
    const spool = spoolOf({ id: 'a', size: '5X', left: '1 m', readings: ['.0062 in', '.0064 in'] })
    expect(spoolDiameter_m(spool)).toBeCloseTo(0.0063 * 0.0254, 12)
    expect(spoolDiameter_m({ ...spool, readings: [] })).toBeCloseTo(0.006 * 0.0254, 12)
  })
})

describe('warnings', () => {
  const kinds = (patch: object, today = '2026-11-25', readings: string[] = []) =>
    spoolWarnings(spoolOf({ id: 'a', size: '.010 in', left: '1 m', readings, patch }), today).map(
      ({ kind }) => kind,
    )

  it('are none for a fresh spool that measures as labelled', () => {
    expect(kinds({ bought: '2026-03-01' }, '2026-11-25', ['.010 in', '.0101 in'])).toEqual([])
  })

  it('come when a nylon spool is two years old, not a day before', () => {
    expect(kinds({ bought: '2024-11-25' }, '2026-11-24')).toEqual([])
    expect(kinds({ bought: '2024-11-24' }, '2026-11-26')).toEqual(['dated'])
    expect(kinds({ bought: '2024-11-24', material: 'fluorocarbon' })).toEqual([])
    expect(kinds({ bought: 'last spring' })).toEqual([])
  })

  it('come for a damaged, an uneven and a mislabelled spool', () => {
    expect(kinds({ state: 'damaged' })).toEqual(['damaged'])
    expect(kinds({}, '2026-11-25', ['.0095 in', '.0105 in'])).toEqual(['uneven'])
    expect(kinds({}, '2026-11-25', ['.0112 in'])).toEqual(['off-label'])
  })

  it('mark down the strength of an old spool, but not what was pulled on it', () => {
    const [label, pull] = [q('10 lb', 'force'), q('8 lb', 'force')]
    const old = spoolOf({
      id: 'a',
      size: '5X',
      left: '1 m',
      patch: { strength: label, state: 'old' },
    })
    expect(spoolStrength_N(old)).toBeLessThan(label.si)
    expect(spoolStrength_N({ ...old, pullTests: [pull] })).toBe(pull.si)
    expect(spoolStrength_N({ ...old, strength: undefined })).toBeNull()
  })
})

describe('which spool is for which piece', () => {
  const [butt, , tip] = simple.segments

  it('by material and labelled size, however that is written', () => {
    const spool = spoolOf({ id: 'a', size: '0.152 mm', left: '1 m' })
    expect(isFor(spool, simple, tip!)).toBe(true)
    expect(isFor(spool, simple, butt!)).toBe(false)
    expect(isFor({ ...spool, material: 'fluorocarbon' }, simple, tip!)).toBe(false)
  })

  it('never a damaged one, and an old one not for the tippet', () => {
    const old = (on: string) => spoolOf({ id: 'a', size: on, left: '1 m', patch: { state: 'old' } })
    expect(isFor(old('5X'), simple, tip!)).toBe(false)
    expect(isFor(old('.020 in'), simple, butt!)).toBe(true)
    expect(isFor({ ...old('.020 in'), state: 'damaged' }, simple, butt!)).toBe(false)
  })

  it('in a sighter by its colour as well', () => {
    const sighter = leaderOf([{ length: '20 in', diameter: '.009 in', part: 'sighter' }])
    const wanted = withPiece(sighter, 0, { colour: 'red' })
    const spool = spoolOf({ id: 'a', size: '.009 in', left: '1 m', patch: { colour: 'green' } })
    expect(isFor(spool, wanted, wanted.segments[0]!)).toBe(false)
    expect(isFor({ ...spool, colour: 'Red' }, wanted, wanted.segments[0]!)).toBe(true)
  })

  it('of a material of the user’s own by its name', () => {
    const own = {
      ...simple,
      materials: [{ ...soundLeader().materials[0], id: 'own-1', name: 'Inventory gut' }],
    }
    const leader = withPiece(own as never, 0, { material: 'own-1' })
    const spool = spoolOf({ id: 'a', size: '.020 in', left: '1 m', material: 'inventory gut' })
    expect(isFor(spool, leader, leader.segments[0]!)).toBe(true)
  })
})

describe('substitutes', () => {
  const near = spoolOf({ id: 'near', size: '.0115 in', left: '5 m' })
  const far = spoolOf({ id: 'far', size: '.014 in', left: '5 m' })
  const other = spoolOf({ id: 'other', size: '.012 in', left: '5 m', material: 'fluorocarbon' })

  it('come nearest first, a strange family counting like a step', () => {
    const ids = substitutesFor(simple, 1, [far, other, near]).map(({ spool }) => spool.id)
    expect(ids).toEqual(['near', 'other', 'far'])
  })

  it('leave out what is too short, too far off or what is asked for anyway', () => {
    const short = spoolOf({ id: 'short', size: '.0115 in', left: '0.2 m' })
    const hawser = spoolOf({ id: 'hawser', size: '.030 in', left: '5 m' })
    expect(substitutesFor(simple, 1, [short, hawser, ...shelf()])).toEqual([])
  })

  it('are applied to a copy with what is known of the spool', () => {
    const measured = { ...near, readings: [size('.0118 in')], strength: q('12 lb', 'force') }
    const [first] = substitutesFor(simple, 1, [measured])
    expect(first?.leader.segments[1]).toMatchObject({
      diameter: { text: '.0115 in' },
      measured: { text: '.0118 in' },
      strength: { text: '12 lb' },
    })
    expect(simple.segments[1]?.measured).toBeUndefined()
    expect(first?.leader.segments[0]).toEqual(simple.segments[0])
  })

  // Stiffness goes with the fourth power of the diameter (Machinery's Handbook, 31st ed., 2020).
  it('say what they change', () => {
    const [first] = substitutesFor(simple, 1, [near])
    const { stiffness_N_m2, diameter_m, stepAbove } = pieceChange(simple, first!.leader, 1)
    expect(stiffness_N_m2.after! / stiffness_N_m2.before!).toBeCloseTo((11.5 / 12) ** 4, 9)
    expect(diameter_m.after).toBeCloseTo(0.0115 * 0.0254, 12)
    expect(stepAbove.before).toBeCloseTo(12 / 20, 9)
    expect(stepAbove.after).toBeCloseTo(11.5 / 20, 9)
  })
})

describe('the shelf’s micrometer', () => {
  it('replaces nominal diameters where a spool was measured, and only there', () => {
    const [butt, mid, tip] = shelf()
    const read = { ...mid!, readings: [size('.0122 in'), size('.0124 in')] }
    const { leader, measured } = measuredByShelf(simple, [butt!, read, tip!])
    expect(measured).toHaveLength(1)
    expect(measured[0]).toMatchObject({ index: 1, spool: { id: 'mid' } })
    expect(leader.segments[1]).toMatchObject({
      diameter: { text: '.012 in' },
      measured: { text: '.0123 in' },
    })
    expect(leader.segments[0]).toBe(simple.segments[0])
  })

  it('is that of the spool with most left', () => {
    const [, mid] = shelf()
    const less = { ...mid!, id: 'less', readings: [size('.0130 in')], left: q('1 m') }
    const more = { ...mid!, id: 'more', readings: [size('.0122 in')], left: q('9 m') }
    expect(measuredByShelf(simple, [less, more]).measured[0]?.spool.id).toBe('more')
  })
})
