// @vitest-environment node
import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import type { CheckId, Finding, NotCheckedReason, Remedy } from '../../src/engine/checks'
import type { Leader } from '../../src/engine/leader'
import type { FindingWords, SpokenUnits } from '../../src/wording'
import { CHECK_IDS, LIMIT_IDS, SEVERITIES, limitsFor, runChecks } from '../../src/engine/checks'
import type { BestDelivery, DeliveryState, Wanted } from '../../src/engine/delivery'
import { DELIVERY_STATES, LAID } from '../../src/engine/delivery'
import { changesToTry } from '../../src/engine/whatHelps'
import { madeDelivery } from '../engine/delivery/made'
import { evaluate } from '../../src/engine/evaluate'
import { PARTS, PURPOSES } from '../../src/engine/leader'
import { CASTER_IDS, FLY_STYLES } from '../../src/engine/tackle'
import {
  CASTER_NAMES,
  CHECK_NAMES,
  FLY_NAMES,
  LIMIT_NAMES,
  PART_NAMES,
  PURPOSE_NAMES,
  SEVERITY_NAMES,
  describeFinding,
  describeReason,
  describeRemedy,
  sayIn,
} from '../../src/wording'
import { anyLeader, leaderOf, lineOf, q, soundLeader, taperedLeader } from '../engine/build'

/** Every sentence there is, by hand: a variant that no leader here meets, or a new one, fails the test. */
const VARIANTS: Readonly<Record<CheckId, readonly string[]>> = {
  'step-too-big': ['ratio', 'size'],
  'step-up': ['reversed', 'up'],
  'same-neighbours': ['same'],
  'knot-unsuited': ['fine', 'not-at-between', 'not-at-fly', 'not-at-line', 'reduction', 'step'],
  'segment-length': ['knots-touch', 'long', 'short'],
  'butt-and-line': ['stout', 'thin'],
  shares: ['butt-large', 'butt-small', 'mid-large', 'mid-small', 'tippet-large', 'tippet-small'],
  // Every knot known here weakens its strand, so the strand itself is never the weakest place.
  'weakest-link': ['joint'],
  'slipping-materials': ['slick'],
  'total-and-rod': ['long', 'short'],
  'tippet-length': ['long', 'short'],
  'tip-and-fish': ['weak'],
  'tippet-and-fly': ['fine', 'stout'],
  turnover: ['falls-short', 'kicks-back', 'lands-hard', 'lies-straight', 'will-not-go-over'],
  label: ['contradicts'],
  'stated-total': ['differs'],
  'record-rules': ['class-short', 'class-strong', 'shock-long'],
}

const REMEDY_IDS = [
  'change-knot',
  'fit-butt',
  'insert-between',
  'join',
  'lengthen',
  'match-above',
  'move-length',
  'relabel',
  'remove',
  'restate',
  'restep',
  'scale',
  'set-diameter',
  'shorten',
  'smaller-fly',
  'turn-round',
]

const REASONS: readonly NotCheckedReason[] = [
  'no-fish',
  'no-fly',
  'no-label',
  'no-line',
  'no-record-purpose',
  'no-rod',
  'no-stated-total',
  'no-tippet',
  'not-flown',
  'not-for-this-fly',
  'not-for-this-purpose',
]

const UNITS: readonly SpokenUnits[] = [
  { diameter: 'in', length: 'in', force: 'lb', speed: 'm/s' },
  { diameter: 'thou', length: 'ft-in', force: 'lb', speed: 'mph' },
  { diameter: 'X', length: 'in', force: 'lb', speed: 'ft/s' },
  { diameter: 'mm', length: 'cm', force: 'kg', speed: 'm/s' },
  { diameter: 'mm', length: 'm', force: 'kg', speed: 'km/h' },
]

/** A shock piece behind a class tippet that holds more than the heaviest class. */
const tooStrong = leaderOf(
  [
    { length: '2 m', diameter: '.030 in', part: 'butt' },
    { length: '18 in', diameter: '.020 in', part: 'tippet', strength: '30 lb' },
    { length: '10 in', diameter: '.040 in', part: 'shock' },
  ],
  { purpose: 'salt-water' },
)

/** Fished by a learner with a fly that a fair arm would still turn. */
const slow: Leader[] = [4, 6, 8, 10, 12, 14].map((hook) => ({
  ...soundLeader(),
  outfit: { ...soundLeader().outfit, line: lineOf('WF5F'), caster: 'learner' },
  tip: { joint: { knot: 'improved-clinch' }, fly: { fly: { style: 'parachute', hook } } },
}))

const leaders = [
  soundLeader(),
  { ...soundLeader(), statedTotal: q('12 ft') },
  tooStrong,
  ...slow,
  ...fc.sample(anyLeader, { seed: 20, numRuns: 700 }),
  ...fc.sample(taperedLeader, { seed: 21, numRuns: 700 }),
]

/** The report with every remedy, also those that are held back because they would not help. */
function reportOf(leader: Leader) {
  return runChecks({ leader, ...evaluate(leader), limits: limitsFor(leader.purpose, {}) })
}

/** A delivery that fails, with all changes that might help. */
function flownReport(state: DeliveryState, best: Partial<BestDelivery> = {}, wanted = LAID) {
  const leader = soundLeader()
  const limits = limitsFor(leader.purpose, {})
  const flown = { delivery: madeDelivery({ state, best, wanted }), remedies: changesToTry(leader) }
  return runChecks({ leader, ...evaluate(leader), flown, limits })
}

const SLACK: Wanted = { by: 'lay', least: 0.5, most: 0.8 }
const KICKS_BACK = { lay: 0.4, straight: 0.98, lineSpeed_m_s: 9 }
const flown = [
  ...DELIVERY_STATES.map((state) => flownReport(state)),
  flownReport('falls short', KICKS_BACK),
  flownReport('falls short', { touch: 'hard' }),
  flownReport('falls short', { lay: 0.98 }, SLACK),
]

const reports = [...leaders.map(reportOf), ...flown]
const findings = reports.flatMap((report) => report.findings)
const remedies = findings.flatMap((finding) => finding.remedies)
const inOrder = (values: Iterable<string>) => [...new Set(values)].sort()

/** Traces of a figure that was not there: a name for nothing, a dash, or a gap between words. */
const HOLE = /undefined|NaN|null|Infinity|\[object|–|—| {2}|^ | $|^$|,\s*,|\ba [aeio]|%%/

const faulty = (texts: readonly string[]) => texts.filter((text) => HOLE.test(text))

function partsOf({ title, why, measured, usual }: FindingWords): string[] {
  return [title, why, measured, usual]
}

function wordsOf(list: readonly Finding[], units: SpokenUnits): string[] {
  return list.flatMap((finding) => partsOf(describeFinding(finding, sayIn(units))))
}

describe('what leaders here are told', () => {
  it.each(CHECK_IDS)('%s: every variant of the list is met, and no other', (id) => {
    const met = findings.filter((finding) => finding.id === id).map(({ variant }) => variant)
    expect(inOrder(met)).toEqual(VARIANTS[id])
  })

  it('every remedy of the list is met, and no other', () => {
    expect(inOrder(remedies.map(({ id }) => id))).toEqual(REMEDY_IDS)
  })

  it('every reason for not checking is met, and no other', () => {
    const met = reports.flatMap(({ notChecked }) => notChecked.map(({ because }) => because))
    expect(inOrder(met)).toEqual(REASONS)
  })
})

describe.each(UNITS)('words in $diameter, $length and $force', (units) => {
  const say = sayIn(units)

  it('have no hole where a figure should be', () => {
    expect(inOrder(faulty(wordsOf(findings, units)))).toEqual([])
  })

  it('have no hole on the button of a remedy', () => {
    expect(inOrder(faulty(remedies.map((remedy) => describeRemedy(remedy, say))))).toEqual([])
  })

  it('are sentences where they explain, and phrases that fit into one where they measure', () => {
    const words = findings.map((finding) => describeFinding(finding, say))
    expect(words.filter(({ why }) => !/^[A-Z].*\.$/.test(why))).toEqual([])
    expect(words.filter(({ title }) => !/^[A-Z0-9].*[^.]$/.test(title))).toEqual([])
    expect(words.filter(({ measured, usual }) => /[.;,]$/.test(measured + usual))).toEqual([])
  })

  it('keep a person’s name in capitals', () => {
    expect(wordsOf(findings, units).filter((text) => text.includes('albright'))).toEqual([])
  })
})

const inches = sayIn({ diameter: 'in', length: 'in', force: 'lb', speed: 'm/s' })
const metric = sayIn({ diameter: 'mm', length: 'cm', force: 'kg', speed: 'm/s' })

describe('a single finding', () => {
  it('says a class tippet that is too strong in pounds and kilograms', () => {
    const [found] = reportOf(tooStrong).findings.filter(({ variant }) => variant === 'class-strong')
    expect(describeFinding(found as Finding, inches)).toMatchObject({
      title: 'Class tippet too strong for a record',
      measured: '30 lb',
      usual: 'at most 22 lb',
    })
    expect(describeFinding(found as Finding, metric)).toMatchObject({ usual: 'at most 10 kg' })
  })

  it('says the same step in inches and in millimetres', () => {
    const step: Finding = {
      id: 'step-up',
      variant: 'up',
      severity: 'caution',
      place: { kind: 'joint', index: 1 },
      measured: { step_m: -5.08e-5, ratio: 1.2 },
      limit: { ratio: 1 },
      source: 'test',
      remedies: [],
    }
    expect(describeFinding(step, inches).measured).toBe('grows by .002 in')
    expect(describeFinding(step, metric).measured).toBe('grows by 0.051 mm')
  })

  it('says of a leader that fails how many casts come over at best, in the words of its verdict', () => {
    const said = flown.flatMap((report) =>
      report.findings
        .filter(({ id }) => id === 'turnover')
        .map((found) => ({ ...describeFinding(found, inches), severity: found.severity })),
    )
    expect(said.map(({ title, severity }) => [title, severity])).toEqual([
      ['Falls short', 'caution'],
      ['Will not go over', 'fault'],
      ['Falls short', 'caution'],
      ['Falls short', 'caution'],
      ['Falls short', 'caution'],
    ])
    expect(said[4]?.why).toContain('straighter than a slack-line leader')
    expect(said[2]?.why).toContain('kicks back')
    expect(said[3]?.why).toContain('comes down hard')
    expect(said[0]).toMatchObject({
      measured: 'at best 70 of 100 casts lie as they should and 85 come over, at 9 m/s',
      usual: 'at least 30 of 100 casts come over',
    })
  })

  it('is refused a remedy that has no words', () => {
    // @ts-expect-error Every remedy of the list has its sentence, and there is no other.
    const unknown: Remedy = { id: 'pray', edit: { kind: 'remove', at: 0 } }
    expect(() => describeRemedy(unknown, inches)).toThrow(TypeError)
  })
})

describe('names', () => {
  const NAMES = [
    ['checks', CHECK_IDS, CHECK_NAMES],
    ['limits', LIMIT_IDS, LIMIT_NAMES],
    ['parts', PARTS, PART_NAMES],
    ['purposes', PURPOSES, PURPOSE_NAMES],
    ['flies', FLY_STYLES, FLY_NAMES],
    ['casters', CASTER_IDS, CASTER_NAMES],
    ['severities', SEVERITIES, SEVERITY_NAMES],
  ] as const

  it.each(NAMES)('all %s have one each, of their own', (_, ids, names) => {
    const said = ids.map((id) => (names as Readonly<Record<string, string>>)[id] ?? '')
    expect(faulty(said)).toEqual([])
    expect(new Set(said).size).toBe(ids.length)
  })

  it('all reasons fit behind "because"', () => {
    const said = REASONS.map(describeReason)
    expect(faulty(said)).toEqual([])
    expect(said.filter((text) => !/^[a-z].*[^.]$/.test(text))).toEqual([])
  })
})
