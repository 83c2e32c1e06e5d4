// @vitest-environment node
/**
 * Everything that can come from outside, spoiled at random from a seeded corpus: nothing may throw, and what is taken
 * must be written and read back the same. `npm test` runs a share; `npm run attack` runs all of it.
 */
import 'fake-indexeddb/auto'
import { deflateRawSync, inflateRawSync } from 'node:zlib'
import { IDBFactory } from 'fake-indexeddb'
import * as fc from 'fast-check'
import { createPinia, setActivePinia } from 'pinia'
import { afterEach, describe, expect, it, vi } from 'vitest'
import backupVersion1 from '../documents/backup-version1.json'
import version2 from '../storage/version2.json'
import {
  readBackup,
  readCastCases,
  readFormula,
  readImportText,
  readLink,
  readRecipe,
  writeBackup,
  writeFormula,
  writeLink,
  writeRecipe,
} from '../../src/documents'
import { KIND_IDS } from '../../src/documents/kind'
import { KINDS } from '../../src/documents/kinds'
import { readLessonText } from '../../src/documents/lesson'
import { clipboardRow, csvRow } from '../../src/documents/spreadsheet'
import { evaluate } from '../../src/engine/evaluate'
import { parseQuantity } from '../../src/engine/units'
import { pasteRows } from '../../src/features/bench/grid'
import { openStorage } from '../../src/storage'
import { restoreBackup } from '../../src/stores/backup'
import { startStores } from '../../src/stores/boot'
import { settingsFrom } from '../../src/stores/settingsFields'
import { soundLeader } from '../engine/build'
import { SHIPPED } from '../support/formulas'
import { spoiled, step } from './spoil'

/** A share of the whole attack, or all of it. */
const SHARE = process.env['ATTACK'] === 'all' ? 1 : 0.05
const runs = (all: number, seed: number) => ({ numRuns: Math.ceil(all * SHARE), seed })

const steps = fc.array(step, { minLength: 1, maxLength: 6 })
const text = fc.oneof(
  fc.string({ unit: 'binary', maxLength: 300 }),
  fc.string({ unit: fc.constantFrom(...'0123456789.,/ \tinftcmX#"\'-=+@\n'), maxLength: 200 }),
)
const formulas = SHIPPED.map((each) => JSON.parse(each.text) as unknown)
const lessons = Object.values(
  import.meta.glob<unknown>('../../formulas/lessons/*.json', { eager: true, import: 'default' }),
)

/** The text with a stretch cut out, doubled or overwritten. */
function cutUp(whole: string, [at, length, put]: readonly [number, number, string]): string {
  const from = at % (whole.length + 1)
  return whole.slice(0, from) + put + whole.slice(from + length)
}
const cut = fc.tuple(fc.nat(), fc.nat(40), fc.string({ maxLength: 6 }))

const deflate = {
  deflate: (bytes: Uint8Array) => Promise.resolve(new Uint8Array(deflateRawSync(bytes))),
  inflate: (bytes: Uint8Array, most: number) =>
    Promise.resolve(new Uint8Array(inflateRawSync(bytes, { maxOutputLength: most }))),
}

describe('files', () => {
  it('formulas: read or refused; what is read is computed without a throw', () => {
    let read = 0
    fc.assert(
      fc.property(fc.constantFrom(...formulas), steps, (file, how) => {
        const result = readFormula(spoiled(file, how))
        if (!result.ok) return
        read++
        expect(readFormula(writeFormula(result.leader))).toEqual(result)
        const { strength, profile } = evaluate(result.leader).pieces[0] ?? {}
        for (const figure of [strength?.wet.value, profile?.length_m])
          expect(figure ?? 0).toBeGreaterThanOrEqual(0)
      }),
      runs(4000, 1),
    )
    expect(read).toBeGreaterThan(0)
  })

  it('sets, lessons and cast cases: read or refused', () => {
    const cases = [
      {
        segments: [{ length_m: 2, diameter_m: 5e-4, density_kg_m3: 1140, modulus_Pa: 2e9 }],
        fly: { mass_kg: 1e-4, dragArea_m2: 1e-4 },
      },
    ]
    fc.assert(
      fc.property(
        fc.constantFrom<unknown>(...lessons, { formulas }, ...cases),
        steps,
        (file, how) => {
          const bad = spoiled(file, how)
          const json = JSON.stringify(bad) ?? 'null'
          expect(readImportText('a.json', json).leaders).toBeInstanceOf(Array)
          expect(readLessonText(json)).toHaveProperty('ok')
          expect(() => readCastCases(bad)).not.toThrow()
        },
      ),
      runs(2000, 2),
    )
  })

  it('everything kept: each kind reads what it has written, and refuses the rest in words', () => {
    const kept: unknown[] = [
      ...version2.shed.map(({ file }) => file),
      ...version2.formulas.map(({ file }) => file),
      ...lessons,
      ...Object.values(version2.settings.settings),
    ]
    let read = 0
    fc.assert(
      fc.property(fc.constantFrom(...kept), steps, (file, how) => {
        const bad = spoiled(file, how)
        for (const id of KIND_IDS) {
          const kind = KINDS[id] as (typeof KINDS)['formula']
          const result = kind.read(bad)
          if (result.ok) {
            read++
            expect(kind.read(kind.write(result.value))).toEqual(result)
          } else expect(result.problems.length).toBeGreaterThan(0)
        }
        expect(settingsFrom(bad).theme).toMatch(/auto|light|dark/)
      }),
      runs(2000, 3),
    )
    expect(read).toBeGreaterThan(0)
  })
})

describe('texts', () => {
  it('figures: what is taken is kept and read back the same', () => {
    const fields = [
      ['length', 'in'],
      ['length', 'cm'],
      ['diameter', 'in'],
      ['diameter', 'X'],
      ['force', 'lb'],
    ] as const
    let read = 0
    fc.assert(
      fc.property(text, fc.constantFrom(...fields), (typed, [dimension, unit]) => {
        const reading = parseQuantity(typed, dimension, unit)
        if (reading.status !== 'read' || dimension === 'force') return
        read++
        const [first, ...others] = soundLeader().segments
        const segment = { ...first!, [dimension]: reading.quantity }
        const back = readFormula(writeFormula({ ...soundLeader(), segments: [segment, ...others] }))
        // What could not be read again is refused as it is typed: see OpenLeader.
        if (back.ok) expect(back.leader.segments[0]?.[dimension].text).toBe(reading.quantity.text)
        else expect(reading.quantity.text.length).toBeGreaterThan(90)
      }),
      runs(6000, 4),
    )
    expect(read).toBeGreaterThan(0)
  })

  it('recipes and pasted rows: never thrown at, and never more than a leader holds', () => {
    const recipe = writeRecipe(soundLeader())
    fc.assert(
      fc.property(
        fc.oneof(
          text,
          cut.map((how) => cutUp(recipe, how)),
        ),
        (typed) => {
          expect(readRecipe(typed).leader?.segments.length ?? 0).toBeLessThanOrEqual(200)
          const pasted = pasteRows(
            soundLeader(),
            typed,
            { row: 0, column: 'part' },
            { diameter: 'in', length: 'in' },
          )
          expect(pasted.leader.segments.length).toBeGreaterThan(0)
        },
      ),
      runs(3000, 5),
    )
  })

  it('names and notes: no cell of a spreadsheet is a formula', () => {
    fc.assert(
      fc.property(text, (typed) => {
        const cell = csvRow([typed]).replace(/^"/, '')
        for (const made of [cell, clipboardRow([typed])]) expect(made).not.toMatch(/^[=+\-@\t\r\n]/)
      }),
      runs(3000, 6),
    )
  })
})

describe('links', () => {
  it('cut up, are opened or refused', async () => {
    const code = await writeLink([soundLeader()], deflate)
    await fc.assert(
      fc.asyncProperty(cut, async (how) => {
        expect(await readLink(cutUp(code, how), deflate)).toHaveProperty('ok')
      }),
      runs(3000, 7),
    )
  })
})

describe('backups', () => {
  afterEach(() => vi.unstubAllGlobals())

  it('cut up or spoiled: never thrown at', () => {
    const whole = JSON.stringify(backupVersion1)
    fc.assert(
      fc.property(
        fc.oneof(
          cut.map((how) => cutUp(whole, how)),
          steps.map((how) => JSON.stringify(spoiled(backupVersion1, how))),
        ),
        (file) => {
          expect(readBackup(file).problems).toBeInstanceOf(Array)
        },
      ),
      runs(1500, 8),
    )
  })

  it('spoiled and restored: what is said to be kept is there', async () => {
    const { content } = readBackup(JSON.stringify(backupVersion1)).backup!
    const whole = JSON.parse(writeBackup({ ...content, earlier: [] }, '')) as { content: object }
    await fc.assert(
      fc.asyncProperty(steps, async (how) => {
        vi.stubGlobal('indexedDB', new IDBFactory())
        const bad = { ...whole, content: spoiled(whole.content, how) }
        const { backup } = readBackup(JSON.stringify(bad))
        if (!backup) return
        const pinia = createPinia()
        setActivePinia(pinia)
        const storage = await openStorage()
        try {
          await startStores(pinia, Promise.resolve(storage))
          const { formulas: made, items } = await restoreBackup(backup)
          expect(await storage.list()).toHaveLength(made + items)
        } finally {
          await storage.close()
        }
      }),
      runs(400, 9),
    )
  })
})
