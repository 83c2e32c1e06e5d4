/** What the brief, the fly box, the reel and a leader in use are kept as, beside the formulas. */
import * as v from 'valibot'
import type { UseEvent } from '../engine/advice'
import type { Conditions, FlyChoice, Leader, Outfit } from '../engine/leader'
import type { BackingId } from '../engine/tackle'
import type { Quantity } from '../engine/units'
import { KNOT_IDS } from '../engine/materials'
import { BACKING_IDS } from '../engine/tackle'
import { numberBetween, oneOf, quantity, record, text, writeQuantity } from './fields'
import { readFormula, toBrief, toFly, toOutfit } from './read'
import { BRIEF, FLY, OUTFIT } from './schema'
import { writeBrief, writeFly, writeFormula, writeOutfit } from './write'

type Json = Readonly<Record<string, unknown>>

/** A brief as it is filled in: the fly, the outfit, the conditions. */
export interface BriefDraft {
  readonly fly: FlyChoice
  readonly outfit: Outfit
  readonly conditions: Conditions
}

const DRAFT = record({ fly: FLY, outfit: OUTFIT, conditions: BRIEF }, 'a brief')

/** Undefined where nothing is kept, or something that is no brief. */
export function readBriefDraft(json: unknown): BriefDraft | undefined {
  const { success, output } = v.safeParse(DRAFT, json)
  if (!success) return undefined
  return {
    fly: toFly(output.fly),
    outfit: toOutfit(output.outfit),
    conditions: toBrief(output.conditions),
  }
}

export function writeBriefDraft({ fly, outfit, conditions }: BriefDraft): Json {
  return { fly: writeFly(fly), outfit: writeOutfit(outfit), conditions: writeBrief(conditions) }
}

/** A fly of the user's own. */
export interface BoxedFly {
  readonly id: string
  readonly name: string
  readonly fly: FlyChoice
}

/** The fly box; what does not read is kept and written back. */
export interface FlyBox {
  readonly flies: readonly BoxedFly[]
  readonly unread: readonly unknown[]
}

const BOXED = record({ id: text('an id'), name: text('a name'), fly: FLY }, 'a fly')

export function readBoxedFly(json: unknown): BoxedFly | undefined {
  const { success, output } = v.safeParse(BOXED, json)
  return success ? { id: output.id, name: output.name, fly: toFly(output.fly) } : undefined
}

export function writeBoxedFly({ id, name, fly }: BoxedFly): Json {
  return { id, name, fly: writeFly(fly) }
}

export function readFlyBox(json: unknown): FlyBox {
  const list: readonly unknown[] = Array.isArray(json) ? json : []
  const flies: BoxedFly[] = []
  const unread: unknown[] = []
  for (const entry of list) {
    const fly = readBoxedFly(entry)
    if (fly) flies.push(fly)
    else unread.push(entry)
  }
  return { flies, unread }
}

export function writeFlyBox({ flies, unread }: FlyBox): unknown {
  return [...flies.map(writeBoxedFly), ...unread]
}

/** A leader on the water: as it was tied, and what has happened to it since. */
export interface LeaderInUse {
  readonly start: Leader
  readonly events: readonly UseEvent[]
  /** What a change of fly clips and a break takes here, where the user says otherwise. */
  readonly clip: Quantity
  readonly lost: Quantity
}

const metres = numberBetween(0, 30, 'a length in m')
const PIECE = record(
  {
    material: text('the id of a material'),
    diameter: quantity('diameter'),
    length: quantity('length'),
    knot: oneOf(KNOT_IDS),
  },
  'a piece',
)
const CLIPPED = record({ kind: oneOf(['fly-change']), clipped_m: metres }, 'a change of fly')
const LOST = record({ kind: oneOf(['break']), lost_m: metres }, 'a break')
const TIED = record(
  {
    kind: oneOf(['added', 'replaced']),
    piece: PIECE,
    with: v.optional(v.boolean('true or nothing')),
  },
  'tippet tied on',
)
const KINDS = { 'fly-change': CLIPPED, break: LOST, added: TIED, replaced: TIED } as const

/** An event is read by its kind; one of no known kind is told what a change of fly holds. */
const EVENT = v.lazy<typeof CLIPPED | typeof LOST | typeof TIED>((input) => {
  const kind = typeof input === 'object' && input !== null && 'kind' in input ? input.kind : ''
  return KINDS[kind as keyof typeof KINDS] ?? CLIPPED
})
const IN_USE = record(
  {
    start: record({}, 'a formula'),
    events: v.array(EVENT, 'a list of what happened'),
    clip: quantity('length'),
    lost: quantity('length'),
  },
  'a leader in use',
)

export function readLeaderInUse(json: unknown): LeaderInUse | undefined {
  const { success, output } = v.safeParse(IN_USE, json)
  if (!success) return undefined
  const start = readFormula(output.start)
  if (!start.ok) return undefined
  const { events, clip, lost } = output
  return { start: start.leader, events: events, clip, lost }
}

export function writeLeaderInUse({ start, events, clip, lost }: LeaderInUse): Json {
  return {
    start: writeFormula(start),
    events: events.map(writeEvent),
    clip: writeQuantity(clip),
    lost: writeQuantity(lost),
  }
}

function writeEvent(event: UseEvent): unknown {
  if (!('piece' in event)) return { ...event }
  const { material, diameter, length, knot } = event.piece
  const piece = { material, diameter: writeQuantity(diameter), length: writeQuantity(length), knot }
  return { kind: event.kind, piece, ...('with' in event && event.with ? { with: true } : {}) }
}

/** A reel: its spool where it was measured, else what it is said to hold; and the backing on it. */
export interface Reel {
  readonly arbor?: Quantity | undefined
  readonly width?: Quantity | undefined
  readonly rim?: Quantity | undefined
  readonly gap?: Quantity | undefined
  /** As written on the reel: a line and so much backing. */
  readonly holdsLine?: string | undefined
  /** As typed: `80 m`, `100 yd`. */
  readonly holdsBacking?: string | undefined
  readonly backing: BackingId
  readonly backingDiameter?: Quantity | undefined
}

const length = v.optional(quantity('length'))
const REEL = record(
  {
    arbor: length,
    width: length,
    rim: length,
    gap: length,
    holdsLine: v.optional(text('a line')),
    holdsBacking: v.optional(text('a length of backing')),
    backing: oneOf(BACKING_IDS),
    backingDiameter: v.optional(quantity('diameter')),
  },
  'a reel',
)

export function readReel(json: unknown): Reel | undefined {
  const { success, output } = v.safeParse(REEL, json)
  return success ? output : undefined
}

const REEL_FIGURES = ['arbor', 'width', 'rim', 'gap', 'backingDiameter']

export function writeReel(reel: Reel): Json {
  const fields = Object.entries(reel).filter(([, value]) => value !== undefined)
  return Object.fromEntries(
    fields.map(([key, value]: [string, unknown]) => [
      key,
      REEL_FIGURES.includes(key) ? writeQuantity(value as Quantity) : value,
    ]),
  )
}
