import type { Reel } from '../kept'
import type { Kind } from '../kind'
import { readReel, writeReel } from '../kept'
import { shown } from '../problem'

export const reel: Kind<Reel> = {
  id: 'reel',
  version: 1,
  read: (json) => {
    const value = readReel(json)
    if (value) return { ok: true, value }
    return { ok: false, problems: [{ path: 'file', found: shown(json), expected: 'a reel' }] }
  },
  write: writeReel,
  copied: (value) => value,
}
