import type { JsonSchema } from '@valibot/to-json-schema'
import type { GenericSchema } from 'valibot'
import { toJsonSchema } from '@valibot/to-json-schema'
import { BRANCHES } from '../../src/documents/fields'
import { FORMULA } from '../../src/documents/schema'

/**
 * The text of public/leader.schema.json: the shape of a formula file, for editors and other programs.
 * What a figure means ("5X", "7' 6\"") is beyond JSON Schema and is checked when the file is read.
 */
export function leaderSchemaText(): string {
  const { $schema, ...shape } = convert(FORMULA)
  const schema = { $schema, title: 'Taperwright leader formula, version 1', ...shape }
  return `${JSON.stringify(schema, null, 2)}\n`
}

function convert(schema: GenericSchema): JsonSchema {
  return toJsonSchema(schema, {
    typeMode: 'input',
    errorMode: 'ignore',
    overrideSchema: ({ valibotSchema }) => eitherBranch(valibotSchema),
  })
}

/** A value written short or in full is a function in the schema: JSON Schema wants both written out. */
function eitherBranch(schema: object): JsonSchema | undefined {
  const branches = BRANCHES.get(schema)
  return branches && { anyOf: branches.map((branch) => inner(convert(branch))) }
}

function inner({ $schema: _, ...schema }: JsonSchema): JsonSchema {
  return schema
}
