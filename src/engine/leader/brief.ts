import type { Extra } from './types'

/** Kinds of water, by what they ask of a leader. */
export const WATERS = [
  'small-stream',
  'pocket-water',
  'riffle',
  'flat',
  'still-water',
  'salt-water',
] as const
export type Water = (typeof WATERS)[number]

export const WARINESS = ['easy', 'usual', 'pressured'] as const
export type Wariness = (typeof WARINESS)[number]

export const DISTANCES = ['near', 'usual', 'far'] as const
export type Distance = (typeof DISTANCES)[number]

export const WINDS = ['calm', 'breeze', 'strong'] as const
export type Wind = (typeof WINDS)[number]

/**
 * Under what conditions a leader is to fish. With its outfit, its fish and its fly this is the brief that
 * it was made to, and is saved with it.
 */
export interface Conditions {
  readonly water: Water
  readonly wariness: Wariness
  readonly distance: Distance
  readonly wind: Wind
  /** Weed, rocks or timber that a fish may run into. */
  readonly snags?: boolean
  /** Water at or above what is too warm to play a trout in. */
  readonly warm?: boolean
  /** Pike or others whose teeth cut what nylon there is between them and the leader. */
  readonly toothy?: boolean
  readonly extra?: Extra
}

/** How a fly is hung beyond the single strand. */
export const DROPPER_WAYS = ['tag', 'bend', 'ring', 'loop'] as const
export type DropperWay = (typeof DROPPER_WAYS)[number]
