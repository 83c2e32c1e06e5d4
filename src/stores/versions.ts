import type { Leader } from '../engine/leader'
import { readFormula } from '../documents'
import { providedStorage } from './provided'

/** An earlier text of a formula that reads. */
export interface Version {
  readonly revision: number
  readonly savedAt: string
  readonly leader: Leader
}

/** Earlier versions of a formula, the newest first; none where storage cannot be had. */
export async function versionsOf(id: string): Promise<Version[]> {
  try {
    const kept = (await (await providedStorage())?.versions({ kind: 'formula', id })) ?? []
    return kept
      .flatMap(({ revision, savedAt, file }) => {
        const read = readFormula(file)
        return read.ok ? [{ revision, savedAt, leader: read.leader }] : []
      })
      .sort((a, b) => b.savedAt.localeCompare(a.savedAt))
  } catch {
    return []
  }
}
