// @vitest-environment node
import { describe, expect, it } from 'vitest'
import type { Judgement } from '../../src/engine/delivery'
import type { Leader } from '../../src/engine/leader'
import type { SpokenUnits } from '../../src/wording'
import { DELIVERY_STATES } from '../../src/engine/delivery'
import { deliveryWords, sayIn } from '../../src/wording'
import { soundLeader } from '../engine/build'
import { madeJudgement } from '../engine/delivery/made'

const UNITS: SpokenUnits = { diameter: 'in', length: 'in', force: 'lb', speed: 'm/s' }
const words = (judgement: Judgement, units: SpokenUnits = UNITS, leader: Leader = soundLeader()) =>
  deliveryWords(judgement, leader, sayIn(units))
const text = (...of: Parameters<typeof words>) => words(...of).sentences.join(' ')
type Patch = NonNullable<Parameters<typeof madeJudgement>[0]>
const made = (patch: Patch = {}) => text(madeJudgement(patch))

describe('a reason', () => {
  it.each([
    ['the simulation stopped', ['The reason: the simulation stopped.']],
    ['It stopped.', ['The reason: It stopped.']],
    ['', []],
  ])('%j is said with one full stop, or not at all', (reason, sentences) => {
    expect(words({ kind: 'not-flown', reason }).sentences).toEqual(sentences)
  })
})

describe('the verdict in words', () => {
  it('has a title and a mark for each state, the worse the state the worse the mark', () => {
    const marks = DELIVERY_STATES.map((state) => words(madeJudgement({ state })).mark)
    expect(marks).toEqual(['good', 'good', 'fair', 'poor', 'poor'])
    const titles = DELIVERY_STATES.map((state) => words(madeJudgement({ state })).title)
    expect(new Set(titles).size).toBe(DELIVERY_STATES.length)
  })

  it('says how many casts, power and aim, from what power on, how it lies and how it lands', () => {
    expect(words(madeJudgement()).sentences).toEqual([
      'An ordinary caster lays out 70 of 100 casts; 85 come over, recoil left aside.',
      'Aim about 7 ft above the water (level) and ease off to 9 m/s, 56 % of a full cast.',
      'Half of the casts come over from 7 m/s on.',
      'The leader lies nearly straight, 90 % of its length out; the fly comes down softly, after line and leader.',
    ])
  })

  it('tells recoil only where it makes a difference', () => {
    expect(made({ best: { roomRecoilForgiven: 0.72 } })).not.toContain('recoil')
  })

  it('speaks of a learner, a strong caster, and of you', () => {
    const by = (outfit: Leader['outfit']) =>
      text(madeJudgement(), UNITS, { ...soundLeader(), outfit }).split(' casts')[0]
    expect(by({ caster: 'learner' })).toBe('A learner lays out 70 of 100')
    expect(by({ caster: 'strong' })).toBe('A strong caster lays out 70 of 100')
    expect(by({ ownCast: { lineSpeed_m_s: 11, loopHeight_m: 1 } })).toBe('You lay out 70 of 100')
  })

  it('says speeds in every unit and aims in metres or feet', () => {
    // 9 m/s: 32.4 km/h, 29.5 ft/s, 20.1 mph (NIST Special Publication 811, 2008, appendix B).
    const at = (speed: SpokenUnits['speed'], length: SpokenUnits['length']) =>
      text(madeJudgement(), { ...UNITS, speed, length })
    expect(at('km/h', 'm')).toContain(
      'Aim about 2 m above the water (level) and ease off to 32 km/h',
    )
    expect(at('ft/s', 'in')).toContain('ease off to 30 ft/s')
    expect(at('mph', 'in')).toContain('ease off to 20 mph')
  })

  it('says whether to ease off, to throw as usual or to put in more, and when it is a full cast', () => {
    const at = (lineSpeed_m_s: number, edge: 'power' | null = null) =>
      made({ best: { lineSpeed_m_s, edge } })
    expect(at(12.3)).toContain('throw it at 12.3 m/s as usual, 77 % of a full cast')
    expect(at(14)).toContain('put more into it: 14 m/s')
    expect(at(16, 'power')).toContain('put more into it: 16 m/s, a full cast')
  })

  it('says a low aim as casters do', () => {
    const at = (aimHeight_m: number, launchAngle_deg: number) =>
      made({ best: { aimHeight_m, launchAngle_deg } })
    expect(at(0.1, -9)).toContain('Aim at the water where the fly is to land (9° down)')
    expect(at(-1.2, -14)).toContain('at the water short of where the fly is to land (14° down)')
    expect(at(3.1, 6)).toContain('about 10 ft above the water (6° up)')
  })

  it('never says the end of a search as a number', () => {
    const few = { roomRecoilForgiven: 0.4, room: 0.3 }
    expect(made({ least: null, best: few })).toContain(
      'At no power of this caster do half of the casts',
    )
    // What the ridge says of half of the casts is kept to itself where the casts say otherwise.
    expect(made({ best: few })).not.toContain('alf of the casts')
    expect(made({ least: null })).not.toContain('alf of the casts')
    expect(made({ best: { edge: 'aim' } })).toContain('as high or as low as was tried')
  })

  it('of streamers says how far line and leader reach, without a lay', () => {
    const said = made({ wanted: { by: 'reach', least: 0.9 }, best: { touch: 'plops' } })
    expect(said).toContain('70 of 100 casts out straight with the fly ahead')
    expect(said).toContain('Line and leader reach 95 % of their length; the fly plops')
  })

  it('of a slack-line leader says how much slack it gives, and where', () => {
    const wanted = { by: 'lay', least: 0.5, most: 0.8 } as const
    const pieces = soundLeader().segments
    const inTippet = pieces.map(({ part }) => (part === 'tippet' ? 0 : 1))
    const slack = made({ wanted, best: { lay: 0.65, pieceLays: inTippet } })
    expect(slack).toContain('in the slack that is wanted, 20 % to 50 %')
    expect(slack).toContain('It gives 35 % of slack, most of it in the tippet')
    expect(made({ wanted, best: { lay: -0.4 } })).toContain('lies in a heap behind its butt')
    const above = inTippet.map((lay) => 1 - lay)
    expect(made({ wanted, best: { pieceLays: above } })).toContain('most of it above the tippet')
  })

  it('of a small dense fly says that the leader hardly decides, and of no other', () => {
    // A beaded nymph falls through air at 29 m/s by the model's own figures.
    expect(made({ fall_m_s: 29 })).toContain('goes over on nearly any leader')
    expect(made({ fall_m_s: 29, state: 'only just' })).not.toContain('any leader')
    expect(made({ fall_m_s: 3 })).not.toContain('any leader')
  })

  it('of a leader that straightens and kicks back says so, and that nobody has measured it', () => {
    const best = { room: 0, roomRecoilForgiven: 0.1, lay: 0.4, straight: 0.98 }
    expect(made({ state: 'falls short', best })).toContain('straightens in the air and kicks back')
    const others = [{ straight: 0.9 }, { lineSpeed_m_s: 16 }]
    for (const other of others)
      expect(made({ state: 'falls short', best: { ...best, ...other } })).not.toContain('kicks')
  })

  it.each<[Judgement, string]>([
    [{ kind: 'checking' }, 'Checking'],
    [{ kind: 'not-flown', reason: 'the simulation stopped' }, 'Not flown'],
    [{ kind: 'not-asked', because: 'no-fly' }, 'Choose a fly'],
    [{ kind: 'not-asked', because: 'no-line' }, 'Choose a fly line'],
    [{ kind: 'not-asked', because: 'lobbed' }, 'Not judged: this is lobbed'],
  ])('of %o says "%s", without a state', (judgement, title) => {
    expect(words(judgement)).toMatchObject({ title, mark: 'none' })
    expect(text(judgement)).not.toMatch(/\d/)
  })
})
