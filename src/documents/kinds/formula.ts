import type { Leader } from '../../engine/leader'
import type { Kind } from '../kind'
import { readFormula } from '../read'
import { VERSION } from '../schema'
import { writeFormula } from '../write'

export const formula: Kind<Leader> = {
  id: 'formula',
  version: VERSION,
  read: (json) => {
    const result = readFormula(json)
    return result.ok ? { ok: true, value: result.leader } : result
  },
  write: writeFormula,
  copied: (value, _id, named) => ({ ...value, name: named(value.name) }),
  nameOf: ({ name }) => name,
}
