/**
 * Everything the user has, as one file. A checksum over the content tells a damaged file; every part is read by
 * its own schema, so that what is sound can be had from a file of which something is not.
 */
import type { Problem } from './problem'
import type { InventoryItem } from './inventory'
import { crc32OfText } from './checksum'
import { shown } from './problem'
import { readFormula } from './read'
import { readInventoryItem } from './inventory'

const BACKUP_FORMAT = 'taperwright-backup'
const BACKUP_VERSION = 1
const LARGEST_MB = 50

/** A formula as it lies in the browser. */
export interface BackupFormula {
  readonly id: string
  readonly savedAt: string
  readonly file: unknown
}

/** What a backup is made of: formulas and shed as they lie, even those that this version cannot read. */
export interface BackupContent {
  readonly formulas: readonly BackupFormula[]
  /** Earlier versions of formulas, by the formula's id. */
  readonly versions: readonly BackupFormula[]
  readonly shed: readonly unknown[]
  readonly settings: unknown
}

export interface Backup {
  readonly madeAt: string
  readonly content: BackupContent
  readonly items: readonly InventoryItem[]
}

export type BackupResult = {
  /** null where nothing can be taken from the file. */
  readonly backup: Backup | null
  readonly problems: readonly Problem[]
}

export function writeBackup(content: BackupContent, madeAt: string): string {
  const checksum = checksumOf(content)
  return `${JSON.stringify({ format: BACKUP_FORMAT, version: BACKUP_VERSION, madeAt, checksum, content }, null, 1)}\n`
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

function readContent({ content, madeAt, checksum }: Json): BackupResult {
  if (!isRecord(content)) return refuse('content', shown(content), 'what was backed up')
  const problems: Problem[] = []
  if (checksum !== checksumOf(content)) {
    const found = 'a checksum that does not fit the content'
    const expected = 'an unchanged file; what still reads can be restored'
    problems.push({ path: 'checksum', found, expected })
  }
  const formulas = formulasIn(content['formulas'], 'content.formulas', problems)
  const versions = formulasIn(content['versions'] ?? [], 'content.versions', problems)
  const shed = listIn(content['shed'] ?? [], 'content.shed', problems)
  const items = shed.flatMap((each, i) => {
    const read = readInventoryItem(each)
    if (read.ok) return [read.item]
    const at = (path: string) => `content.shed[${i}].${path}`
    problems.push(...read.problems.map((problem) => ({ ...problem, path: at(problem.path) })))
    return []
  })
  const kept = { formulas, versions, shed, settings: content['settings'] ?? {} }
  const made = typeof madeAt === 'string' ? madeAt : ''
  return { backup: { madeAt: made, content: kept, items }, problems }
}

/** A formula that does not read is told, and kept all the same, as the browser keeps it. */
function formulasIn(value: unknown, place: string, problems: Problem[]): BackupFormula[] {
  return listIn(value, place, problems).flatMap((each, i) => {
    const path = `${place}[${i}]`
    if (!isRecord(each) || typeof each['id'] !== 'string' || each['id'] === '') {
      problems.push({ path, found: shown(each), expected: 'a formula with an id' })
      return []
    }
    const { id, savedAt, file } = each
    const read = readFormula(file)
    const at = (inner: string) => (inner === 'file' ? `${path}.file` : `${path}.file.${inner}`)
    if (!read.ok)
      problems.push(...read.problems.map((problem) => ({ ...problem, path: at(problem.path) })))
    return isRecord(file) ? [{ id, savedAt: typeof savedAt === 'string' ? savedAt : '', file }] : []
  })
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
