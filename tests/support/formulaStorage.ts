/** Formulas in storage, said shortly: what many tests do with one kind of item. */
import type { Storage, StoredItem } from '../../src/storage'

export type Formula = Pick<StoredItem, 'id' | 'savedAt' | 'file'>
export type StoredFormula = Formula & Pick<StoredItem, 'revision'>

const kind = 'formula'
const bare = ({ id, revision, savedAt, file }: StoredItem): StoredFormula => ({
  id,
  revision,
  savedAt,
  file,
})

export async function put(
  storage: Storage,
  { basedOn, ...formula }: Formula & { readonly basedOn: number | undefined },
) {
  const result = await storage.change([{ kind, ...formula, basedOn }])
  if (result.ok) return { ok: true as const, revision: result.records[0]!.revision }
  const theirs = result.stale[0]?.theirs
  return { ok: false as const, theirs: theirs && bare(theirs) }
}

export async function putAll(storage: Storage, formulas: readonly Formula[]) {
  const result = await storage.change(formulas.map((f) => ({ kind, ...f, basedOn: undefined })))
  return result.ok
    ? { ok: true as const, records: result.records.map(bare) }
    : { ok: false as const, taken: result.stale.map(({ id }) => id) }
}

export async function remove(storage: Storage, id: string, basedOn: number) {
  const result = await storage.change([{ kind, id, file: undefined, savedAt: '', basedOn }])
  return result.ok ? { ok: true as const } : { ok: false as const, theirs: result.stale[0]?.theirs }
}

export async function get(storage: Storage, id: string): Promise<StoredFormula | undefined> {
  const item = await storage.get({ kind, id })
  return item && bare(item)
}

export const list = async (storage: Storage): Promise<StoredFormula[]> =>
  (await storage.list(kind)).map(bare)
