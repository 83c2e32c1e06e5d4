// @vitest-environment node
import { describe, expect, it } from 'vitest'
import { cutList } from '../../../src/engine/tying'
import { recordClassOf, recordClauses } from '../../../src/engine/checks'
import type { Leader } from '../../../src/engine/leader'
import { leaderOf, leaderOfPounds, lineOf, q, soundLeader, withPiece } from '../build'
import { leftAfterOffers, badOffers, findingsOf, reportOf, whyNotChecked } from './support'
import { POUND_RECIPES } from '../../reference/recipes'

const record = (classLength: string, shockLength: string, strength = '16 lb') =>
  leaderOf(
    [
      { length: '6 ft', diameter: '24 thou', part: 'butt', material: 'nylon-stiff' },
      { length: classLength, diameter: '14 thou', part: 'tippet', strength },
      { length: shockLength, diameter: '26 thou', part: 'shock' },
    ],
    { purpose: 'salt-water' },
  )

const variants = (leader: ReturnType<typeof record>) =>
  findingsOf(leader, 'record-rules').map((f) => f.variant)

describe('clauses of the record rules', () => {
  const clauses = (leader: ReturnType<typeof record>) =>
    new Map(recordClauses({ leader, cut: cutList(leader) }).map((c) => [c.clause, c.status]))

  it('are each passed, failed or left open', () => {
    const open = clauses(record('18 in', '11.5 in'))
    expect(Object.fromEntries(open)).toEqual({
      'class-length': 'pass',
      'class-strength': 'pass',
      'class-material': 'pass',
      'shock-length': 'pass',
      'rod-length': 'unknown',
      flies: 'pass',
      butt: 'pass',
    })
  })

  it('a rod under six feet, three flies and a bite piece too long fail theirs', () => {
    const leader = record('18 in', '14 in')
    const dropper = { kind: 'dropper' as const }
    const rigged = withPiece(leader, 1, { attachments: [dropper, dropper, dropper] })
    const found = clauses({ ...rigged, outfit: { rod: q('5\' 6"') } })
    expect([found.get('rod-length'), found.get('flies'), found.get('shock-length')]).toEqual([
      'fail',
      'fail',
      'fail',
    ])
  })

  it.each([
    [2.2, 2],
    [2.3, 4],
    [13.2, 12],
    [22.04, 20],
    [22.1, undefined],
  ])('a tippet that tests at %f lb is of the %s lb class', (pounds, label) => {
    // IGFA fly fishing rules: tested limits of each class.
    expect(recordClassOf(pounds * 0.45359237 * 9.80665)).toBe(label)
  })
})

describe('record rules', () => {
  // IGFA fly fishing rules: class tippet at least 15 in (38.10 cm) inside its knots, shock tippet at most
  // 12 in (30.48 cm) with its knots, classes to 10 kg (20 lb).
  it('takes a leader that keeps them', () => {
    expect(variants(record('18 in', '11.5 in'))).toEqual([])
    expect(variants(record('18 in', '11.5 in', '20 lb'))).toEqual([])
  })

  it.each([
    ['14 in', '11.5 in', '16 lb', 'class-short', 'length_m', 0.381],
    // Fifteen inches between the centres of the knots are less inside them.
    ['15 in', '11.5 in', '16 lb', 'class-short', 'length_m', 0.381],
    // Twelve inches to the middle of the knot are more with the knot, which the rules count.
    ['18 in', '12 in', '16 lb', 'shock-long', 'length_m', 0.3048],
    ['18 in', '13 in', '16 lb', 'shock-long', 'length_m', 0.3048],
    ['18 in', '11.5 in', '25 lb', 'class-strong', 'strength_N', 98.0665],
  ])('notes class %s, shock %s, %s: %s', (classLength, shock, strength, variant, name, limit) => {
    const [finding] = findingsOf(record(classLength, shock, strength), 'record-rules')
    expect(finding).toMatchObject({ variant, severity: 'note', source: 'IGFA fly fishing rules' })
    expect(finding?.limit[name]).toBeCloseTo(limit, 9)
    expect(finding?.place).toEqual({ kind: 'segment', index: variant === 'shock-long' ? 2 : 1 })
    expect(badOffers(record(classLength, shock, strength))).toEqual([])
    expect(leftAfterOffers(record(classLength, shock, strength), 'record-rules')).toEqual([])
  })

  it('notes both faults of a published tarpon leader: class over 20 lb, bite over 12 in', () => {
    const tarpon = POUND_RECIPES.find((r) => r.id === 'tarpon')
    if (!tarpon) throw new Error('no tarpon recipe')
    expect(variants(leaderOfPounds(tarpon))).toEqual(['class-strong', 'shock-long'])
  })

  it('judges only a strength that is stated', () => {
    const leader = record('18 in', '11.5 in')
    const unlabelled = leader.segments.map(({ strength: _, ...s }) => s)
    expect(variants({ ...leader, segments: unlabelled })).toEqual([])
  })

  it('offers lengths inside the rules', () => {
    const offers = findingsOf(record('14 in', '13 in'), 'record-rules').flatMap((f) => f.remedies)
    expect(offers.map((r) => r.id)).toEqual(['lengthen', 'shorten'])
  })

  it('is not checked of a leader that is not for records', () => {
    expect(whyNotChecked(soundLeader(), 'record-rules')).toBe('no-record-purpose')
  })
})

describe('a tarpon leader with a shock piece', () => {
  const tarpon = (purpose: Leader['purpose'], shock: string, tippet = '20 in') =>
    leaderOf(
      [
        { length: '5 ft', diameter: '28 thou', part: 'butt', material: 'nylon-stiff' },
        { length: '2 ft', diameter: '22 thou', part: 'mid-section', material: 'nylon-stiff' },
        { length: tippet, diameter: '16 thou', part: 'tippet', strength: '16 lb' },
        { length: shock, diameter: '30 thou', part: 'shock', knot: 'albright' },
      ],
      { purpose, outfit: { rod: q('9 ft'), line: lineOf('WF10F') } },
    )
  const offersOn = (leader: Leader, at: number) =>
    reportOf(leader).findings.flatMap(({ remedies }) =>
      remedies.filter(
        ({ edit }) =>
          (edit.kind === 'length' && edit.at === at) ||
          (edit.kind === 'move-length' && [edit.from, edit.to].includes(at)),
      ),
    )

  // IGFA fly fishing rules: a shock tippet of 12 in at most, whatever the leader is called.
  it('called a general dry is judged by its parts, and nothing lengthens the shock', () => {
    const leader = tarpon('general-dry', '14 in')
    expect(offersOn(leader, 3).map(({ id }) => id)).toEqual(['shorten'])
    const { findings } = reportOf(leader)
    expect(findings).toEqual(reportOf({ ...leader, purpose: 'bite-tippet' }).findings)
  })

  it.each(['bite-tippet', 'salt-water', 'general-dry'] as const)(
    'its short tippet, for %s, has one length offered, that of the record',
    (purpose) => {
      const offers = offersOn(tarpon(purpose, '11 in', '10 in'), 2)
      expect(offers.map(({ id }) => id)).toEqual(['lengthen'])
      const [offer] = offers
      const length_m = offer?.edit.kind === 'length' ? offer.edit.length.si : NaN
      expect(length_m).toBeGreaterThan(0.381)
    },
  )

  it('the own limit of the user still speaks', () => {
    const leader = tarpon('bite-tippet', '11 in', '17 in')
    expect(findingsOf(leader, 'tippet-length', { tippetShortest: 0.6 })).toHaveLength(1)
  })
})
