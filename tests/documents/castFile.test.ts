// @vitest-environment node
import { spawnSync } from 'node:child_process'
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { afterAll, describe, expect, it } from 'vitest'
import type { CastJob } from '../../src/documents'
import { flyCase } from '../../src/cli/cast.js'
import { problemText, readCastCases } from '../../src/documents'
import {
  AXIAL_FRICTION,
  CYLINDER_DRAG,
  MESHES,
  standardLine,
  STATED_CASE,
  STATED_STRAND,
} from '../../src/engine/cast'

const root = fileURLToPath(new URL('../../', import.meta.url))

const level = (length_m: number, diameter_m: number) => ({
  length_m,
  diameter_m,
  density_kg_m3: 1140,
  modulus_Pa: 2e9,
})
/** The least that a case must say: a plain leader and a small fly. */
const least = (patch: object = {}) => ({
  segments: [level(1.2, 5e-4), level(0.8, 3e-4), level(0.7, 1.8e-4)],
  fly: { mass_kg: 2e-5, dragArea_m2: 2e-5 },
  ...patch,
})

function jobsOf(json: unknown): readonly CastJob[] {
  const read = readCastCases(json)
  if (!read.ok) throw new Error(read.problems.map(problemText).join('\n'))
  return read.jobs
}
function jobOf(json: unknown): CastJob {
  const [job] = jobsOf(json)
  if (!job) throw new Error('no case')
  return job
}
function problemsOf(json: unknown): string[] {
  const read = readCastCases(json)
  return read.ok ? [] : read.problems.map(problemText)
}

describe('a field that is not known', () => {
  it.each<[string, object, string]>([
    [
      'beside its unit',
      least({ gravity_ms2: 9.8 }),
      'gravity_ms2: found 9.8; would be right: a field that is known here: gravity_m_s2, perhaps',
    ],
    [
      'in the cast',
      least({ cast: { linespeed: 9 } }),
      'cast.linespeed: found 9; would be right: a field that is known here: lineSpeed_m_s, perhaps',
    ],
    [
      'in a list',
      { ...least(), segments: [{ ...level(1, 5e-4), curl: 1 }] },
      'segments[0].curl: found 1; would be right: a field that is known here: curl_1_m, perhaps',
    ],
    [
      'like none',
      least({ air: { colour: 'blue' } }),
      'air.colour: found "blue"; would be right: a field that is known here: one of density_kg_m3, kinematicViscosity_m2_s',
    ],
  ])('%s is refused, with the nearest', (_, json, problem) => {
    expect(problemsOf(json)).toEqual([problem])
  })

  it('is told beside what else is wrong', () => {
    const problems = problemsOf(least({ wind: 3, fly: { mass_kg: -1, dragArea_m2: 0 } }))
    expect(problems).toHaveLength(2)
    expect(problems.join()).toContain('wind_m_s, perhaps')
  })

  it('may be a name or a note, anywhere', () => {
    const segments = least().segments.map((s) => ({ ...s, name: 'butt' }))
    expect(problemsOf({ ...least({ note: 'windy' }), segments })).toEqual([])
  })
})

describe('what a case leaves out', () => {
  it('is the standard cast: figures of common practice, air of the standard atmosphere', () => {
    const { input, targetExtension, want } = jobOf(least())
    expect([targetExtension, want]).toEqual([0.95, ['flight']])
    // Common practice for a fair caster on a trout stream; these are the documented defaults.
    expect(input.cast).toEqual({
      lineSpeed_m_s: 12,
      loopHeight_m: 0.8,
      loopStart_m: 4,
      launchAngle_deg: 10,
      tipHeight_m: 2,
    })
    // ISO 2533:1975 at sea level: 1.225 kg/m3; 1.789e-5 Pa s over it is the kinematic viscosity.
    expect(input.air.density_kg_m3).toBe(1.225)
    expect(input.air.kinematicViscosity_m2_s).toBeCloseTo(1.789e-5 / 1.225, 9)
    // CGPM 1901: standard gravity.
    expect(input.gravity_m_s2).toBe(9.80665)
    expect(input).toMatchObject({
      wind_m_s: 0,
      axialFriction: 'matsui',
      cylinderDrag: 'cheng',
      bendingDamping_s: 0.003,
      endTime_s: 2.5,
      mesh: 'usual',
    })
    expect(input.line).toEqual(standardLine())
    expect(input.line.reduce((sum, s) => sum + s.length_m, 0)).toBeCloseTo(9, 9)
  })

  it('within cast and air stands beside what is given', () => {
    const { input } = jobOf(least({ cast: { lineSpeed_m_s: 9 }, air: { density_kg_m3: 1 } }))
    expect(input.cast).toMatchObject({ lineSpeed_m_s: 9, loopHeight_m: 0.8, tipHeight_m: 2 })
    expect(input.air).toMatchObject({ density_kg_m3: 1 })
    expect(input.air.kinematicViscosity_m2_s).toBeGreaterThan(1e-5)
  })
})

const FULL = {
  line: [
    level(6, 1.2e-3),
    {
      length_m: 3,
      diameterFrom_m: 1.2e-3,
      diameterTo_m: 8e-4,
      density_kg_m3: 850,
      modulus_Pa: 1e8,
    },
  ],
  segments: [level(2, 4e-4)],
  fly: { mass_kg: 1e-4, dragArea_m2: 3e-5 },
  cast: {
    lineSpeed_m_s: 15,
    loopHeight_m: 1.1,
    loopStart_m: 3,
    launchAngle_deg: 5,
    tipHeight_m: 2.6,
  },
  air: { density_kg_m3: 1.1, kinematicViscosity_m2_s: 1.6e-5 },
  gravity_m_s2: 9.8,
  wind_m_s: -2,
  axialFriction: 0.02,
  cylinderDrag: 'white',
  bendingDamping_s: 0.001,
  endTime_s: 1.5,
  mesh: 'coarse',
  targetExtension: 0.9,
  want: ['leastSpeed', 'ledger'],
} as const

describe('every name of a case', () => {
  const drags = Object.keys(CYLINDER_DRAG)
  const other = drags.find((name) => name !== 'cheng') ?? 'cheng'

  it('arrives where it belongs', () => {
    const { input, targetExtension, want } = jobOf({ ...FULL, cylinderDrag: other })
    expect([targetExtension, want]).toEqual([0.9, ['leastSpeed', 'ledger']])
    expect(input).toMatchObject({
      fly: FULL.fly,
      cast: FULL.cast,
      air: FULL.air,
      gravity_m_s2: 9.8,
      wind_m_s: -2,
      axialFriction: 0.02,
      cylinderDrag: other,
      bendingDamping_s: 0.001,
      endTime_s: 1.5,
      mesh: 'coarse',
    })
    const bare = { density_kg_m3: 1140, modulus_Pa: 2e9 }
    expect(input.line).toEqual([
      { length_m: 6, diameterFrom_m: 1.2e-3, diameterTo_m: 1.2e-3, ...bare },
      FULL.line[1],
    ])
    expect(input.segments).toEqual([
      { length_m: 2, diameterFrom_m: 4e-4, diameterTo_m: 4e-4, ...bare, spreads: STATED_STRAND },
    ])
  })

  it('spreads arrive as the person’s own; what is left out is as good as any stated case', () => {
    const plain = { ...FULL, cylinderDrag: 'cheng' }
    const spread = { lineSpeed: 0.08, loopHeight: 0.1, launchAngle_deg: 2, tipHeight_m: 0.1 }
    const { spreads } = jobOf({ ...plain, spread }).input
    for (const [name, sd] of Object.entries(spread))
      expect(spreads).toHaveProperty(name, { sd, from: 'measured' })
    expect(spreads.flyDrag).toBe(STATED_CASE.flyDrag)
    expect(jobOf(plain).input.spreads).toEqual(STATED_CASE)
  })

  it('a fly’s drag area stays as it is unless its fall with speed is stated', () => {
    const fly = { mass_kg: 2e-5, dragArea_m2: 2e-5, dragExponent: 0.35 }
    expect(jobOf(least({ fly })).input.fly).toEqual(fly)
    expect(jobOf(least()).input.fly).not.toHaveProperty('dragExponent')
  })

  it('the delivery is an ordinary caster’s unless its own is stated', () => {
    const { delivery } = jobOf(least())
    expect(delivery.greatest_m_s).toBe(16)
    expect(delivery.input.spreads).toMatchObject({
      lineSpeed: { sd: 0.09 },
      launchAngle_deg: { sd: 2.5 },
      loopHeight: { sd: 0.15 },
      tipHeight_m: { sd: 0.15 },
    })
    const own = { cast: { greatestLineSpeed_m_s: 13 }, spread: { lineSpeed: 0.2 } }
    const stated = jobOf(least(own))
    expect(stated.delivery.greatest_m_s).toBe(13)
    expect(stated.delivery.input.spreads.lineSpeed.sd).toBe(0.2)
    expect(stated.input.cast).not.toHaveProperty('greatestLineSpeed_m_s')
    // Of one whose usual speed alone is stated, a third more.
    expect(jobOf(least({ cast: { lineSpeed_m_s: 9 } })).delivery.greatest_m_s).toBeCloseTo(12, 9)
  })

  it.each([
    ['axialFriction', Object.keys(AXIAL_FRICTION)],
    ['cylinderDrag', drags],
    ['mesh', Object.keys(MESHES)],
  ] as const)('%s takes each of its laws or meshes by name, and no other', (name, values) => {
    expect(values.length).toBeGreaterThan(0)
    for (const value of values)
      expect(jobOf(least({ [name]: value })).input).toMatchObject({ [name]: value })
    const [problem] = problemsOf(least({ [name]: 'guesswork' }))
    expect(problem).toContain(`${name}: found "guesswork"; would be right:`)
    for (const value of values) expect(problem).toContain(value)
  })

  it('axialFriction as a number is a constant coefficient, which brakes more the larger it is', () => {
    const extension = (axialFriction: number) =>
      flyCase(jobOf(least({ axialFriction, mesh: 'coarse', want: [] }))).touchTime_s
    expect(jobOf(least({ axialFriction: 0 })).input.axialFriction).toBe(0)
    expect(extension(0)).not.toBe(extension(0.1))
  })

  it('of what is wanted are five', () => {
    const want = ['flight', 'leastSpeed', 'band', 'ledger', 'delivery']
    expect(jobOf(least({ want })).want).toEqual(want)
    expect(problemsOf(least({ want: ['everything'] }))[0]).toContain('want[0]')
  })
})

describe('a list of cases', () => {
  it('is read case by case, in order', () => {
    const speeds = jobsOf([8, 9, 10].map((lineSpeed_m_s) => least({ cast: { lineSpeed_m_s } })))
    expect(speeds.map(({ input }) => input.cast.lineSpeed_m_s)).toEqual([8, 9, 10])
    expect(jobsOf([])).toEqual([])
  })

  it('tells problems with the place of the case', () => {
    const bad = { ...least(), fly: { mass_kg: 1, dragArea_m2: 'big' } }
    expect(problemsOf([least(), bad, 7])).toEqual([
      expect.stringMatching(/^\[1\]\.fly\.dragArea_m2: found "big"; would be right: a number/),
      expect.stringMatching(/^\[2\]: found 7; would be right: a cast case/),
    ])
  })
})

describe('what is wrong', () => {
  it('is told all at once, each with its path, what was found and what would be right', () => {
    const problems = problemsOf({
      segments: [{ ...level(1, 1), length_m: '1 m' }, level(-1, 4e-4), { length_m: 1 }],
      cast: { lineSpeed_m_s: 'fast', tipHeight_m: 0 },
      air: { density_kg_m3: -1 },
      gravity_m_s2: null,
      wind_m_s: 100,
      axialFriction: 11,
      endTime_s: 0,
      targetExtension: 2,
    })
    const paths = problems.map((text) => text.split(':')[0])
    expect(paths).toEqual(
      expect.arrayContaining([
        'segments[0].length_m',
        'segments[0].diameter_m',
        'segments[1].length_m',
        'segments[2].diameter_m',
        'segments[2].density_kg_m3',
        'segments[2].modulus_Pa',
        'fly',
        'cast.lineSpeed_m_s',
        'cast.tipHeight_m',
        'air.density_kg_m3',
        'gravity_m_s2',
        'wind_m_s',
        'axialFriction',
        'endTime_s',
        'targetExtension',
      ]),
    )
    expect(new Set(paths).size).toBe(paths.length)
    for (const text of problems) expect(text).toMatch(/: found .+; would be right: .+/)
    expect(problems.find((text) => text.startsWith('fly:'))).toContain('mass_kg, dragArea_m2')
  })

  it.each([
    ['nothing', undefined],
    ['a number', 3],
    ['a text', 'cast'],
    ['null', null],
    ['no segments', { fly: { mass_kg: 0, dragArea_m2: 0 }, segments: [] }],
    [
      'both ends of a taper missing one',
      least({ segments: [{ ...level(1, 1e-3), diameterFrom_m: 1e-3 }] }),
    ],
    ['more segments than a leader has', least({ segments: Array(201).fill(level(0.01, 3e-4)) })],
    ['no number', least({ wind_m_s: NaN })],
  ])('is refused: %s', (_, json) => {
    expect(problemsOf(json).length).toBeGreaterThan(0)
  })
})

const folder = mkdtempSync(join(tmpdir(), 'cast-'))
afterAll(() => rmSync(folder, { recursive: true }))

function cast(content: unknown, name = 'case.json') {
  const path = join(folder, name)
  writeFileSync(path, typeof content === 'string' ? content : JSON.stringify(content))
  return command(path)
}

function command(...paths: string[]) {
  return spawnSync(process.execPath, ['src/cli/cast.mjs', ...paths], {
    cwd: root,
    encoding: 'utf8',
    env: { ...process.env, npm_lifecycle_event: '' },
  })
}

const MEASURES =
  `status extension timeOfExtension_s unrolledFraction flySpeedAtTurn_m_s timeOfTurn_s
  touchTime_s touchSpeed_m_s slackOnWater energyError`.split(/\s+/)

/** On a slow machine it says how far it is, and nothing else. */
const PROGRESS = /^(case \d of \d: \d+ flights\n)*$/

describe('the command', () => {
  it('flies a case: measures, least speed, band, ledger and frames, as pure JSON', () => {
    const want = ['flight', 'leastSpeed', 'band', 'ledger']
    const run = cast(least({ want, mesh: 'coarse' }))
    expect(run.stderr).toMatch(PROGRESS)
    expect(run.status).toBe(0)
    const out = JSON.parse(run.stdout) as Record<string, number> & {
      band: Record<string, number>
      ledger: Record<string, number>
      flight: { time_s: number; x_m: number[]; y_m: number[] }[]
    }
    expect(Object.keys(out)).toEqual(expect.arrayContaining([...MEASURES, 'leastLineSpeed_m_s']))
    expect(out).toMatchObject({ status: 'ok' })
    for (const name of MEASURES.slice(1)) expect(out[name], name).toEqual(expect.any(Number))
    // An ordinary leader with a small fly turns over, in a second or so (common practice).
    expect(out['extension']).toBeGreaterThan(0.95)
    expect(out['unrolledFraction']).toBeGreaterThan(0.95)
    expect(out['touchTime_s']).toBeGreaterThan(out['timeOfTurn_s']!)
    expect(out['energyError']).toBeLessThan(0.01)
    expect(out['leastLineSpeed_m_s']).toBeLessThan(12)
    expect(out.band).toMatchObject({ samples: 60 })
    expect(out.band['p10_m_s']).toBeLessThanOrEqual(out.band['p50_m_s']!)
    expect(out.band['p50_m_s']).toBeLessThanOrEqual(out.band['p90_m_s']!)
    const { start_J, kinetic_J, gravity_J, stored_J, fly_J, ...rest } = out.ledger
    const { acrossStrand_J, alongStrand_J, bending_J } = rest
    // Energy is kept: what was there and what fell is in motion, in bends, or with the air.
    const spent = kinetic_J! + stored_J! + fly_J! + acrossStrand_J! + alongStrand_J! + bending_J!
    expect(Math.abs(spent - start_J! - gravity_J!) / start_J!).toBeLessThan(0.01)
    expect(out.flight[0]?.time_s).toBe(0)
    expect(out.flight[0]?.x_m).toHaveLength(out['nodes']!)
    expect(out.flight.at(-1)?.time_s).toBeGreaterThan(2.4)
  })

  it('gives the delivery with its map: the names that scripts rely on, within what this caster can throw', () => {
    const run = cast(least({ want: ['delivery'], mesh: 'coarse' }))
    expect(run.status).toBe(0)
    const out = JSON.parse(run.stdout) as {
      lay: number
      delivery: {
        state: string
        best: Record<string, number>
        least: { lineSpeed_m_s: number; launchAngle_deg: number }
        map: { lineSpeeds_m_s: number[]; launchAngles_deg: number[]; lay: (number | null)[][] }
      }
    }
    expect(out).toMatchObject({ status: 'ok', lay: expect.any(Number) as number })
    for (const name of ['reachShare', 'touchSpeedDown_m_s', 'touchSpeedRatio'])
      expect(out).toHaveProperty(name, expect.any(Number))
    const { state, best, least: slowest, map } = out.delivery
    // An ordinary leader with a small fly goes over for an ordinary caster (common practice).
    expect(['easily', 'surely enough']).toContain(state)
    expect(best['room']).toBeGreaterThan(0.3)
    expect(best['roomRecoilForgiven']).toBeGreaterThanOrEqual(best['room']!)
    expect(best['lay']).toBeLessThanOrEqual(1)
    expect(best['lineSpeed_m_s']).toBeLessThanOrEqual(16)
    expect(best).toHaveProperty('launchAngle_deg')
    expect(best).toHaveProperty('touchSpeedRatio')
    expect(best['touchOrder']).toContain('fly')
    expect(slowest.lineSpeed_m_s).toBeLessThanOrEqual(best['lineSpeed_m_s']! * 1.2)
    expect(map.lay).toHaveLength(map.launchAngles_deg.length)
    for (const row of map.lay) expect(row).toHaveLength(map.lineSpeeds_m_s.length)
    expect(out.delivery).not.toHaveProperty('band')
  })

  it('gives one entry a case for a list, and only what is wanted', () => {
    const slow = least({ cast: { lineSpeed_m_s: 5 }, want: [], mesh: 'coarse' })
    const bulky = least({
      fly: { mass_kg: 5e-5, dragArea_m2: 1e-2 },
      want: ['leastSpeed'],
      mesh: 'coarse',
    })
    const early = least({ endTime_s: 0.05, want: [], mesh: 'coarse' })
    const run = cast([slow, bulky, early])
    expect(run.stderr).toMatch(PROGRESS)
    expect(run.status).toBe(0)
    const [one, two, three] = JSON.parse(run.stdout) as Record<string, number | null>[]
    for (const name of ['flight', 'ledger', 'band', 'delivery', 'leastLineSpeed_m_s'])
      expect(one).not.toHaveProperty(name)
    // Faster than any arm: no such speed, and no such thing as 40.
    expect(two).toMatchObject({ leastLineSpeed_m_s: null })
    // In a twentieth of a second nothing has come round and nothing is down.
    expect(three).toMatchObject({
      status: 'ok',
      extension: 0,
      timeOfExtension_s: null,
      flySpeedAtTurn_m_s: null,
      timeOfTurn_s: null,
      touchTime_s: null,
      touchSpeed_m_s: null,
      slackOnWater: null,
    })
  })

  it('of a wrong file ends with 1, prints nothing, and names each place on stderr', () => {
    const run = cast({ ...least(), fly: { mass_kg: 'light' }, mesh: 'finest' }, 'wrong.json')
    expect([run.stdout, run.status]).toEqual(['', 1])
    expect(run.stderr.trim().split('\n')).toEqual([
      expect.stringMatching(/wrong\.json: fly\.mass_kg: found "light"/),
      expect.stringMatching(/wrong\.json: fly\.dragArea_m2: found nothing/),
      expect.stringMatching(/wrong\.json: mesh: found "finest"/),
    ])
  })

  it.each([
    ['no JSON', () => cast('{"segments":', 'torn.json'), 'torn.json: '],
    ['no such file', () => command(join(folder, 'absent.json')), 'absent.json: ENOENT'],
    ['no file named', () => command(), 'npm run --silent cast -- case.json'],
    ['two files named', () => command('a.json', 'b.json'), 'Name one case file'],
  ])('of %s ends with 1 and says why', (_, go, words) => {
    const run = go()
    expect([run.stdout, run.status]).toEqual(['', 1])
    expect(run.stderr).toContain(words)
  })
})
