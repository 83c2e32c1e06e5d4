import type { Component } from 'vue'
import { lazyPart } from '../ui/lazyPart'

/** A place of the app beside the bench: the hash that opens it, its name, and how its view is fetched. */
interface PlaceOf {
  /** As the row of places shows it; without a name it is reached from another place only. */
  readonly name?: string
  readonly view: Component
}

/** All places but the bench, which is there at once; each is fetched when it is first opened. */
export const PLACES = {
  brief: {
    name: 'Brief',
    view: lazyPart(async () => (await import('../features/brief')).BriefView),
  },
  library: {
    name: 'Formulas',
    view: lazyPart(async () => (await import('../features/library')).LibraryView),
  },
  cast: {
    name: 'Cast',
    view: lazyPart(async () => (await import('../features/cast')).CastView),
  },
  spools: {
    name: 'Spools',
    view: lazyPart(async () => (await import('../features/spools')).SpoolsView),
  },
  tying: {
    name: 'Tying',
    view: lazyPart(async () => (await import('../features/tying')).TyingView),
  },
  sheets: {
    name: 'Sheets',
    view: lazyPart(async () => (await import('../features/print')).PrintView),
  },
  water: {
    name: 'Water',
    view: lazyPart(async () => (await import('../features/leaderInUse')).LeaderInUseView),
  },
  class: {
    name: 'Class',
    view: lazyPart(async () => (await import('../features/class')).ClassView),
  },
  share: {
    view: lazyPart(async () => (await import('../features/share')).ShareView),
  },
  /** An arriving link; short, since it is in every code that is printed. */
  s: {
    view: lazyPart(async () => (await import('../features/share')).ArrivalView),
  },
  paste: {
    view: lazyPart(async () => (await import('../features/share')).PasteView),
  },
  backup: {
    view: lazyPart(async () => (await import('../features/backup')).BackupView),
  },
  versions: {
    view: lazyPart(async () => (await import('../features/backup')).VersionsView),
  },
  model: {
    view: lazyPart(async () => (await import('../features/explanation')).ExplanationView),
  },
} as const satisfies Record<string, PlaceOf>

export type Place = keyof typeof PLACES | 'bench'

/** Where undo takes back what was done to spools, batches and wallets, not to the leader on the bench. */
export const isInventoryPlace = (place: Place): boolean => place === 'spools' || place === 'tying'

/** The row of places: name and hash of each that is reached from everywhere. */
export const NAMED: readonly { id: Place; name: string }[] = [
  { id: 'bench', name: 'Bench' },
  ...Object.entries<PlaceOf>(PLACES).flatMap(([id, { name }]) =>
    name ? [{ id: id as Place, name }] : [],
  ),
]

/** The place that an address names, "#cast" or "#cast/more"; the bench if none. */
export function placeOf(hash: string): Place {
  const id = hash.slice(1).split('/', 1)[0] ?? ''
  return Object.hasOwn(PLACES, id) ? (id as Place) : 'bench'
}
