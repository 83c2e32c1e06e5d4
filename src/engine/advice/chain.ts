import type { Attachment, FlyChoice, Leader } from '../leader'
import type { Sourced } from '../materials'
import { totalLength_m } from '../leader'
import { knot, sourced } from '../materials'
import { strengthOf } from '../strength'

/** A link of the chain between a fly and the line. */
export interface Link {
  readonly kind: 'segment' | 'joint' | 'dropper' | 'dropper-knot' | 'dropper-eye'
  readonly index: number
  readonly strength: Sourced
}

/** What goes when one fly is held fast and pulled until something breaks. */
export interface Break {
  readonly fly: FlyChoice | undefined
  /** Index of the segment that the fly hangs at; the number of segments for the fly at the tip. */
  readonly at: number
  readonly weakest: Link
  readonly fliesLost: number
  /** Length (m) of leader that goes with them. */
  readonly lost_m: number
}

const hangsAFly = (a: Attachment) => a.kind === 'dropper' || a.kind === 'fly'

/** For every fly, the point fly first, where the chain above it breaks and what is lost. */
export function breaksOf(leader: Leader): Break[] {
  const chain = mainChain(leader)
  const count = leader.segments.length
  const point = breakAt(leader, leader.tip.fly, count, chain)
  const droppers = leader.segments.flatMap((s, i) =>
    s.attachments
      .filter(hangsAFly)
      .map((a) =>
        breakAt(leader, a.fly, i, [
          ...chain.filter((l) => isAbove(l, i)),
          ...ownLinks(leader, i, a),
        ]),
      ),
  )
  return [point, ...droppers.reverse()]
}

/** Segments and knots of the single strand, wet, from the line down. */
function mainChain(leader: Leader): Link[] {
  const { segments, joints } = strengthOf(leader)
  return joints.flatMap((joint, i): Link[] => [
    { kind: 'joint', index: i, strength: joint.wet },
    ...(segments[i] ? [{ kind: 'segment' as const, index: i, strength: segments[i].wet }] : []),
  ])
}

/** What is above the knot at the butt end of segment i; that knot itself is counted with the dropper's strand. */
const isAbove = (link: Link, i: number) => link.index < i

function ownLinks(leader: Leader, i: number, hanging: Attachment): Link[] {
  const segment = leader.segments[i]
  if (!segment) return []
  // Tied to the tippet above, with the next piece on its bend: only its own eye is in the way.
  if (hanging.kind === 'fly') return eyeOf(leader, i)
  const strand = {
    ...segment,
    diameter: hanging.diameter ?? segment.diameter,
    material: hanging.material ?? segment.material,
    attachments: [],
  }
  const { measured: _m, strength: _s, pullTest: _p, ...bare } = strand
  const wet = strengthOf({ ...leader, segments: [bare] }).segments[0]?.wet
  if (!wet) return []
  const at = (id: Parameters<typeof knot>[0]) => {
    const { value, low, high, source } = knot(id).efficiency
    return sourced(wet.value * value, wet.low * low, wet.high * high, source)
  }
  return [
    { kind: 'dropper-knot', index: i, strength: at(hanging.knot ?? 'surgeons-triple') },
    { kind: 'dropper', index: i, strength: wet },
    { kind: 'dropper-eye', index: i, strength: at('improved-clinch') },
  ]
}

function eyeOf(leader: Leader, i: number): Link[] {
  const wet = strengthOf(leader).segments[Math.max(0, i - 1)]?.wet
  if (!wet) return []
  const { value, low, high, source } = knot('improved-clinch').efficiency
  const strength = sourced(wet.value * value, wet.low * low, wet.high * high, source)
  return [{ kind: 'joint', index: i, strength }]
}

/** Of equals the one nearest the fly gives. */
function breakAt(
  leader: Leader,
  fly: FlyChoice | undefined,
  at: number,
  chain: readonly Link[],
): Break {
  const weakest = chain.reduce((least, link) =>
    link.strength.value <= least.strength.value ? link : least,
  )
  const ofDropper = weakest.kind.startsWith('dropper')
  const starts = leader.segments.reduce<number[]>(
    (list, s) => [...list, (list.at(-1) ?? 0) + s.length.si],
    [0],
  )
  const place_m = starts[weakest.index] ?? 0
  const below = leader.segments.slice(weakest.index).flatMap((s) => s.attachments.filter(hangsAFly))
  return {
    fly,
    at,
    weakest,
    fliesLost: ofDropper ? 1 : below.length + (leader.tip.fly ? 1 : 0),
    lost_m: ofDropper ? 0 : totalLength_m(leader) - place_m,
  }
}
