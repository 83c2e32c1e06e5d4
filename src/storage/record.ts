import type { StoredItem } from './database'
import type { ItemChange } from './items'
import { revisionOf } from '../documents/identity'

/** A change as it comes to lie; one that was taken out keeps its place in the order. */
export function recordOf(
  { kind, id, file, events, savedAt, origin = {} }: Omit<ItemChange, 'basedOn'>,
  before: StoredItem | undefined,
  revision: number,
): StoredItem {
  const isDeleted = file === undefined
  const hash = isDeleted && before ? before.hash : revisionOf(file ?? null)
  // The same text put back is no new one.
  const parent = origin.parent ?? (before?.hash === hash ? before.parent : before?.hash)
  const { common = before?.common, copiedFrom = before?.copiedFrom } = origin
  return {
    kind,
    id,
    revision,
    made: before?.made ?? revision,
    savedAt,
    file: isDeleted ? null : file,
    ...(isDeleted || events === undefined ? {} : { events }),
    hash,
    ...(parent === undefined ? {} : { parent }),
    ...(common === undefined ? {} : { common }),
    ...(copiedFrom === undefined ? {} : { copiedFrom }),
    ...(isDeleted ? { deleted: true as const } : {}),
  }
}
