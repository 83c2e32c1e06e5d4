// @vitest-environment node
import { describe, expect, it } from 'vitest'
import { RIGS, RIG_IDS, applyRig, breaksOf, tangles, withoutRig } from '../../../src/engine/advice'
import { deliveryQuestion } from '../../../src/engine/delivery'
import { evaluate } from '../../../src/engine/evaluate'
import { totalLength_m } from '../../../src/engine/leader'
import { flyFigures } from '../../../src/engine/tackle'
import { readFormula, writeFormula } from '../../../src/documents'
import { q, size, soundLeader, withPiece } from '../build'

const IN = 0.0254
const rigged = (id: (typeof RIG_IDS)[number]) => applyRig(soundLeader(), id)
const flies = (id: (typeof RIG_IDS)[number]) => {
  const { segments, tip } = rigged(id)
  return segments.flatMap((s) => s.attachments).filter((a) => a.fly).length + (tip.fly ? 1 : 0)
}

describe('rigs', () => {
  it.each(RIG_IDS)('%s is a leader that can be saved, and no fault of it is the rig’s', (id) => {
    const leader = rigged(id)
    expect(readFormula(JSON.parse(JSON.stringify(writeFormula(leader))))).toMatchObject({
      ok: true,
    })
    expect(evaluate(leader).checks.findings.filter((f) => f.severity === 'fault')).toEqual([])
    expect(flies(id)).toBe(1 + RIGS[id].added)
  })

  // Common practice: 12 to 24 in off the bend; double dries 18 to 30, nymphs 14 to 20 (from memory) apart;
  // three wet flies five feet apart.
  it.each([
    ['dry-and-dropper', 12, 24],
    ['two-dries', 18, 30],
    ['two-nymphs', 14, 20],
    ['wet-team', 54, 66],
  ] as const)('%s has %i to %i in between its flies', (id, low, high) => {
    const last = rigged(id).segments.at(-1)!
    expect(last.length.si / IN).toBeGreaterThanOrEqual(low)
    expect(last.length.si / IN).toBeLessThanOrEqual(high)
    expect(last.attachments[0]?.fly).toBeDefined()
  })

  it('what was the fly is now the upper one', () => {
    const leader = rigged('dry-and-dropper')
    expect(leader.segments.at(-1)?.attachments[0]).toMatchObject({
      kind: 'fly',
      way: 'bend',
      fly: { fly: { style: 'parachute', hook: 18 } },
    })
    expect(leader.tip.fly?.fly.style).toBe('beaded-nymph')
  })

  it('an indicator stands at one and a half depths above the fly', () => {
    // From memory: indicator at 1.5 times the depth.
    const leader = applyRig(soundLeader(), 'indicator', { depth_m: 1.2 })
    let start = 0
    const places = leader.segments.flatMap((s) => {
      const here = start
      start += s.length.si
      return s.attachments.map((a) => [a.kind, here + (a.from?.si ?? 0)] as const)
    })
    const indicator = places.find(([kind]) => kind === 'indicator')?.[1] ?? 0
    expect(totalLength_m(leader) - indicator).toBeCloseTo(1.8, 2)
    const weight = places.find(([kind]) => kind === 'weight')?.[1] ?? 0
    expect((totalLength_m(leader) - weight) / IN).toBeCloseTo(8, 1)
  })

  it('a tight line has a coloured piece of 20 to 24 in above a ring', () => {
    // Common practice.
    const sighter = rigged('tight-line').segments.find((s) => s.part === 'sighter')!
    expect(sighter.length.si / IN).toBeGreaterThanOrEqual(20)
    expect(sighter.length.si / IN).toBeLessThanOrEqual(24)
    expect(rigged('tight-line').segments.at(-1)?.joint.knot).toBe('ring')
  })

  it.each(RIG_IDS)('%s can be changed for another and taken off again', (id) => {
    const again = applyRig(rigged(id), 'dry-and-dropper')
    expect(again.segments.filter((s) => s.attachments.length > 0)).toHaveLength(1)
    const bare = withoutRig(rigged(id))
    expect(bare.tip.fly?.fly).toEqual(soundLeader().tip.fly?.fly)
    expect(bare.segments).toHaveLength(soundLeader().segments.length)
  })
})

describe('where a rig breaks', () => {
  it('a finer point breaks at its own knots and costs one fly; the dry above it more', () => {
    const [point, dry] = breaksOf(rigged('dry-and-dropper'))
    expect(point?.fliesLost).toBe(1)
    expect(point?.weakest.index).toBeGreaterThanOrEqual(soundLeader().segments.length)
    expect(point!.weakest.strength.value).toBeLessThan(dry!.weakest.strength.value)
    expect(dry?.fliesLost).toBe(2)
  })

  it('a dropper on its tag breaks without the rest', () => {
    const [, dropper] = breaksOf(rigged('two-nymphs'))
    expect(dropper?.weakest.kind).toMatch(/^dropper/)
    expect(dropper).toMatchObject({ fliesLost: 1, lost_m: 0 })
  })

  it('a weak piece high up takes everything below it', () => {
    const weak = withPiece(rigged('two-nymphs'), 2, { strength: q('1 lb', 'force') })
    for (const each of breaksOf(weak)) {
      expect(each.fliesLost).toBe(2)
      // Everything from the knot above or below that piece.
      expect(each.lost_m).toBeGreaterThan(totalLength_m(weak) - 60 * IN)
    }
  })

  it('a dropper of a quarter of the strand is a quarter as strong', () => {
    // Strength goes with the square of diameter: half the diameter, a quarter.
    const leader = rigged('two-nymphs')
    const [full, half] = (['.006 in', '.003 in'] as const).map((d) => {
      const last = leader.segments.length - 1
      const attachments = leader.segments[last]!.attachments.map((a) => ({
        ...a,
        diameter: size(d),
      }))
      return breaksOf(withPiece(leader, last, { attachments }))[1]!.weakest.strength.value
    })
    expect(half! / full!).toBeCloseTo(0.25, 2)
  })
})

describe('a second fly', () => {
  it('is thrown with the point fly, as heavy and as bulky as it is, where it hangs', () => {
    const leader = rigged('two-dries')
    const asked = deliveryQuestion(leader)
    const upper = flyFigures({ style: 'parachute', hook: 18 })
    const { length } = leader.segments.at(-1)!
    expect(typeof asked === 'string' ? [] : asked.input.hung).toEqual([
      {
        mass_kg: upper.mass.value,
        dragArea_m2: upper.dragArea.value,
        dragExponent: upper.dragExponent.value,
        at_m: expect.closeTo(totalLength_m(leader) - length.si, 9) as number,
      },
    ])
  })

  it('tangles where it is closer than a foot or stands off too far', () => {
    // Common practice: at least 12 in apart; tags of 3 to 6 in.
    const close = applyRig(soundLeader(), 'two-nymphs', { spacing_m: 0.2 })
    expect(tangles(close).map((t) => t.code)).toEqual(['flies-close'])
    const last = close.segments.length - 1
    const attachments = close.segments[last]!.attachments.map((a) => ({ ...a, length: q('9 in') }))
    expect(tangles(withPiece(close, last, { attachments })).map((t) => t.code)).toContain(
      'tag-long',
    )
    expect(tangles(rigged('two-nymphs'))).toEqual([])
  })
})
