import type { Attachment, DropperWay, FlyChoice, Leader, Purpose, Segment } from '../leader'
import type { FlyStyle } from '../tackle'
import {
  diameter_m,
  insertSegment,
  setJoint,
  setSegment,
  tippetIndex,
  totalLength_m,
} from '../leader'
import { SMALLEST_HOOK } from '../tackle'
import { INCH_M, diameterOfX, quantityOf, xOfDiameter } from '../units'

export const RIG_IDS = [
  'single',
  'dry-and-dropper',
  'two-dries',
  'two-nymphs',
  'indicator',
  'tight-line',
  'wet-team',
  'streamer',
] as const
export type RigId = (typeof RIG_IDS)[number]

/** A rig of the trade; lengths in m, the spread of practice with them. */
export interface Rig {
  readonly id: RigId
  readonly purpose?: Purpose
  /** Flies added below the one that is tied on. */
  readonly added: number
  readonly way?: DropperWay
  readonly spacing?: Spread
  /** Of a dropper that stands off the leader. */
  readonly tag?: Spread
  /** Sizes that each added piece is finer. */
  readonly finerX?: number
  readonly addedFly?: { readonly style: FlyStyle; readonly smallerBy: number }
  readonly source: string
}

export interface Spread {
  readonly usual_m: number
  readonly low_m: number
  readonly high_m: number
}

const inches = (usual: number, low: number, high: number): Spread => ({
  usual_m: usual * INCH_M,
  low_m: low * INCH_M,
  high_m: high * INCH_M,
})
const TAG = inches(5, 3, 6)

export const RIGS: Readonly<Record<RigId, Rig>> = {
  single: { id: 'single', added: 0, source: 'common practice' },
  'dry-and-dropper': {
    id: 'dry-and-dropper',
    added: 1,
    way: 'bend',
    spacing: inches(18, 12, 24),
    finerX: 1,
    addedFly: { style: 'beaded-nymph', smallerBy: 2 },
    source: '12 to 24 in off the bend, set to the depth (common practice)',
  },
  'two-dries': {
    id: 'two-dries',
    added: 1,
    way: 'tag',
    spacing: inches(24, 18, 30),
    tag: TAG,
    finerX: 1,
    addedFly: { style: 'emerger', smallerBy: 2 },
    source: '18 to 30 in apart (from memory)',
  },
  'two-nymphs': {
    id: 'two-nymphs',
    purpose: 'nymph',
    added: 1,
    way: 'tag',
    spacing: inches(16, 14, 20),
    tag: TAG,
    finerX: 0,
    addedFly: { style: 'nymph', smallerBy: 2 },
    source: '14 to 20 in apart, the dropper equal or one X finer (from memory)',
  },
  indicator: {
    id: 'indicator',
    purpose: 'nymph',
    added: 0,
    source:
      'indicator at one and a half times the depth, weight 6 to 10 in above the fly (from memory)',
  },
  'tight-line': {
    id: 'tight-line',
    purpose: 'tight-line-nymph',
    added: 0,
    source: 'sighter of 20 to 24 in, then one diameter of tippet, 3 to 6 ft (common practice)',
  },
  'wet-team': {
    id: 'wet-team',
    purpose: 'still-water',
    added: 2,
    way: 'tag',
    spacing: inches(60, 48, 72),
    tag: TAG,
    finerX: 0,
    addedFly: { style: 'soft-hackle', smallerBy: 0 },
    source: 'three flies five feet apart on tags of 4 to 6 in, 3 in wind (common practice)',
  },
  streamer: {
    id: 'streamer',
    purpose: 'streamer',
    added: 0,
    source: 'one fly on an open loop, so that it swings (common practice)',
  },
}

export interface RigOptions {
  /** Depth (m) that an indicator is set for. */
  readonly depth_m?: number
  readonly spacing_m?: number
  readonly way?: DropperWay
}

const USUAL_DEPTH_M = 1

/** Puts a leader into a rig; what hung on it before is taken off. */
export function applyRig(leader: Leader, id: RigId, options: RigOptions = {}): Leader {
  const bare = withoutRig(leader)
  const rig = RIGS[id]
  const at = tippetIndex(bare)
  if (at < 0) return bare
  const rigged = rig.purpose ? { ...bare, purpose: rig.purpose } : bare
  if (id === 'indicator') return withIndicator(rigged, options.depth_m ?? USUAL_DEPTH_M)
  if (id === 'tight-line') return withSighter(rigged)
  if (id === 'streamer') return setJoint(rigged, rigged.segments.length, { knot: 'loop-knot' })
  return Array.from({ length: rig.added }).reduce<Leader>(
    (acc) => withFly(acc, rig, options),
    rigged,
  )
}

const HANGS_A_FLY = (a: Attachment) => a.kind === 'dropper' || a.kind === 'fly'

/** The leader with one fly: pieces that were tied in for further flies go, the first fly is at the tip again. */
export function withoutRig(leader: Leader): Leader {
  const first = leader.segments.findIndex((s, i) => i > 0 && s.attachments.some(HANGS_A_FLY))
  const kept = first < 0 ? leader.segments : leader.segments.slice(0, Math.max(1, first))
  const upper = leader.segments[first]?.attachments.find(HANGS_A_FLY)?.fly
  const cut = kept.length < leader.segments.length
  const below = cut ? {} : { joint: leader.tip.joint }
  const segments = kept
    .filter((s) => s.part !== 'sighter' || kept.length < 3)
    .map((s) => ({ ...s, attachments: s.attachments.filter((a) => a.kind === 'ring') }))
  return { ...leader, segments, tip: { ...leader.tip, ...below, ...(upper ? { fly: upper } : {}) } }
}

/** One more piece of tippet with a fly; the fly that was last now hangs where that piece begins. */
function withFly(
  leader: Leader,
  rig: Rig,
  { spacing_m, way = rig.way ?? 'tag' }: RigOptions,
): Leader {
  const tippet = leader.segments[leader.segments.length - 1]
  const last = leader.tip.fly
  if (!tippet || !rig.spacing || !rig.addedFly) return leader
  const diameter = finer(tippet, rig.finerX ?? 0)
  const piece: Omit<Segment, 'key'> = {
    part: 'tippet',
    material: tippet.material,
    diameter,
    length: quantityOf(spacing_m ?? rig.spacing.usual_m, 'length', tippet.length.unit),
    joint: { knot: way === 'tag' ? 'surgeons-triple' : 'ring' },
    attachments: last ? [hung(last, way, rig, tippet)] : [],
  }
  const longer = insertSegment(leader, leader.segments.length, piece)
  return { ...longer, tip: { ...longer.tip, fly: addedFly(last, rig) } }
}

function finer({ diameter, measured }: Segment, sizes: number) {
  if (sizes === 0) return measured ?? diameter
  const x = Math.round(xOfDiameter((measured ?? diameter).si)) + sizes
  return quantityOf(diameterOfX(Math.min(8, x)), 'diameter', diameter.unit)
}

function hung(fly: FlyChoice, way: DropperWay, rig: Rig, tippet: Segment): Attachment {
  if (way === 'bend') return { kind: 'fly', way, fly }
  return {
    kind: 'dropper',
    way,
    length: quantityOf((rig.tag ?? TAG).usual_m, 'length', tippet.length.unit),
    diameter: tippet.measured ?? tippet.diameter,
    material: tippet.material,
    knot: way === 'tag' ? 'surgeons-triple' : 'ring',
    fly,
  }
}

function addedFly(last: FlyChoice | undefined, rig: Rig): FlyChoice {
  const { style, smallerBy } = rig.addedFly ?? { style: 'nymph', smallerBy: 2 }
  return { fly: { style, hook: Math.min(SMALLEST_HOOK, (last?.fly.hook ?? 14) + smallerBy) } }
}

/** Length between indicator and fly over depth (from memory; 1 in slow water, 2 in fast). */
export const INDICATOR_PER_DEPTH = { slow: 1, usual: 1.5, fast: 2 } as const
const WEIGHT_ABOVE_M = 8 * INCH_M

function withIndicator(leader: Leader, depth_m: number): Leader {
  const above_m = INDICATOR_PER_DEPTH.usual * depth_m
  const place_m = Math.max(0.1, totalLength_m(leader) - above_m)
  const indicated = attachedAt(leader, place_m, { kind: 'indicator' })
  return attachedAt(indicated, totalLength_m(leader) - WEIGHT_ABOVE_M, { kind: 'weight' })
}

/** Hangs something at a distance (m) from the line's end. */
function attachedAt(leader: Leader, place_m: number, hanging: Attachment): Leader {
  let start = 0
  for (const [i, segment] of leader.segments.entries()) {
    const end = start + segment.length.si
    if (place_m < end || i === leader.segments.length - 1) {
      const from = quantityOf(
        Math.min(segment.length.si, Math.max(0.001, place_m - start)),
        'length',
        segment.length.unit,
      )
      const attachments = [...segment.attachments, { ...hanging, from }]
      return setSegment(leader, i, { attachments })
    }
    start = end
  }
  return leader
}

const SIGHTER = inches(22, 20, 24)
const TIGHT_TIPPET = inches(48, 36, 72)
const SIGHTER_STEP = 1.2 // a fifth stouter than the tippet, estimate

/** A coloured piece above a ring, then one diameter of tippet to the fly. */
function withSighter(leader: Leader): Leader {
  const at = tippetIndex(leader)
  const tippet = leader.segments[at]
  if (!tippet) return leader
  const above = leader.segments[at - 1]
  const size = Math.min(diameter_m(tippet) * SIGHTER_STEP, above ? diameter_m(above) : Infinity)
  const sighter: Omit<Segment, 'key'> = {
    part: 'sighter',
    material: 'copolymer',
    diameter: quantityOf(
      size,
      'diameter',
      tippet.diameter.unit === 'X' ? 'in' : tippet.diameter.unit,
    ),
    length: quantityOf(SIGHTER.usual_m, 'length', tippet.length.unit),
    colour: 'two bright colours',
    joint: { knot: 'surgeons-triple' },
    attachments: [],
  }
  return setSegment(insertSegment(leader, at, sighter), at + 1, {
    joint: { knot: 'ring' },
    length: quantityOf(TIGHT_TIPPET.usual_m, 'length', tippet.length.unit),
  })
}

/** Flies closer than this tangle, and so do longer tags; common practice. */
const CLOSEST_M = 12 * INCH_M
const LONGEST_TAG_M = 6 * INCH_M

export type TangleCode = 'flies-close' | 'tag-long' | 'tag-short'

/** What of a rig tangles, by common practice; joint or segment by index. */
export function tangles(
  leader: Leader,
): { readonly code: TangleCode; readonly segment: number; readonly figure_m: number }[] {
  return leader.segments.flatMap((s, i) =>
    s.attachments.filter(HANGS_A_FLY).flatMap((a) => {
      const room_m = leader.segments.slice(i).reduce((sum, below) => sum + below.length.si, 0)
      const tag_m = a.length?.si
      return [
        ...(room_m < CLOSEST_M - 1e-3
          ? [{ code: 'flies-close' as const, segment: i, figure_m: room_m }]
          : []),
        ...(tag_m !== undefined && tag_m > LONGEST_TAG_M + 1e-3
          ? [{ code: 'tag-long' as const, segment: i, figure_m: tag_m }]
          : []),
        ...(tag_m !== undefined && tag_m < TAG.low_m - 1e-3
          ? [{ code: 'tag-short' as const, segment: i, figure_m: tag_m }]
          : []),
      ]
    }),
  )
}
