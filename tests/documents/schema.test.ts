// @vitest-environment node
import { readFileSync } from 'node:fs'
import { fileURLToPath } from 'node:url'
import { Ajv } from 'ajv'
import * as fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { readFormula } from '../../src/documents'
import { formula } from '../support/arbitrary-formula'
import { SHIPPED, segment, smallest } from '../support/formulas'
import { leaderSchemaText } from '../support/leader-schema'

const file = fileURLToPath(new URL('../../public/leader.schema.json', import.meta.url))
const committed = readFileSync(file, 'utf8')
const schema = JSON.parse(committed) as object
const ajv = new Ajv({ strict: true, allowUnionTypes: true, strictTuples: false })
const validate = ajv.compile(schema)

/** A copy without undefined, as it would stand in a file. */
const plain = (json: unknown) => JSON.parse(JSON.stringify(json)) as unknown
const spoiled = (patch: object) => plain({ ...smallest(), ...patch })
const inSegment = (fields: object) => spoiled({ segments: [segment(fields)] })

describe('public/leader.schema.json', () => {
  it('is what "npm run schema" makes of src/documents/schema.ts', () => {
    expect(committed).toBe(leaderSchemaText())
  })

  it('is a valid JSON Schema', () => {
    expect(ajv.validateSchema(schema)).toBe(true)
  })

  it.each(SHIPPED)('takes $file', ({ text }) => {
    expect(validate(JSON.parse(text)) || validate.errors).toBe(true)
  })

  it('takes whatever right file there is', () => {
    fc.assert(
      fc.property(formula, (json) => {
        expect(validate(json) || validate.errors).toBe(true)
      }),
      { seed: 9, numRuns: 300 },
    )
  })
})

const WRONG_SHAPES: [what: string, json: unknown][] = [
  ['no object', []],
  ['nothing', null],
  ['another format', spoiled({ format: 'recipe' })],
  ['another version', spoiled({ version: 2 })],
  ['no name', spoiled({ name: undefined })],
  ['a name that is no text', spoiled({ name: 7 })],
  ['an unknown purpose', spoiled({ purpose: 'dry' })],
  ['no segments', spoiled({ segments: undefined })],
  ['an empty list of segments', spoiled({ segments: [] })],
  ['too many segments', spoiled({ segments: Array(201).fill(segment()) })],
  ['an unknown part', inSegment({ part: 'head' })],
  ['no material', inSegment({ material: undefined })],
  ['a length as a number', inSegment({ length: 12 })],
  ['a diameter without text', inSegment({ diameter: { unit: 'in' } })],
  ['an unknown knot', inSegment({ joint: 'granny' })],
  ['an unknown knot in full', inSegment({ joint: { knot: 'granny' } })],
  ['turns of one side only', inSegment({ joint: { knot: 'blood', turns: [5] } })],
  ['turns of three sides', inSegment({ joint: { knot: 'blood', turns: [5, 5, 5] } })],
  ['no turns', inSegment({ joint: { knot: 'blood', turns: [0, 5] } })],
  ['an unknown attachment', inSegment({ attachments: [{ kind: 'bell' }] })],
  ['an unknown style of fly', spoiled({ tip: { fly: { style: 'spinner', hook: 14 } } })],
  ['a fly without hook', spoiled({ tip: { fly: { style: 'nymph' } } })],
  ['an unknown caster', spoiled({ outfit: { caster: 'expert' } })],
  ['a wet that is a text', spoiled({ outfit: { wet: 'yes' } })],
  ['a material without density', spoiled({ materials: [{ id: 'a', name: 'A', family: 'wire' }] })],
]

/** A schema knows the shape; what a text means, and what names what, only the reading of it knows. */
const WRONG_MEANINGS: [what: string, json: unknown][] = [
  ['a length in words', inSegment({ length: 'twelve inches' })],
  ['a diameter in pounds', inSegment({ diameter: '20 lb' })],
  ['an unknown material', inSegment({ material: 'silk' })],
  ['a hook that is none', spoiled({ tip: { fly: { style: 'nymph', hook: 40 } } })],
  ['a line that is none', spoiled({ outfit: { line: 'WF20F' } })],
]

describe('wrong files', () => {
  it('the file that all of them are made of is right', () => {
    expect(validate(spoiled({}))).toBe(true)
    expect(readFormula(spoiled({})).ok).toBe(true)
  })

  it.each(WRONG_SHAPES)('%s: refused by the schema and on reading', (_, json) => {
    expect(validate(json)).toBe(false)
    expect(readFormula(json).ok).toBe(false)
  })

  it.each(WRONG_MEANINGS)('%s: refused on reading', (_, json) => {
    expect(readFormula(json).ok).toBe(false)
  })
})
