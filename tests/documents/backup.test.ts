// @vitest-environment node
import { readFileSync } from 'node:fs'
import * as fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import type { InventoryItem } from '../../src/documents'
import {
  readBackup,
  readInventoryItem,
  writeBackup,
  writeCsv,
  writeInventoryItem,
} from '../../src/documents'
import { beginBatch, EMPTY_INVENTORY, finish, putSpool, setCut } from '../../src/engine/tying'
import { q, size } from '../engine/build'
import { shelf, simple } from '../engine/tying/shelf'
import { SHIPPED } from '../support/formulas'

const shed = () => {
  const [butt, ...others] = shelf()
  const full = {
    ...butt!,
    readings: [size('.0201 in'), size('.0199 in')],
    pullTests: [q('21 lb', 'force')],
    price: 4.5,
    bought: '2025-03-01',
    label: 'hard',
    note: 'by the window',
  }
  const orders = [{ formula: 'f', leader: simple, count: 2 }]
  const on = [full, ...others].reduce(putSpool, EMPTY_INVENTORY)
  const begun = beginBatch(on, {
    id: 'b',
    name: 'Evening',
    begun: '2026-11-25',
    orders,
    spoilage: 0.05,
  })
  const cut = [0, 1, 2].reduce(
    (made, segment) => setCut(made, 'b', { order: 0, copy: 0, segment }, true),
    begun,
  )
  return finish(
    cut,
    'b',
    { order: 0, copy: 0 },
    { stockId: 's', wallet: 'Boat 1', tied: '2026-11-25' },
  )
}

const itemsOf = ({ spools, batches, stock }: ReturnType<typeof shed>): InventoryItem[] => [
  ...spools.map((value) => ({ kind: 'spool', value }) as const),
  ...batches.map((value) => ({ kind: 'batch', value }) as const),
  ...stock.map((value) => ({ kind: 'stock', value }) as const),
]

const itemOf = (item: InventoryItem) => ({
  kind: item.kind,
  id: item.value.id,
  savedAt: '',
  file: writeInventoryItem(item),
})

const formulas = SHIPPED.map(({ file, text }) => ({
  kind: 'formula',
  id: file,
  savedAt: '2026-11-25T18:00:00.000Z',
  file: JSON.parse(text) as unknown,
}))
const content = {
  items: [...formulas, ...itemsOf(shed()).map(itemOf)],
  earlier: formulas.slice(0, 2),
  settings: { theme: 'dark' },
}
const MADE = '2026-11-25T19:00:00.000Z'
const text = writeBackup(content, MADE)

describe('spools, batches and stock', () => {
  it.each(itemsOf(shed()).map((item) => [item.kind, item] as const))(
    '%s reads back as it was',
    (_, item) => {
      const json = JSON.parse(JSON.stringify(writeInventoryItem(item))) as unknown
      expect(readInventoryItem(json)).toEqual({ ok: true, item })
    },
  )

  it.each([
    ['no kind', {}, 'kind'],
    ['a spool without a size', { kind: 'spool', version: 1, id: 'a' }, 'size'],
    ['one of tomorrow', { ...writeInventoryItem(itemsOf(shed())[0]!), version: 2 }, 'version'],
    ['a length without a unit', { ...writeInventoryItem(itemsOf(shed())[0]!), left: '20' }, 'left'],
  ])('%s is refused with its path', (_, json, path) => {
    const read = readInventoryItem(json)
    expect(read.ok ? [] : read.problems.map((p) => p.path)).toContain(path)
  })
})

describe('a backup', () => {
  it('reads back whole', () => {
    const { backup, problems } = readBackup(text)
    expect(problems).toEqual([])
    expect(backup?.madeAt).toBe(MADE)
    expect(backup?.content).toEqual(JSON.parse(JSON.stringify(content)))
  })

  it('cut off anywhere is refused', () => {
    for (let end = 0; end < text.trimEnd().length; end += 997)
      expect(readBackup(text.slice(0, end))).toMatchObject({ backup: null })
  })

  it('of a newer version is refused by that name', () => {
    const newer = text.replace('"version": 2,\n "madeAt"', '"version": 3,\n "madeAt"')
    expect(newer).not.toBe(text)
    expect(readBackup(newer).problems[0]).toMatchObject({ path: 'version', found: '3' })
    expect(readBackup(newer).problems[0]?.expected).toContain('a newer Taperwright')
  })

  it('of 50 MB is read, and beyond that refused', () => {
    const big = { ...content, settings: { padding: 'x'.repeat(49_000_000) } }
    expect(readBackup(writeBackup(big, MADE)).problems).toEqual([])
    const problem = readBackup(' '.repeat(50_000_001)).problems[0]
    expect(problem).toMatchObject({ path: 'file', found: '51 MB' })
  })

  it('changed by a single letter is told, and the rest can be had', () => {
    const changed = text.replace('Boat 1', 'Boat 2')
    const { backup, problems } = readBackup(changed)
    expect(problems).toMatchObject([{ path: 'checksum' }])
    expect(backup?.content.items).toHaveLength(formulas.length + 5)
  })

  it('keeps a formula that does not read, and says what is wrong with it', () => {
    const odd = {
      kind: 'formula',
      id: 'x',
      savedAt: '',
      file: { format: 'taperwright-leader', version: 99 },
    }
    const { backup, problems } = readBackup(writeBackup({ ...content, items: [odd] }, MADE))
    expect(problems[0]?.path).toBe('content.items.formula[0].file.version')
    expect(backup?.content.items).toEqual([odd])
  })

  it('of version 1 gives everything that was in it, each by its kind', () => {
    const old = readFileSync('tests/documents/backup-version1.json', 'utf8')
    const { content: was } = JSON.parse(old) as { content: Record<string, unknown[]> }
    const { backup, problems } = readBackup(old)
    const { items = [], earlier = [], settings } = backup?.content ?? {}
    const ofKind = (kind: string) => items.filter((item) => item.kind === kind)
    expect(ofKind('formula').map(({ kind: _, ...rest }) => rest)).toEqual(was['formulas'])
    expect(earlier.map(({ kind: _, ...rest }) => rest)).toEqual(was['versions'])
    const shedKinds = ['spool', 'batch', 'stock', 'rod']
    expect(shedKinds.flatMap((kind) => ofKind(kind).map(({ file }) => file))).toHaveLength(
      was['shed']!.length,
    )
    const among = ['lesson', 'fly', 'brief', 'reel', 'inUse'].map((kind) => ofKind(kind).length)
    expect(among).toEqual([2, 2, 1, 1, 1])
    expect(settings).toMatchObject({ theme: 'dark', limits: { rodsHigh: 3 } })
    expect(settings).not.toHaveProperty('lessons')
    // A style of fly that no version has known is told, and kept as it lies.
    expect(problems.map(({ path }) => path)).toEqual(['content.settings.fly'])
  })

  it('spoiled at random, 1,000 times over, is read or refused and throws nothing', () => {
    const cut = fc.record({ at: fc.nat(), span: fc.nat(30), put: fc.string({ maxLength: 4 }) })
    let whole = 0
    fc.assert(
      fc.property(cut, ({ at, span, put }) => {
        const from = at % text.length
        const { backup, problems } = readBackup(text.slice(0, from) + put + text.slice(from + span))
        if (problems.length === 0) whole++
        if (!backup) expect(problems).not.toEqual([])
        for (const problem of problems) expect(Object.values(problem)).not.toContain('')
      }),
      { numRuns: 1000, seed: 21 },
    )
    // Only spaces between fields can be lost without notice.
    expect(whole).toBeLessThan(300)
  })
})

describe('a table for spreadsheets', () => {
  // RFC 4180: lines end in CRLF, a field with a comma or a quote stands in quotes, a quote is doubled.
  it('follows RFC 4180 and starts no formula', () => {
    const odd = {
      ...simple,
      segments: simple.segments.map((s, i) => (i ? s : { ...s, note: '=1+1, "soft"' })),
    }
    const lines = writeCsv(odd).split('\r\n')
    expect(lines).toHaveLength(5)
    expect(lines[1]).toContain('" =1+1, ""soft"""')
    expect(lines[1]?.startsWith('1,butt,Supple nylon,.020 in,0.508,40 in,101.6,')).toBe(true)
  })
})
