import type { Backup, BackupFormula, InventoryItem } from '../documents'
import type { NewFormula, StoredFormula } from '../storage'
import type { Settings } from './settingsFields'
import { readFormula, writeBackup, writeFormula, writeInventoryItem } from '../documents'
import { useLibrary } from './library'
import { providedStorage } from './provided'
import { useSettings } from './settings'
import { settingsFrom } from './settingsFields'
import { useInventory } from './inventory'
import { itemsOf } from './inventoryItems'
import { newId, now } from './shelf'

/** Changes after which a backup is due, and how long one holds at most. */
const MANY_CHANGES = 300
const DAYS = 60

/** Everything the user has, as the text of one file. */
export async function makeBackup(): Promise<string> {
  const [library, inventory, settings] = [useLibrary(), useInventory(), useSettings()]
  await inventory.start()
  await inventory.settled()
  const content = {
    formulas: [...library.shelf.formulas.value.values()].map(bare),
    versions: (await keptVersions()).map(bare),
    shed: [
      ...[...itemsOf(inventory.inventory).values()].map(writeInventoryItem),
      ...inventory.unreadable.map((r) => r.file),
    ],
    settings: settings.all,
  }
  return writeBackup(content, now())
}

const bare = ({ id, savedAt, file }: StoredFormula): BackupFormula => ({ id, savedAt, file })

/** Without storage there are none. */
async function keptVersions(): Promise<StoredFormula[]> {
  try {
    return (await (await providedStorage())?.versions()) ?? []
  } catch {
    return []
  }
}

/** Remembers that a backup was taken, so that the next reminder counts from here. */
export function noteBackup(): void {
  useSettings().change({ backedUpAt: now(), backedUpRevision: newestRevision() })
}

function newestRevision(): number {
  const library = useLibrary()
  const revisions = [...library.shelf.formulas.value.values()].map(({ revision }) => revision)
  return Math.max(0, useInventory().newestRevision(), ...revisions)
}

/** Changes since the last backup where that is worth a reminder; null where it is not. */
export function backupDue(): number | null {
  const { backedUpAt, backedUpRevision } = useSettings().all
  const changes = newestRevision() - backedUpRevision
  const days = backedUpAt ? (Date.parse(now()) - Date.parse(backedUpAt)) / 86_400_000 : 0
  return changes >= MANY_CHANGES || (changes > 20 && days > DAYS) ? changes : null
}

export interface Restored {
  readonly formulas: number
  readonly items: number
  /** What was here already, word for word. */
  readonly known: number
}

/** Adds what a backup holds to what is here. Nothing that is here is written over. */
export async function restoreBackup({ content, items }: Backup): Promise<Restored> {
  const formulas = newFormulas(content.formulas)
  await useLibrary().shelf.addAll(formulas)
  const added = newItems(items)
  useInventory().put('Restore a backup', added)
  await useInventory().settled()
  await restoreVersions(content.versions)
  restoreSettings(content.settings)
  const known = content.formulas.length - formulas.length + (items.length - added.length)
  return { formulas: formulas.length, items: added.length, known }
}

/** Those that are not here word for word; one that is here otherwise comes under a name of its own. */
function newFormulas(formulas: readonly BackupFormula[]): NewFormula[] {
  const library = useLibrary()
  const own = library.shelf.formulas.value
  const texts = new Set([...own.values()].map(({ file }) => textOf(file)))
  return formulas
    .filter(({ file }) => !texts.has(textOf(file)))
    .map((formula) => (own.has(formula.id) ? renamed(formula) : formula))
}

/** As it would be written now, so that the order of its fields does not matter. */
function textOf(file: unknown): string {
  const read = readFormula(file)
  return JSON.stringify(read.ok ? writeFormula(read.leader) : file)
}

function renamed(formula: BackupFormula): NewFormula {
  const read = readFormula(formula.file)
  if (!read.ok) return { ...formula, id: newId() }
  const name = useLibrary().markedName(read.leader.name, 'restored')
  return { ...formula, id: newId(), file: writeFormula({ ...read.leader, name }) }
}

function newItems(items: readonly InventoryItem[]): InventoryItem[] {
  const here = itemsOf(useInventory().inventory)
  return items.flatMap((item) => {
    const own = here.get(item.value.id)
    if (!own) return [item]
    return JSON.stringify(writeInventoryItem(own)) === JSON.stringify(writeInventoryItem(item))
      ? []
      : [marked(item)]
  })
}

const MARK = '(from a backup)'

function marked(item: InventoryItem): InventoryItem {
  const id = newId()
  if (item.kind === 'spool') {
    const note = [item.value.note, MARK].filter(Boolean).join(' ')
    return { kind: 'spool', value: { ...item.value, id, note } }
  }
  if (item.kind === 'batch')
    return { kind: 'batch', value: { ...item.value, id, name: `${item.value.name} ${MARK}` } }
  return { kind: 'stock', value: { ...item.value, id, wallet: `${item.value.wallet} ${MARK}` } }
}

/** Versions of another browser count by themselves: they get numbers below all that are here. */
async function restoreVersions(versions: readonly BackupFormula[]): Promise<void> {
  try {
    const storage = await providedStorage()
    if (!storage || versions.length === 0) return
    const kept = await storage.versions()
    const texts = new Set(kept.map(({ id, file }) => id + JSON.stringify(file)))
    const lowest = Math.min(0, ...kept.map(({ revision }) => revision))
    const added = versions
      .filter(({ id, file }) => !texts.has(id + JSON.stringify(file)))
      .map((version, i) => ({ ...version, revision: lowest - 1 - i }))
    await storage.addVersions(added)
  } catch {
    // Earlier versions are a convenience: the formulas themselves are restored.
  }
}

/** A choice made here stands; only what was never touched is taken over. */
function restoreSettings(restored: unknown): void {
  const settings = useSettings()
  const [ours, theirs, usual] = [settings.all, settingsFrom(restored), settingsFrom(undefined)]
  const keys = Object.keys(usual) as (keyof Settings)[]
  const untouched = keys.filter(
    (key) =>
      JSON.stringify(ours[key]) === JSON.stringify(usual[key]) && !key.startsWith('backedUp'),
  )
  settings.change(Object.fromEntries(untouched.map((key) => [key, theirs[key]])))
}
