// @vitest-environment node
import fc from 'fast-check'
import { convert } from 'convert'
import { describe, expect, it } from 'vitest'
import type { Dimension, Reading, Unit } from '../../src/engine/units'
import {
  ACCEPTED,
  ACCEPTS,
  FOOT_M,
  GRAIN_KG,
  INCH_M,
  POUND_FORCE_N,
  POUND_KG,
  diameterOfGutFifths,
  diameterOfX,
  formatSi,
  formatX,
  parseQuantity,
  parseWithUnit,
  quantityOf,
  xOfDiameter,
} from '../../src/engine/units'

const UNITS: Record<Dimension, readonly Unit[]> = {
  diameter: ['in', 'thou', 'mm', 'um', 'X'],
  length: ['in', 'ft', 'ft-in', 'mm', 'cm', 'm'],
  'spool-length': ['yd', 'ft', 'm'],
  force: ['lb', 'kg', 'N'],
  mass: ['mg', 'g', 'kg', 'lb', 'oz', 'gr'],
}

/** Half of the last place each unit is written to, SI: the most that writing a figure may move it. */
const HALF_PLACE: Record<Dimension, Partial<Record<Unit, number>>> = {
  diameter: { in: 1.27e-6, thou: 1.27e-6, mm: 5e-7, um: 5e-7, X: 1.27e-6 },
  length: { in: 1.27e-3, ft: 1.524e-3, 'ft-in': 1.27e-3, mm: 5e-4, cm: 5e-4, m: 5e-4 },
  'spool-length': { yd: 0.04572, ft: 0.01524, m: 0.005 },
  force: { lb: 0.05 * 4.4482216152605, kg: 0.005 * 9.80665, N: 0.05 },
  mass: { mg: 5e-7, g: 5e-7, kg: 5e-3, lb: 0.0226796185, oz: 1.4174761563e-3, gr: 3.2399455e-6 },
}

const CASES = (Object.keys(UNITS) as Dimension[]).flatMap((dimension) =>
  UNITS[dimension].map((unit) => [dimension, unit] as const),
)

function valueOf(reading: Reading): number {
  if (reading.status !== 'read') throw new Error(`not read: ${JSON.stringify(reading)}`)
  return reading.quantity.si
}

function choicesOf(reading: Reading) {
  if (reading.status !== 'ask') throw new Error(`not asked: ${JSON.stringify(reading)}`)
  return reading.choices
}

describe('conversions', () => {
  // B. N. Taylor & A. Thompson, NIST Special Publication 811, 2008, appendix B: exact by definition.
  it.each([
    ['inch', INCH_M, 0.0254],
    ['foot', FOOT_M, 0.3048],
    ['pound', POUND_KG, 0.45359237],
    ['grain', GRAIN_KG, 64.79891e-6],
    ['pound-force', POUND_FORCE_N, 4.4482216152605],
  ])('the %s is the one of NIST SP 811', (_, ours, published) => {
    expect(ours).toBe(published)
  })

  // The general-purpose library `convert` as an oracle that knows nothing of this code.
  it.each([
    ['7.5 ft', 'length', convert(7.5, 'foot').to('m')],
    ['36 in', 'length', convert(36, 'inch').to('m')],
    ['0.006 in', 'diameter', convert(0.006, 'inch').to('m')],
    ['152 um', 'diameter', convert(152, 'micrometer').to('m')],
    ['30 cm', 'length', convert(30, 'cm').to('m')],
    ['3 lb', 'mass', convert(3, 'pound').to('kg')],
    ['5 oz', 'mass', convert(5, 'ounce').to('kg')],
    ['140 gr', 'mass', convert(140, 'grain').to('kg')],
    ['30 mg', 'mass', convert(30, 'mg').to('kg')],
    ['30 yd', 'spool-length', convert(30, 'yard').to('m')],
  ] as const)('%s agrees with the library convert', (text, dimension, expected) => {
    // 1e-11: readings are rounded to twelve figures, so that equal figures compare equal.
    expect(valueOf(parseWithUnit(text, dimension)) / expected).toBeCloseTo(1, 11)
  })

  it('reads a strength in kg as the weight of that mass at standard gravity', () => {
    // NIST SP 811, 2008: kilogram-force 9.80665 N.
    expect(valueOf(parseWithUnit('1.8 kg', 'force'))).toBeCloseTo(1.8 * 9.80665, 10)
  })
})

describe('X sizes', () => {
  // Rule of eleven, thousandths = 11 - X (common practice); mm are exact, 25.4 to the inch.
  const TABLE = [
    [0, 0.011, 0.279],
    [1, 0.01, 0.254],
    [2, 0.009, 0.229],
    [3, 0.008, 0.203],
    [4, 0.007, 0.178],
    [5, 0.006, 0.152],
    [6, 0.005, 0.127],
    [7, 0.004, 0.102],
    [8, 0.003, 0.076],
  ] as const

  it.each(TABLE)('%iX is %f in and %f mm', (x, inch, mm) => {
    const si = valueOf(parseQuantity(`${x}X`, 'diameter', 'mm'))
    expect(si / 0.0254).toBeCloseTo(inch, 9)
    // Half of the last place of the table's millimetres.
    expect(Math.abs(si * 1000 - mm)).toBeLessThanOrEqual(0.0005)
    expect(formatX(si)).toBe(`${x}X`)
    expect(xOfDiameter(si)).toBeCloseTo(x, 9)
  })

  it('takes half sizes', () => {
    expect(diameterOfX(5.5)).toBeCloseTo(0.0055 * 0.0254, 12)
  })

  // Gut sizes above 0X: n/5 = 21 - n thousandths (from memory).
  it.each([
    ['0/5', 0.021],
    ['1/5', 0.02],
    ['5/5', 0.016],
    ['9/5', 0.012],
  ])('reads the gut size %s', (text, inch) => {
    const si = valueOf(parseQuantity(text, 'diameter', 'in'))
    expect(si / 0.0254).toBeCloseTo(inch, 9)
    expect(si).toBe(diameterOfGutFifths(Number(text[0])))
  })

  it.each(['X1', 'X2', 'x 3', 'X4'])('asks what %s means, since tables disagree', (text) => {
    const n = Number(text.at(-1))
    const sizes = choicesOf(parseQuantity(text, 'diameter', 'in')).map(
      (c) => c.quantity.si / 2.54e-5,
    )
    // Either nX or, in other tables, 11 + n thousandths (common practice).
    expect(sizes[0]).toBeCloseTo(11 - n, 9)
    expect(sizes[1]).toBeCloseTo(11 + n, 9)
  })

  it.each(['9X', '12X', '-1X'])('refuses %s and says what is accepted', (text) => {
    expect(parseQuantity(text, 'diameter', 'X')).toMatchObject({
      status: 'refused',
      accepted: ACCEPTS.diameter,
    })
  })
})

describe('what people write', () => {
  // Expected values are arithmetic on the definitions of NIST SP 811, 2008, and the rule of eleven.
  it.each([
    ['5X', 'diameter', 0.006 * 0.0254],
    ['5.5x', 'diameter', 0.0055 * 0.0254],
    ['0.006"', 'diameter', 0.006 * 0.0254],
    ['.006 in', 'diameter', 0.006 * 0.0254],
    ['0.006 inches', 'diameter', 0.006 * 0.0254],
    ['6 thou', 'diameter', 0.006 * 0.0254],
    ['6 mil', 'diameter', 0.006 * 0.0254],
    ['0,15 mm', 'diameter', 0.15e-3],
    ['.15mm', 'diameter', 0.15e-3],
    ['150 µm', 'diameter', 0.15e-3],
    ['150 μm', 'diameter', 0.15e-3],
    [`7' 6"`, 'length', 90 * 0.0254],
    [`7'6`, 'length', 90 * 0.0254],
    ['7′ 6″', 'length', 90 * 0.0254],
    ['7’ 6”', 'length', 90 * 0.0254],
    [`7' 6''`, 'length', 90 * 0.0254],
    ['7 ft 6 in', 'length', 90 * 0.0254],
    ['7 feet, 6 inches', 'length', 90 * 0.0254],
    ['7 1/2 ft', 'length', 90 * 0.0254],
    ['7½ ft', 'length', 90 * 0.0254],
    ['7 1⁄2 ft', 'length', 90 * 0.0254],
    [`7' 6½"`, 'length', 90.5 * 0.0254],
    ['2¼"', 'length', 2.25 * 0.0254],
    ['⅜ in', 'length', 0.375 * 0.0254],
    ['30 cm', 'length', 0.3],
    ['1.2m', 'length', 1.2],
    ['1,2 m', 'length', 1.2],
    ['1,200 mm', 'length', 1.2],
    ['3 lb 4 oz', 'mass', 3.25 * 0.45359237],
    ['4 lb', 'force', 4 * 4.4482216152605],
  ] as const)('reads %s as a %s', (text, dimension, expected) => {
    const reading = parseWithUnit(text, dimension)
    // Twelve figures: readings are rounded to that many.
    expect(valueOf(reading) / expected).toBeCloseTo(1, 10)
    expect(reading).toMatchObject({ quantity: { text } })
  })

  it.each([
    ['.006', 'in', 0.006 * 0.0254],
    ['.15', 'mm', 0.15e-3],
    ['0,15', 'mm', 0.15e-3],
    ['6', 'thou', 0.006 * 0.0254],
    ['6', 'X', 0.005 * 0.0254],
  ] as const)('gives a bare %s the unit of its field, %s', (text, unit, expected) => {
    const reading = parseQuantity(text, 'diameter', unit)
    expect(valueOf(reading)).toBeCloseTo(expected, 12)
    expect(reading).toMatchObject({ quantity: { bare: true, unit, text } })
  })

  it.each([
    ['6', 'in'],
    ['6', 'mm'],
    ['.15', 'in'],
    ['0,15', 'X'],
  ] as const)('asks about a bare %s where its field is in %s', (text, unit) => {
    for (const { quantity, meaning } of choicesOf(parseQuantity(text, 'diameter', unit))) {
      expect(quantity.unit).not.toBe(unit)
      expect(meaning).not.toBe('')
    }
  })

  it('shows the other likely meaning beside a bare 6 in a field of thousandths', () => {
    const reading = parseQuantity('6', 'diameter', 'thou')
    expect(reading).toMatchObject({ status: 'read', others: [{ quantity: { unit: 'X' } }] })
  })

  it('asks about a diameter of 6 in, and offers texts that say what they are', () => {
    const choices = choicesOf(parseQuantity('6 in', 'diameter', 'in'))
    expect(choices.map((c) => c.quantity.text)).toEqual(['6 thou', '6X'])
  })

  it.each([
    ['', 'length'],
    ['banana', 'diameter'],
    ['-3 in', 'length'],
    ['1/0', 'diameter'],
    ['5 furlongs', 'length'],
    ['90 m', 'diameter'],
    ['3 ft 2 ft', 'length'],
    ['30 X', 'length'],
    ['1 2 3', 'length'],
  ] as const)('refuses "%s" as a %s and says what it takes', (text, dimension) => {
    const reading = parseQuantity(text, dimension, dimension === 'diameter' ? 'in' : 'm')
    expect(reading).toMatchObject({ status: 'refused', accepted: ACCEPTS[dimension] })
    expect(reading.status === 'refused' && reading.message.length).toBeGreaterThan(5)
  })

  it('refuses a bare number where no field gives it a unit', () => {
    expect(parseWithUnit('.006', 'diameter')).toMatchObject({ status: 'refused' })
  })
})

describe('a strength in place of a diameter', () => {
  // Level nylon labelled 20 lb has been sold at .016 to .019 in (generic tables, common practice).
  it('asks about 20 lb with the range and marks every choice as an estimate', () => {
    const reading = parseQuantity('20 lb', 'diameter', 'in')
    const choices = choicesOf(reading)
    expect(choices.map((c) => c.quantity.text)).toEqual(['.016 in', '.0175 in', '.019 in'])
    expect(choices.every((c) => c.quantity.estimatedFrom === '20 lb')).toBe(true)
    expect(choices.every((c) => c.meaning.includes('estimate'))).toBe(true)
    expect(reading.status === 'ask' && reading.question).toMatch(/\.016 in.*\.019 in/)
  })

  it.each(['1 lb', '3.3 lb', '12 lb', '22#', '1.5 kg', '50 N', '100 lb'])(
    'never converts %s in silence',
    (text) => {
      const sizes = choicesOf(parseQuantity(text, 'diameter', 'in')).map((c) => c.quantity.si)
      expect(sizes[0]).toBeLessThan(sizes[2] ?? 0)
    },
  )

  it.each(['0.2 lb', '400 lb'])('refuses %s, which no table covers', (text) => {
    expect(parseQuantity(text, 'diameter', 'in').status).toBe('refused')
  })
})

describe('writing and reading again', () => {
  const usual = (dimension: Dimension) =>
    // From twenty times the coarsest place up, so that no unit rounds a figure to nothing.
    fc.double({
      min: { diameter: 3e-5, length: 0.03, 'spool-length': 1, force: 4.5, mass: 0.6 }[dimension],
      max: { diameter: 2.9e-3, length: 29, 'spool-length': 4900, force: 4900, mass: 490 }[
        dimension
      ],
      noNaN: true,
    })

  it.each(CASES)('brings a %s in %s back within its last place', (dimension, unit) => {
    fc.assert(
      fc.property(usual(dimension), (si) => {
        const text = formatSi(si, dimension, unit)
        const back = valueOf(parseWithUnit(text, dimension))
        // A millionth on top for binary rounding at exact halves.
        const half = HALF_PLACE[dimension][unit] ?? 0
        return Math.abs(back - si) <= half * (1 + 1e-6) + si * 1e-11
      }),
    )
  })

  it.each(CASES)('gives a made %s in %s the value of its text', (dimension, unit) => {
    fc.assert(
      fc.property(usual(dimension), (si) => {
        const made = quantityOf(si, dimension, unit)
        const read = valueOf(parseWithUnit(made.text, dimension))
        // Twelve figures: readings are rounded to that many.
        return Math.abs(made.si / read - 1) < 1e-11
      }),
    )
  })

  it('never throws, whatever is typed', () => {
    const anyText = fc.oneof(
      fc.string({ unit: 'binary' }),
      fc.string({ unit: fc.constantFrom(...`0123456789.,/ '"xXmcinftlbkg#½′″-`) }),
    )
    fc.assert(
      fc.property(anyText, fc.constantFrom(...CASES), (text, [dimension, unit]) => {
        const reading = parseQuantity(text, dimension, unit)
        return ['read', 'ask', 'refused'].includes(reading.status)
      }),
      { numRuns: 3000 },
    )
  })

  it('keeps what was typed exactly, less the blanks around it, and within what it accepts', () => {
    const number = fc.double({ min: 0.001, max: 900, noNaN: true }).map((n) => n.toFixed(3))
    const word = fc.constantFrom('', ' in', '"', ' mm', 'cm', ' m', ' ft', "'", ' thou', 'X', 'kg')
    fc.assert(
      fc.property(number, word, fc.constantFrom(...CASES), (n, w, [dimension, unit]) => {
        const reading = parseQuantity(` ${n}${w} `, dimension, unit)
        if (reading.status !== 'read') return true
        const { low, high } = ACCEPTED[dimension]
        const { si, text } = reading.quantity
        return text === `${n}${w}`.trim() && si >= low * 0.999 && si <= high * 1.001
      }),
      { numRuns: 2000 },
    )
  })
})
