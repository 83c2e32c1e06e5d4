/**
 * Everything the user has, as one file. A checksum over the content tells a damaged file; every part is read by
 * its own schema, so that what is sound can be had from a file of which something is not.
 */
import type { KindId } from './kind'
import type { Problem } from './problem'
import { crc32OfText } from './checksum'
import { KINDS } from './kinds'
import { itemsAmong, scalarsAmong, shedKindOf } from './oldSettings'
import { shown } from './problem'

const BACKUP_FORMAT = 'taperwright-backup'
/** 1: formulas, their versions, the shed, and the rest among the settings. 2: items of every kind. */
const BACKUP_VERSION = 2
const LARGEST_MB = 50

/** An item as it lies in the browser, with what it is known by elsewhere. */
export interface BackupItem {
  readonly kind: string
  readonly id: string
  readonly savedAt: string
  readonly file: unknown
  readonly events?: readonly unknown[]
  /** Name of this text, of the one it was made from, and of the last one in common with a copy. */
  readonly hash?: string
  readonly parent?: string
  readonly common?: string
  readonly copiedFrom?: string
}

/** Everything that the user keeps, as it lies, even what this version cannot read. */
export interface BackupContent {
  readonly items: readonly BackupItem[]
  /** Earlier texts of items. */
  readonly earlier: readonly BackupItem[]
  readonly settings: unknown
}

export interface Backup {
  readonly madeAt: string
  readonly content: BackupContent
}

export type BackupResult = {
  /** null where nothing can be taken from the file. */
  readonly backup: Backup | null
  readonly problems: readonly Problem[]
}

export function writeBackup({ items, earlier, settings }: BackupContent, madeAt: string): string {
  const content = { items: byKind(items), earlier: byKind(earlier), settings }
  const checksum = checksumOf(content)
  return `${JSON.stringify({ format: BACKUP_FORMAT, version: BACKUP_VERSION, madeAt, checksum, content }, null, 1)}\n`
}

function byKind(items: readonly BackupItem[]): Record<string, Omit<BackupItem, 'kind'>[]> {
  const kinds: Record<string, Omit<BackupItem, 'kind'>[]> = {}
  for (const { kind, id, savedAt, file, events, hash, parent, common, copiedFrom } of items)
    (kinds[kind] ??= []).push({
      id,
      savedAt,
      hash,
      parent,
      common,
      copiedFrom,
      file,
      events,
    })
  return kinds
}

/** Of the content as JSON without spaces, which reads back to the same text. */
function checksumOf(content: unknown): string {
  return crc32OfText(JSON.stringify(content) ?? '')
    .toString(16)
    .padStart(8, '0')
}

/** Whether a file says it is a backup, so that it is not taken for a formula. */
export const isBackupText = (text: string): boolean => text.slice(0, 200).includes(BACKUP_FORMAT)

/** Reads a backup of this or an older version. Never throws. */
export function readBackup(text: string): BackupResult {
  const megabytes = text.length / 1e6
  if (megabytes > LARGEST_MB)
    return refuse('file', `${Math.ceil(megabytes)} MB`, `at most ${LARGEST_MB} MB`)
  const json = parsed(text)
  if (json === undefined)
    return refuse('file', 'something that is no JSON, or is cut off', 'a whole backup file')
  if (!isRecord(json) || json['format'] !== BACKUP_FORMAT)
    return refuse('format', shown(isRecord(json) ? json['format'] : json), `"${BACKUP_FORMAT}"`)
  const { version } = json
  if (typeof version !== 'number' || version > BACKUP_VERSION || version < 1)
    return refuse('version', shown(version), versionWanted(version))
  return readContent(json)
}

function versionWanted(version: unknown): string {
  const isNewer = typeof version === 'number' && version > BACKUP_VERSION
  const why = isNewer ? ': a newer Taperwright wrote this file; update this one to read it' : ''
  return `at most ${BACKUP_VERSION}${why}`
}

type Json = Readonly<Record<string, unknown>>

function readContent({ version, content, madeAt, checksum }: Json): BackupResult {
  if (!isRecord(content)) return refuse('content', shown(content), 'what was backed up')
  const problems: Problem[] = []
  if (checksum !== checksumOf(content)) {
    const found = 'a checksum that does not fit the content'
    const expected = 'an unchanged file; what still reads can be restored'
    problems.push({ path: 'checksum', found, expected })
  }
  const kept = version === 1 ? contentOfVersion1(content, problems) : contentOf(content, problems)
  const made = typeof madeAt === 'string' ? madeAt : ''
  return { backup: { madeAt: made, content: kept }, problems }
}

function contentOf(content: Json, problems: Problem[]): BackupContent {
  const all = (field: string) => {
    const kinds = content[field] ?? {}
    if (!isRecord(kinds)) {
      problems.push({
        path: `content.${field}`,
        found: shown(kinds),
        expected: 'lists of items by their kinds',
      })
      return []
    }
    return Object.entries(kinds).flatMap(([kind, list]) =>
      itemsIn(kind, list, `content.${field}.${kind}`, problems),
    )
  }
  return { items: all('items'), earlier: all('earlier'), settings: content['settings'] ?? {} }
}

function contentOfVersion1(content: Json, problems: Problem[]): BackupContent {
  const settings = content['settings'] ?? {}
  const items = itemsIn('formula', content['formulas'], 'content.formulas', problems)
  const earlier = itemsIn('formula', content['versions'] ?? [], 'content.versions', problems)
  const shed = listIn(content['shed'] ?? [], 'content.shed', problems).flatMap((file, i) => {
    const id = isRecord(file) ? file['id'] : undefined
    const entry = { id, savedAt: '', file }
    return itemIn(shedKindOf(file), entry, `content.shed[${i}]`, problems, '')
  })
  const among = itemsAmong(settings).flatMap(({ kind, ...item }) =>
    itemIn(kind, { ...item, savedAt: '' }, `content.settings.${kind}`, problems, ''),
  )
  return { items: [...items, ...shed, ...among], earlier, settings: scalarsAmong(settings) }
}

const itemsIn = (kind: string, value: unknown, place: string, problems: Problem[]) =>
  listIn(value, place, problems).flatMap((each, i) =>
    itemIn(kind, each, `${place}[${i}]`, problems, '.file'),
  )

/** One that does not read is told, and kept all the same, as the browser keeps it. */
function itemIn(
  kind: string,
  item: unknown,
  path: string,
  problems: Problem[],
  inFile: string,
): BackupItem[] {
  if (!isRecord(item) || typeof item['id'] !== 'string' || item['id'] === '') {
    problems.push({ path, found: shown(item), expected: `a ${kind} with an id` })
    return []
  }
  const { id, savedAt, file, events } = item
  const within = (inner: string) => `${path}${inFile}${inner === 'file' ? '' : `.${inner}`}`
  const read = kind in KINDS ? KINDS[kind as KindId].read(file) : UNKNOWN
  if (!read.ok)
    problems.push(...read.problems.map((problem) => ({ ...problem, path: within(problem.path) })))
  return [
    {
      kind,
      id,
      savedAt: typeof savedAt === 'string' ? savedAt : '',
      file: file ?? null,
      ...(Array.isArray(events) ? { events: events as unknown[] } : {}),
      ...textsIn(item),
    },
  ]
}

const UNKNOWN = {
  ok: false,
  problems: [
    {
      path: 'file',
      found: 'a kind that this version does not know',
      expected: 'it is kept as it is',
    },
  ],
} as const

function textsIn(item: Json): Pick<BackupItem, 'hash' | 'parent' | 'common' | 'copiedFrom'> {
  const names = ['hash', 'parent', 'common', 'copiedFrom'] as const
  return Object.fromEntries(
    names.flatMap((n) => (typeof item[n] === 'string' ? [[n, item[n]]] : [])),
  )
}

function listIn(value: unknown, path: string, problems: Problem[]): unknown[] {
  if (Array.isArray(value)) return value as unknown[]
  problems.push({ path, found: shown(value), expected: 'a list' })
  return []
}

const isRecord = (value: unknown): value is Json =>
  typeof value === 'object' && value !== null && !Array.isArray(value)

/** undefined for what is no JSON. */
function parsed(text: string): unknown {
  try {
    return JSON.parse(text.replace(/^\uFEFF/, '')) as unknown
  } catch {
    return undefined
  }
}

function refuse(path: string, found: string, expected: string): BackupResult {
  return { backup: null, problems: [{ path, found, expected }] }
}
