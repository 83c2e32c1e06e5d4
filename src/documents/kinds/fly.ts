import type { BoxedFly } from '../kept'
import type { Kind } from '../kind'
import { readBoxedFly, writeBoxedFly } from '../kept'
import { shown } from '../problem'

export const fly: Kind<BoxedFly> = {
  id: 'fly',
  version: 1,
  read: (json) => {
    const value = readBoxedFly(json)
    if (value) return { ok: true, value }
    return { ok: false, problems: [{ path: 'file', found: shown(json), expected: 'a fly' }] }
  },
  write: writeBoxedFly,
  copied: (value, id, named) => ({ ...value, id, name: named(value.name) }),
  nameOf: ({ name }) => name,
}
