/** The settings, and how each is read from what an older, newer or damaged record holds. Pure. */
import type { LimitId, LimitOverrides } from '../engine/checks'
import type { SpeedUnit } from '../engine/units'
import { LIMIT_IDS } from '../engine/checks'
import { SPEED_UNITS } from '../engine/units'

export const DIAMETER_UNITS = ['typed', 'in', 'thou', 'mm', 'X'] as const
export const LENGTH_UNITS = ['typed', 'in', 'ft-in', 'cm', 'm'] as const
export { SPEED_UNITS }
export const FORCE_UNITS = ['lb', 'kg'] as const
export const PAPERS = ['a4', 'letter'] as const
export const THEMES = ['auto', 'light', 'dark'] as const

export interface Settings {
  /** "typed": shown as each figure was typed. */
  readonly diameterUnit: (typeof DIAMETER_UNITS)[number]
  readonly lengthUnit: (typeof LENGTH_UNITS)[number]
  readonly forceUnit: (typeof FORCE_UNITS)[number]
  readonly speedUnit: SpeedUnit
  readonly theme: (typeof THEMES)[number]
  /** The user's own limits in place of ours. */
  readonly limits: LimitOverrides
  readonly lastOpened: string | undefined
  /** Id of the formula that others are compared with: one the user already casts. */
  readonly yardstick: string | undefined
  /** Where links of labels and messages lead; missing: this page's own address. */
  readonly linkBase: string | undefined
  readonly paper: (typeof PAPERS)[number]
  /** Day of the last backup and the last revision that was in it. */
  readonly backedUpAt: string | undefined
  readonly backedUpRevision: number
  /** Whether the user knows that leaders are judged as they are delivered; older records lack it. */
  readonly knowsDelivery: boolean
}

type Reader<T> = (value: unknown) => T

const oneOf =
  <const T extends readonly [string, ...string[]]>(list: T): Reader<T[number]> =>
  (value) =>
    list.find((item) => item === value) ?? list[0]

const READERS: { readonly [K in keyof Settings]: Reader<Settings[K]> } = {
  diameterUnit: oneOf(DIAMETER_UNITS),
  lengthUnit: oneOf(LENGTH_UNITS),
  forceUnit: oneOf(FORCE_UNITS),
  speedUnit: oneOf(SPEED_UNITS),
  theme: oneOf(THEMES),
  limits: readLimits,
  lastOpened: textOrNone,
  yardstick: textOrNone,
  linkBase: (value) => textOrNone(value)?.match(/^https?:\/\/\S+$/)?.[0],
  paper: oneOf(PAPERS),
  backedUpAt: textOrNone,
  backedUpRevision: (value) => (isLimit(value) ? value : 0),
  knowsDelivery: (value) => value === true,
}

function textOrNone(value: unknown): string | undefined {
  return typeof value === 'string' ? value : undefined
}

/** Every field on its own: a damaged one falls back to what we ship and takes no other with it. */
export function settingsFrom(value: unknown): Settings {
  const fields = isRecord(value) ? value : {}
  const read = Object.entries(READERS).map(([key, reader]) => [key, reader(fields[key])] as const)
  return Object.fromEntries(read) as unknown as Settings
}

function readLimits(value: unknown): LimitOverrides {
  const fields = isRecord(value) ? value : {}
  const kept = LIMIT_IDS.filter((id) => isLimit(fields[id]))
  return Object.fromEntries(kept.map((id: LimitId) => [id, fields[id]]))
}

const isLimit = (value: unknown): value is number =>
  typeof value === 'number' && Number.isFinite(value) && value >= 0

function isRecord(value: unknown): value is Readonly<Record<string, unknown>> {
  return typeof value === 'object' && value !== null
}
