import type { Backup, BackupItem } from '../documents'
import type { Kind, KindId } from '../documents/kind'
import type { StoredItem } from '../storage'
import type { Draft, Outcome } from './items'
import type { Settings } from './settingsFields'
import { writeBackup } from '../documents'
import { KINDS } from '../documents/kinds'
import { revisionOf } from '../documents/identity'
import { isShippedId } from './entry'
import { keyOf, newId, now, useItems } from './items'
import { unreadableOf } from './kept'
import { useLibrary } from './library'
import { providedStorage } from './provided'
import { useSettings } from './settings'
import { settingsFrom } from './settingsFields'

/** Changes after which a backup is due, and how long one holds at most. */
const MANY_CHANGES = 300
const DAYS = 60

/** Everything the user has, as the text of one file. */
export async function makeBackup(): Promise<string> {
  const [items, settings] = [useItems(), useSettings()]
  await items.settled()
  const content = { items: items.all, earlier: await keptVersions(), settings: settings.all }
  return writeBackup(content, now())
}

/** Without storage there are none. */
async function keptVersions(): Promise<StoredItem[]> {
  try {
    return (await (await providedStorage())?.versions()) ?? []
  } catch {
    return []
  }
}

/** What this version cannot read, of whatever kind: it is left as it lies, and a backup holds it. */
export const unreadableItems = () => unreadableOf(useItems(), Object.values(KINDS))

/** Remembers that a backup was taken, so that the next reminder counts from here. */
export function noteBackup(): void {
  useSettings().change({ backedUpAt: now(), backedUpRevision: useItems().newestRevision })
}

/** Changes since the last backup where that is worth a reminder; null where it is not. */
export function backupDue(): number | null {
  const { backedUpAt, backedUpRevision } = useSettings().all
  const changes = useItems().newestRevision - backedUpRevision
  const days = backedUpAt ? (Date.parse(now()) - Date.parse(backedUpAt)) / 86_400_000 : 0
  return changes >= MANY_CHANGES || (changes > 20 && days > DAYS) ? changes : null
}

export interface Restored {
  readonly formulas: number
  /** Of every other kind. */
  readonly items: number
  /** What was here already, word for word. */
  readonly known: number
  /** What was mended, left out or could not be kept, in words. */
  readonly remarks: readonly string[]
}

/** Adds what a backup holds to what is here. Nothing that is here is written over. */
export async function restoreBackup({ content }: Backup): Promise<Restored> {
  const items = useItems()
  const remarks: string[] = []
  const wanted = mended(content.items, remarks)
  let added: readonly Draft[] = []
  const outcome = await items.act(() => (added = draftsOf(wanted)))
  for (const draft of added) items.tell(draft, 'here')
  remarks.push(...leftOut(wanted), ...notKept(outcome, added.length))
  await restoreVersions(content.earlier)
  restoreSettings(content.settings, remarks)
  const formulas = added.filter(({ kind }) => kind === 'formula').length
  const left = leftOut(wanted).length
  const known = wanted.length - added.length - left
  return { formulas, items: added.length - formulas, known, remarks }
}

function notKept(outcome: Outcome, count: number): string[] {
  if (outcome.state === 'kept' || count === 0) return []
  const why = useItems().problem.value ?? ''
  return [`${count} of what the backup holds could not be kept: ${why}`.trim()]
}

/** Two of one id are two things: the second goes by a new one, as does what claims to have come with the app. */
function mended(items: readonly BackupItem[], remarks: string[]): BackupItem[] {
  const seen = new Set<string>()
  return items.map((item) => {
    const isFree = !seen.has(keyOf(item)) && !isShippedId(item.id)
    seen.add(keyOf(item))
    if (isFree) return item
    remarks.push(
      `Two entries, or one that comes with the app, had the id "${item.id.slice(0, 60)}": each is kept, under an id of its own.`,
    )
    return { ...item, ...copyOf(item, newId()) }
  })
}

/** Those that are not here word for word; one that is here otherwise comes beside it, marked. */
function draftsOf(wanted: readonly BackupItem[]): Draft[] {
  const items = useItems()
  const texts = new Set(items.all.map(textOf))
  return wanted.flatMap((item): Draft[] => {
    const { kind, id, file, events, savedAt, parent, common, copiedFrom } = item
    if (texts.has(textOf(item)) || isOnlyOne(item)) return []
    if (!items.records(kind).has(id)) {
      return [{ kind, id, file, events, savedAt, origin: { parent, common, copiedFrom } }]
    }
    return [{ ...copyOf(item, newId()), savedAt, origin: { copiedFrom: id } }]
  })
}

/** What there is one of in a browser: where one is here, it stays. */
function isOnlyOne({ kind, id }: BackupItem): boolean {
  return kind === id && useItems().records(kind).has(id)
}

function leftOut(wanted: readonly BackupItem[]): string[] {
  const here = new Set(useItems().all.map(textOf))
  return wanted
    .filter((item) => isOnlyOne(item) && !here.has(textOf(item)))
    .map(({ kind }) => `The ${ONLY_ONES[kind] ?? kind} that is here was left as it is.`)
}

const ONLY_ONES: Readonly<Record<string, string>> = { inUse: 'leader in use' }

/** As it would be written now, so that the order of its fields does not matter. Formulas are known by their text alone. */
function textOf({ kind, id, file }: Pick<BackupItem, 'kind' | 'id' | 'file'>): string {
  const rules = rulesOf(kind)
  const read = rules?.read(file)
  const text = revisionOf(read?.ok ? rules?.write(read.value) : file)
  return kind === 'formula' ? `${kind} ${text}` : `${keyOf({ kind, id })} ${text}`
}

/** The same under another id, and under a name that tells it from the one that is here. */
function copyOf({ kind, file }: BackupItem, id: string): Pick<BackupItem, 'kind' | 'id' | 'file'> {
  const rules = rulesOf(kind)
  const read = rules?.read(file)
  if (!rules || !read?.ok) return { kind, id, file }
  const named = (name: string) =>
    kind === 'formula' ? useLibrary().markedName(name, 'restored') : `${name} (from a backup)`
  return { kind, id, file: rules.write(rules.copied(read.value, id, named)) }
}

/** undefined for a kind of a version to come. */
const rulesOf = (kind: string): Kind<unknown> | undefined =>
  kind in KINDS ? KINDS[kind as KindId] : undefined

/** Versions of another browser count by themselves: they get numbers below all that are here. */
async function restoreVersions(versions: readonly BackupItem[]): Promise<void> {
  try {
    const storage = await providedStorage()
    if (!storage || versions.length === 0) return
    const kept = await storage.versions()
    const texts = new Set(kept.map(({ kind, id, file }) => JSON.stringify([kind, id, file])))
    const lowest = Math.min(0, ...kept.map(({ revision }) => revision))
    const added = versions
      .filter(({ kind, id, file }) => !texts.has(JSON.stringify([kind, id, file])))
      .map((version, i): StoredItem => {
        const revision = lowest - 1 - i
        return { hash: revisionOf(version.file), ...version, revision, made: revision }
      })
    await storage.addVersions(added)
  } catch {
    // Earlier versions are a convenience: the items themselves are restored.
  }
}

/** A choice made here stands; only what was never touched is taken over, and no address that is none. */
function restoreSettings(restored: unknown, remarks: string[]): void {
  const settings = useSettings()
  const [ours, theirs, usual] = [settings.all, settingsFrom(restored), settingsFrom(undefined)]
  const keys = Object.keys(usual) as (keyof Settings)[]
  const untouched = keys.filter(
    (key) =>
      JSON.stringify(ours[key]) === JSON.stringify(usual[key]) && !key.startsWith('backedUp'),
  )
  const address = isObject(restored) && 'linkBase' in restored ? restored.linkBase : undefined
  if (typeof address === 'string' && theirs.linkBase === undefined)
    remarks.push('The address for links in the backup is no web address; it was left out.')
  settings.change(Object.fromEntries(untouched.map((key) => [key, theirs[key]])))
}

const isObject = (value: unknown): value is object => typeof value === 'object' && value !== null
