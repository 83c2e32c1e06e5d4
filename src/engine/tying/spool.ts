import type { Leader, Segment } from '../leader'
import type { Family } from '../materials'
import type { Quantity } from '../units'
import { BUILT_IN_MATERIALS } from '../materials'
import { materialOf, shareOf } from '../leader'

export const SPOOL_STATES = ['good', 'old', 'damaged'] as const
/** Old holds for butt and middle only; damaged holds for nothing. */
export type SpoolState = (typeof SPOOL_STATES)[number]

/** A spool on the shelf, as the user describes it. */
export interface Spool {
  readonly id: string
  /** Id of a built-in material, or the name of one of the user's own. */
  readonly material: string
  /** The diameter on its label. */
  readonly size: Quantity
  /** Whatever else the label says. */
  readonly label?: string
  readonly strength?: Quantity
  /** The user's micrometer, at several places and turned between them. */
  readonly readings: readonly Quantity[]
  readonly pullTests: readonly Quantity[]
  /** What is left on it, in one piece. */
  readonly left: Quantity
  /** What it holds when it is new. */
  readonly full?: Quantity
  /** Price of a whole spool, in whatever money the user counts in. */
  readonly price?: number
  /** Day it was bought, ISO 8601: 2026-02-28. */
  readonly bought?: string
  readonly state: SpoolState
  readonly colour?: string
  readonly note?: string
}

/** Several readings of one thing: mean, sample standard deviation and the difference of the extremes. */
export interface Readings {
  readonly count: number
  readonly mean: number
  readonly deviation: number
  readonly range: number
}

/** null where nothing was read; the deviation of a single reading is 0. */
export function readingsOf(quantities: readonly Quantity[]): Readings | null {
  const count = quantities.length
  if (count === 0) return null
  const values = quantities.map(({ si }) => si)
  const mean = values.reduce((sum, value) => sum + value, 0) / count
  const squares = values.reduce((sum, value) => sum + (value - mean) ** 2, 0)
  return {
    count,
    mean,
    deviation: count > 1 ? Math.sqrt(squares / (count - 1)) : 0,
    range: Math.max(...values) - Math.min(...values),
  }
}

/** The diameter (m) that counts: the mean of the readings where there are any, else the label. */
export function spoolDiameter_m(spool: Spool): number {
  return readingsOf(spool.readings)?.mean ?? spool.size.si
}

/** An old strand holds less; a year-old fine nylon broke under half its rating (common practice). Estimate. */
const OLD_KEEPS = 0.7

/** What it holds dry (N): the mean pull test, else the label less what age took; null where neither is known. */
export function spoolStrength_N(spool: Spool): number | null {
  const tested = readingsOf(spool.pullTests)
  if (tested) return tested.mean
  if (!spool.strength) return null
  return spool.strength.si * (spool.state === 'old' ? OLD_KEEPS : 1)
}

export type SpoolWarning =
  | { readonly kind: 'damaged' | 'old' }
  | { readonly kind: 'dated'; readonly years: number; readonly limit_years: number }
  | { readonly kind: 'uneven'; readonly range: number }
  | { readonly kind: 'off-label'; readonly share: number }

/** Years after which a dated spool is doubted: nylon takes up water and light (common practice), estimate. */
const YEARS: Readonly<Record<Family, number>> = {
  nylon: 2,
  copolymer: 2,
  fluorocarbon: 8,
  polyester: 8,
  braid: 8,
  wire: 20,
}
const UNEVEN_SHARE = 0.08 // readings that differ by more tell of an oval or worn strand, estimate
const OFF_LABEL_SHARE = 0.08 // labels are seldom truer than this (common practice)

/** What is to be said against a spool. @param today ISO 8601 day. */
export function spoolWarnings(spool: Spool, today: string): SpoolWarning[] {
  const warnings: SpoolWarning[] = []
  if (spool.state !== 'good') warnings.push({ kind: spool.state })
  const years = yearsBetween(spool.bought, today)
  const limit_years = YEARS[familyOf(spool)]
  if (years !== null && years >= limit_years) warnings.push({ kind: 'dated', years, limit_years })
  const read = readingsOf(spool.readings)
  if (!read) return warnings
  if (read.range / read.mean > UNEVEN_SHARE) warnings.push({ kind: 'uneven', range: read.range })
  const share = read.mean / spool.size.si - 1
  if (Math.abs(share) > OFF_LABEL_SHARE) warnings.push({ kind: 'off-label', share })
  return warnings
}

function familyOf(spool: Spool): Family {
  return BUILT_IN_MATERIALS.find((m) => m.id === spool.material)?.family ?? 'nylon'
}

/** Years from one ISO day to another; null where the first is no date or lies ahead. */
function yearsBetween(from: string | undefined, to: string): number | null {
  const [a, b] = [dayNumber(from), dayNumber(to)]
  return a === null || b === null || b < a ? null : (b - a) / 365.2425
}

/** Days since the year 0 of an ISO date (days from civil, Fliegel and Van Flandern, 1968). */
function dayNumber(iso: string | undefined): number | null {
  const [, y, m, d] = /^(\d{4})-(\d\d)-(\d\d)/.exec(iso ?? '') ?? []
  if (y === undefined) return null
  const [year, month, day] = [Number(y), Number(m), Number(d)]
  const a = Math.trunc((month - 14) / 12)
  return (
    day -
    32075 +
    Math.trunc((1461 * (year + 4800 + a)) / 4) +
    Math.trunc((367 * (month - 2 - a * 12)) / 12) -
    Math.trunc((3 * Math.trunc((year + 4900 + a) / 100)) / 4)
  )
}

/** Half a trade step of the finest sizes: labels closer than this name the same strand. Estimate. */
const SAME_SIZE_M = 2.6e-6
const SAME_SIZE_SHARE = 0.02

/** Whether a spool is what the formula asks for: material, labelled size and, in a sighter, colour. */
export function isFor(spool: Spool, leader: Leader, segment: Segment): boolean {
  return isUsableFor(spool, segment) && isSameStrandAs(spool, leader, segment)
}

function isSameStrandAs(spool: Spool, leader: Leader, segment: Segment): boolean {
  const apart = Math.abs(spool.size.si - segment.diameter.si)
  const near = Math.max(SAME_SIZE_M, SAME_SIZE_SHARE * segment.diameter.si)
  return isMaterialOf(spool, leader, segment) && apart <= near && isColourOf(spool, segment)
}

function isMaterialOf(spool: Spool, leader: Leader, segment: Segment): boolean {
  if (spool.material === segment.material) return true
  const own = leader.materials.find((m) => m.id === segment.material)
  return own !== undefined && own.name.toLowerCase() === spool.material.toLowerCase()
}

function isColourOf(spool: Spool, segment: Segment): boolean {
  if (segment.part !== 'sighter' || !segment.colour || !spool.colour) return true
  return segment.colour.toLowerCase() === spool.colour.toLowerCase()
}

/** Damaged strand is for nothing, old strand not for what the fish hangs on. */
export function isUsableFor(spool: Spool, segment: Segment): boolean {
  if (spool.state === 'damaged') return false
  return spool.state === 'good' || shareOf(segment.part) !== 'tippet'
}

/** The id by which a leader knows a spool's material; null where it does not know it. */
export function materialIdIn(leader: Leader, spool: Spool): string | null {
  const own = leader.materials.find((m) => m.name.toLowerCase() === spool.material.toLowerCase())
  if (own) return own.id
  return BUILT_IN_MATERIALS.some((m) => m.id === spool.material) ? spool.material : null
}

/** The family of a piece's material, to weigh what may stand in for it. */
export const segmentFamily = (leader: Leader, segment: Segment): Family =>
  materialOf(leader, segment.material).family
