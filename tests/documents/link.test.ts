// @vitest-environment node
import { deflateRawSync, inflateRawSync } from 'node:zlib'
import * as fc from 'fast-check'
import jsQR from 'jsqr'
import { encode } from 'uqr'
import { describe, expect, it } from 'vitest'
import type { Leader } from '../../src/engine/leader'
import {
  forLabel,
  LONGEST_CODE,
  readFormula,
  readLink,
  writeFormula,
  writeLink,
} from '../../src/documents'
import { crc32 } from '../../src/documents/checksum'
import { packJson, unpackJson } from '../../src/documents/packed'
import { pageDeflate } from '../../src/stores/deflate'
import { formula } from '../support/arbitrary-formula'
import { SHIPPED } from '../support/formulas'
import { leaderOf } from '../engine/build'

const shipped = SHIPPED.map(({ text }) => {
  const read = readFormula(JSON.parse(text))
  if (!read.ok) throw new Error('a shipped formula must read')
  return read.leader
})
const [first] = shipped as [Leader, ...Leader[]]

/** Twelve pieces that differ in all they can, under a long name. */
const twelve = leaderOf(
  [36, 18, 14, 11, 9, 8, 7.5, 7, 6.5, 6, 6, 27].map((inches, i) => ({
    length: `${inches} in`,
    diameter: i === 11 ? '6X' : `${(0.0215 - 0.00137 * i).toFixed(4).replace(/^0/, '')} in`,
    part: i < 3 ? ('butt' as const) : i < 11 ? ('mid-section' as const) : ('tippet' as const),
    material: i < 5 ? 'nylon-stiff' : i === 11 ? 'fluorocarbon' : 'copolymer',
    knot:
      i === 11 ? ('surgeons-triple' as const) : i === 0 ? ('nail' as const) : ('blood' as const),
  })),
  {
    name: 'Upper Sallow flats 13 ft 6X, twelve pieces',
    tip: { joint: { knot: 'improved-clinch' }, fly: { fly: { style: 'parachute', hook: 16 } } },
  },
)

const same = (leader: Leader) => {
  const { $schema: _, ...file } = writeFormula(leader)
  return file
}

describe('CRC-32', () => {
  // The check value of CRC-32/ISO-HDLC for "123456789" (catalogue of parametrised CRC algorithms; ISO 3309).
  it('has the published check value', () => {
    expect(crc32(new TextEncoder().encode('123456789')).toString(16)).toBe('cbf43926')
  })
})

describe('a link', () => {
  it.each(shipped.map((leader) => [leader.name, leader] as const))(
    'carries %s whole',
    async (_, leader) => {
      const read = await readLink(await writeLink([leader], pageDeflate), pageDeflate)
      expect(read).toMatchObject({ ok: true, problems: [] })
      expect(read.ok && read.leaders.map(same)).toEqual([same(leader)])
    },
  )

  it('carries any formula, with fields that nobody knows', async () => {
    await fc.assert(
      fc.asyncProperty(formula, async (file) => {
        const result = readFormula({ ...file, ofTomorrow: { deep: [1, null, 'ü😀'] } })
        if (!result.ok) return
        const read = await readLink(await writeLink([result.leader], pageDeflate), pageDeflate)
        expect(read.ok && read.leaders.map(same)).toEqual([same(result.leader)])
      }),
      { numRuns: 200, seed: 3 },
    )
  })

  it('carries a set', async () => {
    const code = await writeLink(shipped, pageDeflate)
    const read = await readLink(code, pageDeflate)
    expect(read.ok && read.leaders.map(({ name }) => name)).toEqual(shipped.map(({ name }) => name))
  })

  it('is RFC 4648 base64url of version, packing, checksum and a deflate stream that zlib reads', async () => {
    const code = await writeLink([first], pageDeflate)
    expect(code).toMatch(/^[\w-]+$/)
    const bytes = Buffer.from(code, 'base64url')
    expect([bytes[0], bytes[1]]).toEqual([1, 1])
    expect(unpackJson(inflateRawSync(bytes.subarray(6)))).toHaveLength(1)
  })

  it('of twelve pieces fits a QR code of 61 modules, which a reader reads back', async () => {
    const code = await writeLink([forLabel(twelve)], pageDeflate)
    const link = `https://leaders.example.org/app/#s/${code}`
    const { size, version, data } = encode(link, { ecc: 'L' })
    expect(code.length).toBeLessThan(300)
    // With its border 30 mm wide it has modules of 0.43 mm; phones read 0.4 mm at arm's length (common practice).
    expect(version).toBeLessThanOrEqual(11)
    const scale = 4
    const side = (size + 8) * scale
    const pixels = new Uint8ClampedArray(side * side * 4).fill(255)
    for (let y = 0; y < size * scale; y++)
      for (let x = 0; x < size * scale; x++)
        if (data[Math.floor(y / scale)]?.[Math.floor(x / scale)]) {
          const at = ((y + 4 * scale) * side + x + 4 * scale) * 4
          pixels.fill(0, at, at + 3)
        }
    expect(jsQR(pixels, side, side)?.data).toBe(link)
  })
})

describe('a packing', () => {
  it('is unpacked to the same JSON', () => {
    fc.assert(
      fc.property(fc.jsonValue({ maxDepth: 6 }), (value) => {
        const plain = JSON.parse(JSON.stringify(value)) as unknown
        expect(JSON.stringify(unpackJson(packJson(plain)))).toBeDefined()
        expect(unpackJson(packJson(plain))).toEqual(plain)
      }),
      { numRuns: 500, seed: 4 },
    )
  })
})

/** Where what is stored would be touched, were there anything that could. */
async function expectReadOrRefused(code: string): Promise<boolean> {
  const read = await readLink(code, pageDeflate)
  if (read.ok) {
    for (const leader of read.leaders) expect(readFormula(writeFormula(leader)).ok).toBe(true)
    return true
  }
  expect(read.problems.length).toBeGreaterThan(0)
  for (const { path, found, expected } of read.problems) {
    expect(path).not.toBe('')
    expect(found).not.toBe('')
    expect(expected).not.toMatch(/^$|undefined|\[object/)
  }
  return false
}

/** A link with bytes of ours behind a checksum that fits, as someone with bad intentions would make it. */
function forged(body: Uint8Array, packing = 1, version = 1): string {
  const crc = Buffer.alloc(4)
  crc.writeUInt32BE(crc32([packing, ...body]))
  return Buffer.concat([Buffer.from([version, packing]), crc, body]).toString('base64url')
}

describe('a link that is not what it was', () => {
  it('is refused with a reason, 3,000 times over: cut, doubled, changed', async () => {
    const codes = await Promise.all([...shipped, twelve].map((l) => writeLink([l], pageDeflate)))
    const spoil = fc.record({
      code: fc.constantFrom(...codes),
      at: fc.nat(),
      span: fc.nat(40),
      put: fc.string({ maxLength: 4 }),
      cut: fc.boolean(),
    })
    let refused = 0
    await fc.assert(
      fc.asyncProperty(spoil, async ({ code, at, span, put, cut }) => {
        const from = at % code.length
        const end = cut ? code.length : Math.min(code.length, from + span)
        const changed = code.slice(0, from) + put + code.slice(end)
        if (!(await expectReadOrRefused(changed))) refused++
      }),
      { numRuns: 3000, seed: 11 },
    )
    expect(refused).toBeGreaterThan(2500)
  })

  it('is read or refused, 2,000 times over, where its checksum fits: forged content', async () => {
    const byte = fc.record({ at: fc.nat(), value: fc.nat(255) })
    const packed = shipped.map((leader) => packJson([same(leader)]))
    const forge = fc.record({
      bytes: fc.constantFrom(...packed),
      changes: fc.array(byte, { minLength: 1, maxLength: 6 }),
      packing: fc.constantFrom(0, 1),
    })
    await fc.assert(
      fc.asyncProperty(forge, async ({ bytes, changes, packing }) => {
        const copy = Uint8Array.from(bytes)
        for (const { at, value } of changes) copy[at % copy.length] = value
        await expectReadOrRefused(forged(packing ? deflateRawSync(copy) : copy, packing))
      }),
      { numRuns: 2000, seed: 12 },
    )
  })

  it.each<[string, () => string]>([
    ['nothing', () => ''],
    ['not base64url', () => 'AQE%20%3Cscript%3E'],
    ['of a version to come', () => forged(packJson([]), 0, 9)],
    ['too long', () => 'A'.repeat(LONGEST_CODE + 1)],
    ['of no formula', () => forged(packJson([]), 0)],
    ['of something else', () => forged(packJson({ a: 1 }), 0)],
    ['no deflate stream', () => forged(Uint8Array.from([255, 254, 253]))],
    // 60 MB of zeros in 60 kB: what is called a bomb.
    ['a bomb', () => forged(deflateRawSync(Buffer.alloc(60_000_000)))],
    ['a list that says it is endless', () => forged(Uint8Array.from([4, 255, 255, 255, 7]), 0)],
    ['a table of many empty rows', () => forged(Uint8Array.from([6, 255, 255, 255, 7, 0]), 0)],
    [
      'nested without end',
      () =>
        forged(
          new Uint8Array(5000).map((_, i) => (i % 2 ? 1 : 4)),
          0,
        ),
    ],
  ])('%s is refused', async (_, code) => {
    expect(await expectReadOrRefused(code())).toBe(false)
  })

  it('cannot reach the prototype of anything', async () => {
    const file = JSON.parse(JSON.stringify(same(first))) as Record<string, unknown>
    Object.defineProperty(file, '__proto__', { value: { wet: true }, enumerable: true })
    await expectReadOrRefused(forged(packJson([file]), 0))
    expect(({} as { wet?: boolean }).wet).toBeUndefined()
  })
})
