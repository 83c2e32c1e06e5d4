import type { BriefDraft } from '../kept'
import type { Kind } from '../kind'
import { readBriefDraft, writeBriefDraft } from '../kept'
import { shown } from '../problem'

export const brief: Kind<BriefDraft> = {
  id: 'brief',
  version: 1,
  read: (json) => {
    const value = readBriefDraft(json)
    if (value) return { ok: true, value }
    return { ok: false, problems: [{ path: 'file', found: shown(json), expected: 'a brief' }] }
  },
  write: writeBriefDraft,
  copied: (value) => value,
}
