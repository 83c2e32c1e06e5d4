import type { Write } from './database'

/**
 * The first of `count` new revisions. One counter for the whole database: were revisions counted by
 * formula, one removed and made again could carry a number that another tab still takes for its own.
 */
export async function nextRevision(tx: Write, basedOn = 0, count = 1): Promise<number> {
  const last = await tx.objectStore('settings').get('revision')
  const first = Math.max(typeof last === 'number' ? last : 0, basedOn) + 1
  await tx.objectStore('settings').put(first + count - 1, 'revision')
  return first
}
