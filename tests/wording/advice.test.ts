// @vitest-environment node
import { describe, expect, it } from 'vitest'
import type { Advice, Change, Choice } from '../../src/engine/advice'
import {
  RIG_IDS,
  advise,
  applyRig,
  breaksOf,
  chosenOf,
  judgeAgainstBrief,
  rebuild,
} from '../../src/engine/advice'
import { cutList } from '../../src/engine/tying'
import { recordClauses } from '../../src/engine/checks'
import { WARINESS, WATERS, WINDS } from '../../src/engine/leader'
import {
  CHANGE_CODES,
  REASON_CODES,
  describeAdvice,
  describeBreak,
  describeChange,
  describeClause,
  describeJudgement,
  describeStep,
  describeTangle,
  sayIn,
  xRange,
  xText,
} from '../../src/wording'
import type { BriefPatch } from '../engine/advice/briefs'
import { CANDIDATES, adviceFor, briefFor, reasonsOf } from '../engine/advice/briefs'
import { judgedAs } from '../engine/delivery/made'
import { soundLeader } from '../engine/build'

const say = sayIn({ diameter: 'in', length: 'in', force: 'lb', speed: 'm/s' })

/** Nothing of the machinery shows through. */
const isProse = (text: string) =>
  text.length > 3 && !/undefined|NaN|\[object|null|Infinity/.test(text)

const PATCHES: BriefPatch[] = [
  ...WATERS.flatMap((water) =>
    WARINESS.flatMap((wariness) =>
      WINDS.map((wind) => ({
        conditions: { water, wariness, wind, snags: wind === 'strong', warm: wind === 'breeze' },
        line: water === 'salt-water' ? 'WF8F' : 'WF5F',
      })),
    ),
  ),
  { fly: { style: 'streamer', hook: 4 }, line: 'WF7S3', conditions: { distance: 'far' } },
  { fly: { style: 'bushy', hook: 2 }, conditions: { distance: 'near' } },
  { fly: { style: 'streamer', hook: -3 }, line: 'WF9F', conditions: { toothy: true } },
  { fly: { style: 'bushy', hook: 14 }, conditions: { wind: 'strong', warm: true } },
  { fly: { style: 'streamer', hook: 4 }, line: 'WF7F', fish: '5 lb' },
  { fly: { style: 'emerger', hook: 18 }, fish: '12 lb' },
  { fly: { style: 'collar-hackle', hook: 12 }, fish: '4 lb' },
  { fly: { style: 'beaded-nymph', hook: 12 }, conditions: { snags: true } },
  { fly: { style: 'foam-terrestrial', hook: 6 } },
  { fly: { style: 'foam-terrestrial', hook: 8 }, conditions: { wind: 'breeze' }, fish: '3 lb' },
  { fly: { style: 'popper', hook: -2 }, conditions: { distance: 'far', wariness: 'pressured' } },
]

function everything() {
  const plain = PATCHES.map(adviceFor)
  const bare = advise({ ...briefFor(), outfit: {} }, { candidates: CANDIDATES, name: '' })
  return [...plain, bare]
}

/** Tries of which each comes over in such a share of casts, up to the first that surely does. */
function choiceWith({ tries }: Advice, ...rooms: number[]): Choice {
  const stateOf = (room: number) =>
    room >= 0.6 ? 'surely enough' : room >= 0.3 ? 'only just' : 'falls short'
  const judged = tries.map((_, i) => rooms[i] ?? rooms.at(-1)!)
  return chosenOf(
    tries,
    judged.map((room) => judgedAs(stateOf(room), room)),
  )
}

const all = everything()
const dry12 = adviceFor({ fly: { hook: 12 } })
const choices = [
  choiceWith(dry12, 0.7),
  choiceWith(dry12, 0.4),
  choiceWith(dry12, 0.4, 0.7),
  choiceWith(dry12, 0.1),
  chosenOf(dry12.tries, [{ kind: 'not-asked', because: 'no-line' }]),
]
const reasons = [
  ...all.flatMap(reasonsOf),
  ...choices.flatMap(({ reason }) => (reason ? [reason] : [])),
]
describe('reasons', () => {
  it('of every code come up and read as prose, each with a source', () => {
    const seen = new Set<string>()
    for (const reason of reasons) {
      seen.add(reason.code)
      expect(isProse(describeAdvice(reason, say)), describeAdvice(reason, say)).toBe(true)
      expect(reason.source).not.toBe('')
    }
    expect([...REASON_CODES].filter((code) => !seen.has(code))).toEqual([])
  })
})

describe('changes', () => {
  it('of every code read as prose', () => {
    const changes = all.flatMap((a): readonly Change[] => a.tries[0]?.changes ?? [])
    const seen = new Set(changes.map((c) => c.code))
    for (const change of changes) expect(isProse(describeChange(change, say))).toBe(true)
    // Pieces are added only where a formula's steps would grow too big.
    expect(CHANGE_CODES.filter((code) => !seen.has(code) && code !== 'piece-added')).toEqual([])
    const added: Change = {
      code: 'piece-added',
      figures: { piece: 3, diameter_m: 3e-4, length_m: 0.2 },
    }
    expect(describeChange(added, say)).toBe('Piece 3 added: 7.9 in of .0118 in')
  })
})

describe('rigs', () => {
  it.each(RIG_IDS)('%s: breaks and clauses read as prose', (id) => {
    const leader = applyRig(soundLeader(), id)
    const breaks = breaksOf(leader).map((each) => describeBreak(each, say))
    expect(breaks.length).toBeGreaterThan(0)
    expect(breaks.filter((text) => !isProse(text))).toEqual([])
    const clauses = recordClauses({ leader, cut: cutList(leader) }).flatMap((each) =>
      Object.values(describeClause(each, say)),
    )
    expect(clauses.length).toBeGreaterThanOrEqual(14)
    expect(clauses.filter((text) => !isProse(text))).toEqual([])
  })

  it('tangles say the figure', () => {
    expect(describeTangle('flies-close', 0.2032, say)).toContain('8 in')
  })
})

describe('sizes', () => {
  it('are X down from 0X, inches above', () => {
    expect([
      xText(5),
      xText(0),
      xText(-2),
      xRange({ stoutX: 4, fineX: 5 }),
      xRange({ stoutX: 4, fineX: 4 }),
    ]).toEqual(['5X', '0X', '.013 in', '4X to 5X', '4X'])
  })
})

describe('a leader against its brief, and one rebuilt', () => {
  it('read as prose', () => {
    const { leader } = all[0]!.tries[0]!
    const judged = (judgeAgainstBrief(leader) ?? []).map((each) => describeJudgement(each, say))
    expect(judged).toHaveLength(4)
    expect(judged.filter((text) => !isProse(text))).toEqual([])
    const { diameter, length, material } = leader.segments[0]!
    const old = [
      { diameter, length, material },
      { diameter, length, material },
    ]
    const spool = { name: 'a', material, diameter: leader.segments[2]!.diameter }
    const { steps } = rebuild(old, leader, [spool])
    expect(new Set(steps.map((s) => s.kind)).size).toBe(4)
    for (const step of steps) expect(isProse(describeStep(step, say))).toBe(true)
  })
})
