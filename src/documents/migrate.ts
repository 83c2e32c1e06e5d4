import type { Problem } from './problem'
import { FORMAT, VERSION } from './schema'
import { shown } from './problem'

type Json = Readonly<Record<string, unknown>>

/** Turns a file of the version it is filed under into one of the next version. */
export type Migration = (file: Json) => Json

/** From each older version to the next. Version 1 is the first, so there is none yet. */
export const MIGRATIONS: Readonly<Record<number, Migration>> = {}

export type Migrated = { readonly file: Json } | { readonly problems: readonly Problem[] }

/** Brings a file to the present version; refuses what is no formula and what is newer than this app. */
export function migrate(
  json: unknown,
  migrations = MIGRATIONS,
  current: number = VERSION,
): Migrated {
  if (typeof json !== 'object' || json === null || Array.isArray(json)) {
    return refuse(
      'file',
      json,
      'a formula: an object with format, version, name, purpose and segments',
    )
  }
  const file = json as Json
  if (file['format'] !== FORMAT) return refuse('format', file['format'], `"${FORMAT}"`)
  const version = file['version']
  if (typeof version !== 'number' || !Number.isInteger(version)) {
    return refuse('version', version, `a whole number up to ${current}`)
  }
  if (version > current) {
    return refuse(
      'version',
      version,
      `at most ${current}: a newer Taperwright wrote this file; update this one to read it`,
    )
  }
  return upgrade(file, version, migrations, current)
}

function upgrade(
  file: Json,
  version: number,
  migrations: Readonly<Record<number, Migration>>,
  current: number,
): Migrated {
  let upgraded = file
  for (let from = version; from < current; from++) {
    const step = migrations[from]
    if (!step) return refuse('version', version, readable(migrations, current))
    upgraded = { ...step(upgraded), version: from + 1 }
  }
  return { file: upgraded }
}

function readable(migrations: Readonly<Record<number, Migration>>, current: number): string {
  const oldest = Math.min(current, ...Object.keys(migrations).map(Number))
  return oldest === current ? `version ${current}` : `a version from ${oldest} to ${current}`
}

function refuse(path: string, value: unknown, expected: string): Migrated {
  return { problems: [{ path, found: shown(value), expected }] }
}
