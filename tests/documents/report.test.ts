// @vitest-environment node
import { spawnSync } from 'node:child_process'
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { afterAll, afterEach, describe, expect, it, vi } from 'vitest'
import { main } from '../../src/cli/report.js'
import { FORMULAS_FOLDER, SHIPPED, segment, smallest } from '../support/formulas'

const root = fileURLToPath(new URL('../../', import.meta.url))
const folder = mkdtempSync(join(tmpdir(), 'report-'))
afterAll(() => rmSync(folder, { recursive: true }))
afterEach(() => vi.restoreAllMocks())

function saved(name: string, content: unknown): string {
  const path = join(folder, name)
  writeFileSync(path, typeof content === 'string' ? content : JSON.stringify(content))
  return path
}

const PATHS = SHIPPED.map(({ file }) => `${FORMULAS_FOLDER}${file}`)
const [GOOD = '', OTHER = ''] = PATHS
const BAD = saved('bad.json', { ...smallest(), segments: [segment({ length: 12 })] })
const NO_JSON = saved('no-json.json', '{"format": ')
const PLAIN = saved('plain.json', smallest())
const ABSENT = join(folder, 'absent.json')

type Report = Readonly<Record<string, unknown>>

/** Runs the command in this process with both of its streams caught. */
function report(...paths: readonly string[]) {
  const caught = { out: '', err: '' }
  vi.spyOn(process.stdout, 'write').mockImplementation((text) =>
    Boolean((caught.out += String(text))),
  )
  vi.spyOn(process.stderr, 'write').mockImplementation((text) =>
    Boolean((caught.err += String(text))),
  )
  const code = main(paths)
  vi.restoreAllMocks()
  return { code, ...caught }
}

function reports(...paths: readonly string[]): Report[] {
  return JSON.parse(report(...paths).out) as Report[]
}

describe('report', () => {
  it('of right files ends with 0, says nothing else, and prints one entry a file in their order', () => {
    const { code, out, err } = report(...PATHS)
    expect([code, err]).toEqual([0, ''])
    expect((JSON.parse(out) as Report[]).map(({ file }) => file)).toEqual(PATHS)
  })

  it('of a bad file among others ends with 1 and reports the others all the same', () => {
    const { code, out, err } = report(GOOD, BAD, NO_JSON, ABSENT, OTHER)
    expect(code).toBe(1)
    expect((JSON.parse(out) as Report[]).map(({ file }) => file)).toEqual([GOOD, OTHER])
    expect(err.trimEnd().split('\n')).toEqual([
      expect.stringContaining(`${BAD}: segments[0].length: found 12; would be right: a text with`),
      expect.stringContaining(`${NO_JSON}: file: found "{\\"format\\": "; would be right: JSON (`),
      expect.stringContaining(`${ABSENT}: ENOENT`),
    ])
  })

  it('of bad files only prints an empty list', () => {
    expect(report(BAD)).toMatchObject({ code: 1, out: '[]\n' })
  })

  it('of no file ends with 1 and says how to ask', () => {
    const { code, out, err } = report()
    expect([code, out]).toEqual([1, ''])
    expect(err).toContain('npm run --silent report -- formulas/*.json')
  })

  it('says what was not checked of a leader without outfit', () => {
    const [plain] = reports(PLAIN)
    expect(plain).toMatchObject({ line: null, statedTotal_m: null })
    expect(plain?.['turnover']).toEqual({ notChecked: 'no-fly' })
    expect(plain?.['notChecked']).toContainEqual({ id: 'butt-and-line', because: 'no-line' })
  })

  it('flies the delivery of each formula where that is asked, and says where there is none', () => {
    const [plain, lobbed] = reports(
      '--delivery',
      PLAIN,
      `${FORMULAS_FOLDER}middle-sallow-tight-line-6m-5x.json`,
    )
    expect(plain?.['delivery']).toEqual({ notChecked: 'no-fly' })
    expect(lobbed?.['delivery']).toEqual({ notChecked: 'lobbed' })
    const [streamer] = reports(`${FORMULAS_FOLDER}lower-sallow-streamer-7ft-1x.json`, '--delivery')
    // Short, stout and heavy: common practice has an ordinary caster throw it with ease.
    expect(streamer?.['delivery']).toMatchObject({
      state: 'easily',
      least: expect.any(Object) as object,
    })
    expect(reports(PLAIN)[0]).not.toHaveProperty('delivery')
  })

  it('gives a total that its segments add up to, and cut lengths that their parts add up to', () => {
    for (const entry of reports(...PATHS)) {
      const segments = entry['segments'] as Readonly<Record<string, number>>[]
      const total = segments.reduce((sum, s) => sum + (s['length_m'] ?? NaN), 0)
      expect(entry['totalLength_m']).toBeCloseTo(total, 9)
      for (const { cutLength_m, length_m, inKnots_m, trimmed_m } of segments) {
        expect(cutLength_m).toBeCloseTo(Number(length_m) + Number(inKnots_m) + Number(trimmed_m), 9)
      }
    }
  })

  it('holds finite numbers only: JSON would turn others into null', () => {
    for (const { segments, joints, ...entry } of reports(...PATHS)) {
      expect(JSON.stringify([segments, entry['shares'], entry['turnover']])).not.toContain('null')
      expect(JSON.stringify(joints)).toContain('breakingStrengthWet_N')
    }
  })
})

/** Names that scripts rely on. One may be added; none may go or change. */
const NAMES: Readonly<Record<string, readonly string[]>> = {
  entry: `file name purpose totalLength_m statedTotal_m mass_kg meanDensity_kg_m3 segments joints
    shares weakest line turnover findings passed notChecked`.split(/\s+/),
  segments: `part material diameter_m diameterAsTyped diameterIsEstimate length_m lengthAsTyped
    cutLength_m inKnots_m trimmed_m mass_kg linearDensity_kg_m bendingStiffness_N_m2
    bendingStiffnessWet_N_m2 breakingStrength_N breakingStrengthWet_N breakingStrengthSource
    sinks`.split(/\s+/),
  joints: `place knot distance_m stepDiameter_m diameterRatio massRatio stiffnessRatio taperRate
    breakingStrength_N breakingStrengthWet_N`.split(/\s+/),
  shares: ['butt', 'mid', 'tippet'],
  weakest: ['kind', 'index', 'breakingStrength_N', 'breakingStrengthWet_N'],
  turnover: [
    'caster',
    'verdict',
    'neededSpeed_m_s',
    'flySpeed_m_s',
    'lossShares',
    'extension',
    'estimated',
  ],
  findings: ['id', 'variant', 'severity', 'place', 'measured', 'limit', 'source'],
}

/** The names in every entry, or in every row of a list. */
function namesIn(entries: readonly Report[], key: string): string[][] {
  const values = key === 'entry' ? entries : entries.map((entry) => entry[key])
  return values.flat().map((value) => Object.keys(value as object))
}

describe('field names of the report', () => {
  it.each(Object.entries(NAMES))('%s', (key, expected) => {
    const found = namesIn(reports(...PATHS), key)
    expect(found.length).toBeGreaterThan(0)
    for (const names of found) expect(names).toEqual(expect.arrayContaining([...expected]))
  })
})

describe('the command itself', () => {
  it('reports the files named in the folder it was called from, as pure JSON, and ends with 1 for a bad one', () => {
    const [{ file = '' } = {}] = SHIPPED
    const run = spawnSync(process.execPath, [join(root, 'src/cli/report.mjs'), file, BAD], {
      cwd: root,
      encoding: 'utf8',
      // As npm starts it: in the project, with the caller's folder named.
      env: { ...process.env, npm_lifecycle_event: 'report', INIT_CWD: FORMULAS_FOLDER },
    })
    expect(JSON.parse(run.stdout)).toEqual([expect.objectContaining({ file })])
    expect(run.stderr).toContain('segments[0].length: found 12')
    expect(run.status).toBe(1)
  })

  it('ends with 0 where all is well', () => {
    const run = spawnSync(process.execPath, ['src/cli/report.mjs', GOOD, OTHER], {
      cwd: root,
      encoding: 'utf8',
      env: { ...process.env, npm_lifecycle_event: '' },
    })
    expect([run.status, run.stderr]).toEqual([0, ''])
    expect(JSON.parse(run.stdout)).toHaveLength(2)
  })
})
