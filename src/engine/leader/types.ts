import type { Quantity } from '../units'
import type { KnotId, Material } from '../materials'
import type { Caster, CasterId, Fly, FlyLine, ShapePart } from '../tackle'
import type { Conditions, DropperWay } from './brief'

/** Parts of a leader from the line to the fly. */
export const PARTS = ['butt', 'mid-section', 'sighter', 'tippet', 'shock', 'bite'] as const
export type Part = (typeof PARTS)[number]

/** What a leader is for; limits of practice differ by it. */
export const PURPOSES = [
  'general-dry',
  'slack-line-dry',
  'nymph',
  'tight-line-nymph',
  'streamer',
  'still-water',
  'sinking-line',
  'salt-water',
  'bite-tippet',
  'teaching',
] as const
export type Purpose = (typeof PURPOSES)[number]

/** Fields of a file that this version does not know, kept so that they survive a round trip. */
export type Extra = Readonly<Record<string, unknown>>

export interface Joint {
  readonly knot: KnotId
  /** Turns on the butt side and on the fly side, where the user states them. */
  readonly turns?: readonly [butt: number, fly: number]
  /** What each side takes up, where the user has measured it. */
  readonly takeUp?: readonly [butt: Quantity, fly: Quantity]
  readonly extra?: Extra
}

export const ATTACHMENT_KINDS = ['dropper', 'ring', 'indicator', 'weight', 'fly'] as const
export type AttachmentKind = (typeof ATTACHMENT_KINDS)[number]

/** What hangs beyond the single strand. It belongs to a segment, at a distance from its butt-end knot. */
export interface Attachment {
  readonly kind: AttachmentKind
  /** How a dropper hangs; on the tag of the knot unless it says otherwise. */
  readonly way?: DropperWay
  readonly from?: Quantity
  readonly length?: Quantity
  readonly diameter?: Quantity
  readonly material?: string
  readonly knot?: KnotId
  readonly mass?: Quantity
  readonly fly?: FlyChoice
  readonly extra?: Extra
}

export interface Segment {
  /** Names this segment within its leader for as long as the leader is open; not saved. */
  readonly key: number
  readonly part: Part
  readonly material: string
  /** As labelled on the spool. */
  readonly diameter: Quantity
  /** As the user's micrometer says; wins over the label. */
  readonly measured?: Quantity
  /** The spool's size label where it says something beside the diameter, such as "6X". */
  readonly label?: string
  /** Strength on the label, and the user's own pull test, which wins. */
  readonly strength?: Quantity
  readonly pullTest?: Quantity
  /** Finished, knot centre to knot centre. */
  readonly length: Quantity
  readonly colour?: string
  readonly note?: string
  /** The joint at its butt end: to the line for the first segment, to its neighbour for the others. */
  readonly joint: Joint
  readonly attachments: readonly Attachment[]
  readonly extra?: Extra
}

/** A fly with the figures the user weighed or measured, as typed. */
export interface FlyChoice {
  readonly fly: Fly
  readonly mass?: Quantity
  readonly beadDiameter?: Quantity
  readonly extra?: Extra
}

export interface Tip {
  readonly joint: Joint
  readonly fly?: FlyChoice
  readonly extra?: Extra
}

/** What stands at either end of the leader; all of it optional, and a rule that lacks it says so. */
export interface Outfit {
  readonly rod?: Quantity
  readonly line?: FlyLine
  readonly lineTip?: Quantity
  /** The line as the user measured it, in place of the usual shape of its taper. */
  readonly lineShape?: Readonly<Partial<Record<ShapePart, Quantity>>> & { readonly extra?: Extra }
  /** Line class that the rod is marked with, 1 to 15. */
  readonly rodClass?: number
  readonly fish?: Quantity
  readonly caster?: CasterId
  /** The cast as the person measured it, which wins over the caster's. */
  readonly ownCast?: Caster
  readonly wet?: boolean
  readonly extra?: Extra
}

/** A leader from line to fly. Immutable: every edit returns a new one. */
export interface Leader {
  readonly name: string
  readonly purpose: Purpose
  readonly notes?: string
  /** A total the recipe states; compared with the sum and never corrected. */
  readonly statedTotal?: Quantity
  readonly outfit: Outfit
  /** The conditions of the brief it was made to. */
  readonly brief?: Conditions
  readonly segments: readonly Segment[]
  readonly tip: Tip
  /** The user's own materials, beside the built-in ones. */
  readonly materials: readonly Material[]
  readonly extra?: Extra
}
