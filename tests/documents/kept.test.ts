// @vitest-environment node
import { describe, expect, it } from 'vitest'
import type { LeaderInUse, Reel } from '../../src/documents'
import {
  readBriefDraft,
  readFlyBox,
  readLeaderInUse,
  readReel,
  writeBriefDraft,
  writeFlyBox,
  writeLeaderInUse,
  writeReel,
} from '../../src/documents'
import { useStatus } from '../../src/engine/advice'
import { lineOf, q, size, soundLeader } from '../engine/build'

const asStored = (value: unknown): unknown => JSON.parse(JSON.stringify(value))

describe('what is kept beside the formulas', () => {
  it('a brief comes back as it was filled in', () => {
    const draft = {
      fly: { fly: { style: 'midge', hook: 22, mass_kg: 3e-6 }, mass: q('3 mg', 'mass') },
      outfit: { rod: q('8\' 6"'), line: lineOf('DT4F'), rodClass: 4, fish: q('2 lb', 'mass') },
      conditions: {
        water: 'flat',
        wariness: 'pressured',
        distance: 'far',
        wind: 'calm',
        snags: true,
      },
    } as const
    expect(readBriefDraft(asStored(writeBriefDraft(draft)))).toEqual(draft)
  })

  it('a fly box keeps what it cannot read', () => {
    const stored = [
      { id: 'a', name: 'Mine', fly: { style: 'nymph', hook: 14, sinkRate_m_s: 0.2 } },
      { id: 'b', name: 'From a newer app', fly: { style: 'holographic', hook: 3 } },
    ]
    const box = readFlyBox(stored)
    expect(box.flies).toEqual([
      { id: 'a', name: 'Mine', fly: { fly: { style: 'nymph', hook: 14, sinkRate_m_s: 0.2 } } },
    ])
    expect(asStored(writeFlyBox(box))).toEqual(stored)
  })

  it('a leader in use comes back with all that has happened', () => {
    const piece = {
      material: 'nylon-supple',
      diameter: size('5X'),
      length: q('20 in'),
      knot: 'surgeons-triple',
    } as const
    const inUse: LeaderInUse = {
      start: soundLeader(),
      events: [
        { kind: 'fly-change', clipped_m: 0.0762 },
        { kind: 'break', lost_m: 0.5 },
        { kind: 'replaced', piece },
        { kind: 'added', piece, with: true },
      ],
      clip: q('3 in'),
      lost: q('15 cm'),
    }
    const back = readLeaderInUse(asStored(writeLeaderInUse(inUse)))
    expect(back).toEqual(inUse)
    expect(useStatus(back!.start, back!.events)).toEqual(useStatus(inUse.start, inUse.events))
  })

  it('a reel comes back as measured', () => {
    const reel: Reel = {
      arbor: q('30 mm'),
      rim: q('8 cm'),
      holdsLine: 'WF6F',
      backing: 'gel-spun-50',
    }
    expect(readReel(asStored(writeReel(reel)))).toEqual(reel)
  })

  it.each([undefined, null, 7, 'x', [], {}, { fly: 1 }])('%j is none of them', (junk) => {
    expect(readBriefDraft(junk)).toBeUndefined()
    expect(readLeaderInUse(junk)).toBeUndefined()
    expect(readReel(junk)).toBeUndefined()
    expect(readFlyBox(junk).flies).toEqual([])
  })
})
