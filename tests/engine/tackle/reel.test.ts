// @vitest-environment node
import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import type { Spool } from '../../../src/engine/tackle'
import {
  backingFor,
  capacityVolume_m3,
  lineVolume_m3,
  longestRun_m,
  parseBacking_m,
  retrievePerTurn,
  spoolVolume_m3,
  woundDiameter_m,
} from '../../../src/engine/tackle'
import { lineOf } from '../build'

const SPOOL: Spool = { arbor_m: 0.03, width_m: 0.02, rim_m: 0.08, gap_m: 0.005 }
const BACKING_M = 0.5e-3

describe('a reel', () => {
  it('offers the volume between its arbor and the gap below its rim', () => {
    // By hand: pi/4 (70^2 - 30^2) mm2 x 20 mm = 62 832 mm3.
    expect(spoolVolume_m3(SPOOL) * 1e9).toBeCloseTo(62_832, 0)
  })

  it('a level line has the volume of a cylinder', () => {
    // 1.219 mm thick (850 kg/m3, 0.992 g/m), 90 ft long: by hand 32.02 cm3.
    expect(lineVolume_m3(lineOf('L5F')) * 1e6).toBeCloseTo(32.02, 1)
  })

  it('line and backing at their packing fill the spool and no more', () => {
    const line = lineOf('WF5F')
    const { value, low, high } = backingFor(SPOOL, line, BACKING_M)
    const strand = lineVolume_m3(line) + value * (Math.PI / 4) * BACKING_M ** 2
    // Between a square and a hexagonal packing, less some air: 0.65 to 0.85 of the volume.
    const share = strand / spoolVolume_m3(SPOOL)
    expect(share).toBeGreaterThan(0.65)
    expect(share).toBeLessThan(0.85)
    expect(low).toBeLessThan(value)
    expect(high).toBeGreaterThan(value)
  })

  it('a spool of one layer more by simulation of its turns holds what the volume says', () => {
    // Turns laid side by side, each layer on top of the last: a square packing, 0.785.
    let length = 0
    // Forty layers of a millimetre in diameter between 30 and 70 mm, forty turns in each.
    for (let layer = 0; layer < 40; layer++)
      length += 40 * Math.PI * (SPOOL.arbor_m + (2 * layer + 1) * BACKING_M)
    const byVolume = (spoolVolume_m3(SPOOL) * (Math.PI / 4)) / ((Math.PI / 4) * BACKING_M ** 2)
    expect(length / byVolume).toBeCloseTo(1, 2)
  })

  it('what a reel holds by its maker comes back for the same line and backing', () => {
    const line = lineOf('WF6F')
    const capacity = { line, backing_m: 90, backingDiameter_m: BACKING_M }
    expect(backingFor(capacity, line, BACKING_M).value).toBeCloseTo(90, 6)
    expect(capacityVolume_m3(capacity)).toBeGreaterThan(lineVolume_m3(line))
    // A thinner line leaves room for more, a thicker one for less; half the thickness takes four times as much.
    expect(backingFor(capacity, lineOf('WF5F'), BACKING_M).value).toBeGreaterThan(90)
    expect(backingFor(capacity, lineOf('WF8F'), BACKING_M).value).toBeLessThan(90)
    expect(backingFor(capacity, line, BACKING_M / 2).value).toBeCloseTo(360, 6)
  })

  it.each([
    ['80 m', 80],
    ['80', 80],
    ['100 yd', 91.44],
    ['100 yards', 91.44],
    ['72,5 m', 72.5],
    ['some', undefined],
    ['-3 m', undefined],
    ['5000 m', undefined],
  ])('backing of "%s" is %s m', (text, metres) => {
    // A yard is 0.9144 m: NIST SP 811, 2008.
    if (metres === undefined) expect(parseBacking_m(text)).toBeUndefined()
    else expect(parseBacking_m(text)).toBeCloseTo(metres, 9)
  })

  it('a turn takes in the girth of the winding', () => {
    const line = lineOf('WF5F')
    const backing = backingFor(SPOOL, line, BACKING_M).value
    const { full_m, lineOut_m, arbor_m } = retrievePerTurn(SPOOL, backing, BACKING_M, line)
    // Full to the gap: pi x 70 mm; bare: pi x 30 mm.
    expect(full_m).toBeCloseTo(Math.PI * 0.07, 6)
    expect(arbor_m).toBeCloseTo(Math.PI * 0.03, 9)
    expect(lineOut_m).toBeGreaterThan(arbor_m)
    expect(lineOut_m).toBeLessThan(full_m)
  })

  it('the winding grows with its volume and stops at the rim', () => {
    fc.assert(
      fc.property(fc.double({ min: 0, max: 2e-4, noNaN: true }), (volume) => {
        const d = woundDiameter_m(SPOOL, volume)
        const filled = (Math.PI / 4) * (d ** 2 - SPOOL.arbor_m ** 2) * SPOOL.width_m
        return d === SPOOL.rim_m ? filled <= volume : Math.abs(filled - volume) < 1e-12
      }),
    )
  })

  it('a fish can run line and backing and leader', () => {
    // 90 ft of line by hand.
    expect(longestRun_m(lineOf('WF5F'), 80, 3)).toBeCloseTo(27.432 + 83, 9)
  })
})
