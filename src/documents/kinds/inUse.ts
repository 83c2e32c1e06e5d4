import type { LeaderInUse } from '../kept'
import type { Kind } from '../kind'
import { readLeaderInUse, writeLeaderInUse } from '../kept'
import { shown } from '../problem'

export const inUse: Kind<LeaderInUse> = {
  id: 'inUse',
  version: 1,
  read: (json) => {
    const value = readLeaderInUse(json)
    if (value) return { ok: true, value }
    return {
      ok: false,
      problems: [{ path: 'file', found: shown(json), expected: 'a leader in use' }],
    }
  },
  write: writeLeaderInUse,
  copied: (value) => value,
  nameOf: ({ start }) => start.name,
}
