import type { KnotId } from '../materials'
import type { Quantity } from '../units'
import type { Leader, Segment } from './types'
import { quantityOf } from '../units'
import {
  turnRound,
  insertSegment,
  joinWithNext,
  moveLength,
  removeSegment,
  setDiameter,
  setJoint,
  setSegment,
} from './edits'
import { scaleTo } from './scale'
import { buttTo, restepTo } from './taper'

/** An edit as data, so that a remedy can be named, offered, tested and undone. */
export type Edit =
  | {
      readonly kind: 'insert'
      readonly at: number
      readonly segment: Omit<Segment, 'key'>
      /** The piece, counted before the insertion, that gives the length, so that the total stays. */
      readonly from?: number
    }
  | { readonly kind: 'remove'; readonly at: number }
  | { readonly kind: 'join'; readonly at: number }
  | { readonly kind: 'knot'; readonly at: number; readonly knot: KnotId }
  | { readonly kind: 'length'; readonly at: number; readonly length: Quantity }
  | { readonly kind: 'diameter'; readonly at: number; readonly diameter: Quantity }
  | { readonly kind: 'label'; readonly at: number; readonly label: string }
  | { readonly kind: 'material'; readonly at: number; readonly material: string }
  | {
      readonly kind: 'move-length'
      readonly from: number
      readonly to: number
      readonly amount_m: number
    }
  | { readonly kind: 'restep'; readonly tippet: Quantity }
  | { readonly kind: 'butt'; readonly butt: Quantity }
  | { readonly kind: 'scale'; readonly total_m: number }
  | { readonly kind: 'stated-total'; readonly total: Quantity }
  | { readonly kind: 'hook'; readonly hook: number }
  | { readonly kind: 'turn-round' }

/** Applies an edit; the leader given stays as it was. */
export function applyEdit(leader: Leader, edit: Edit): Leader {
  switch (edit.kind) {
    case 'insert':
      return insertSegment(shortenedFor(leader, edit), edit.at, edit.segment)
    case 'remove':
      return removeSegment(leader, edit.at)
    case 'join':
      return joinWithNext(leader, edit.at)
    case 'knot':
      return setJoint(leader, edit.at, { knot: edit.knot })
    case 'length':
      return setSegment(leader, edit.at, { length: edit.length })
    case 'diameter':
      return setDiameter(leader, edit.at, edit.diameter)
    case 'label':
      return setSegment(leader, edit.at, { label: edit.label })
    case 'material':
      return setSegment(leader, edit.at, { material: edit.material })
    case 'move-length':
      return moveLength(leader, edit.from, edit.to, edit.amount_m)
    case 'restep':
      return restepTo(leader, edit.tippet)
    case 'butt':
      return buttTo(leader, edit.butt)
    case 'scale':
      return scaleTo(leader, edit.total_m)
    case 'stated-total':
      return { ...leader, statedTotal: edit.total }
    case 'turn-round':
      return turnRound(leader)
    case 'hook':
      return setHook(leader, edit.hook)
  }
}

function shortenedFor(leader: Leader, edit: Extract<Edit, { kind: 'insert' }>): Leader {
  const giver = edit.from === undefined ? undefined : leader.segments[edit.from]
  if (!giver || edit.from === undefined) return leader
  const left_m = giver.length.si - edit.segment.length.si
  return setSegment(leader, edit.from, { length: quantityOf(left_m, 'length', giver.length.unit) })
}

/** A fly of another size: what was weighed or measured on the old one no longer holds. */
function setHook(leader: Leader, hook: number): Leader {
  const choice = leader.tip.fly
  if (!choice) return leader
  return { ...leader, tip: { ...leader.tip, fly: { fly: { style: choice.fly.style, hook } } } }
}
