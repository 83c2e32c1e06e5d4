import { describe, expect, it } from 'vitest'
import { differencesOf } from '../../../src/engine/compare'
import { turnRound } from '../../../src/engine/leader'
import { sayIn } from '../../../src/wording'
import { differenceText } from '../../../src/wording/compare'
import { leaderOf, q, soundLeader } from '../build'

const say = sayIn({ diameter: 'in', length: 'ft-in', force: 'lb', speed: 'm/s' })
const byId = (list: ReturnType<typeof differencesOf>, id: string) => list.find((d) => d.id === id)

/** Three pieces of one material whose middle has the given diameter. */
const withMiddle = (diameter: string) =>
  leaderOf([
    { length: '1 m', diameter: '0.5 mm', part: 'butt' },
    { length: '1 m', diameter, part: 'mid-section' },
    { length: '0.5 m', diameter: '0.15 mm', part: 'tippet' },
  ])

describe('differences', () => {
  it('are none between a leader and itself', () => {
    expect(differencesOf(soundLeader(), soundLeader())).toEqual([])
  })

  // Second moment of area of a round section, pi d^4/64: Gere & Timoshenko, Mechanics of Materials, 1997, appendix D.
  it('in stiffness go with the fourth power of the diameter, in density with the second, where they are', () => {
    const found = differencesOf(withMiddle('0.3 mm'), withMiddle('0.36 mm'))
    const [stiffness, density] = [byId(found, 'stiffness'), byId(found, 'density')]
    expect(stiffness!.other / stiffness!.first).toBeCloseTo(1.2 ** 4, 6)
    expect(density!.other / density!.first).toBeCloseTo(1.2 ** 2, 6)
    expect(stiffness!.at_m).toBeGreaterThan(1)
    expect(stiffness!.at_m).toBeLessThan(2)
  })

  it('come worst first, and none that nobody would notice', () => {
    const found = differencesOf(soundLeader(), turnRound(soundLeader()))
    const weights = found.map((d) => d.weight)
    expect(weights).toEqual([...weights].sort((a, b) => b - a))
    expect(Math.min(...weights)).toBeGreaterThanOrEqual(1)
    expect(differencesOf(withMiddle('0.3 mm'), withMiddle('0.301 mm'))).toEqual([])
  })

  it('are the same seen from the other side, the other way round', () => {
    const [a, b] = [withMiddle('0.3 mm'), withMiddle('0.2 mm')]
    const back = differencesOf(b, a)
    for (const d of differencesOf(a, b)) {
      const mirrored = byId(back, d.id)
      expect(mirrored?.first).toBe(d.other)
      expect(mirrored?.weight).toBeCloseTo(d.weight, 9)
    }
  })

  it('leave out what one of the two has not got', () => {
    const [all, bare] = [soundLeader(), soundLeader()]
    const butts = bare.segments.map((s) => ({ ...s, part: 'mid-section' as const }))
    expect(byId(differencesOf({ ...bare, segments: butts }, all), 'butt-share')).toBeUndefined()
  })
})

describe('a difference in words', () => {
  const at = { first: 2, other: 3, weight: 2 }
  it.each([
    [{ ...at, id: 'mass', first: 2e-4, other: 3e-4 }, '50 % heavier: 0.30 g against 0.20 g'],
    [{ ...at, id: 'mass', first: 3e-4, other: 2e-4 }, '50 % lighter: 0.20 g against 0.30 g'],
    [
      { ...at, id: 'stiffness', first: 4e-6, other: 2e-6, at_m: q('6 ft').si },
      "half as stiff at 6' from the line: 2 N mm² against 4 N mm²",
    ],
    [
      { ...at, id: 'stiffness', first: 1e-6, other: 6e-6, at_m: q('6 ft').si },
      "6 times as stiff at 6' from the line: 6 N mm² against 1 N mm²",
    ],
    [
      { ...at, id: 'density', first: 1e-4, other: 3e-4 },
      'three times as heavy: 0.30 g/m against 0.10 g/m',
    ],
  ] as const)('%o is "%s"', (difference, text) => {
    expect(differenceText(difference, say)).toBe(text)
  })
})
