import type { Purpose, Segment } from './types'
import { THOU_M } from '../units'

/** Where in a leader a step is: below a butt piece, between pieces of the taper, or into the tippet. */
export type StepPlace = 'butt' | 'middle' | 'tip'

interface ByPurpose<T> {
  readonly usual: T
  readonly byPurpose: Partial<Readonly<Record<Purpose, T>>>
}

/**
 * Share of diameter that a step may leave, by place. Our reading: stiffness falls with the fourth power of
 * diameter; rules by thousandths from Borger, 2009 article, and common practice.
 */
export const STEP_RATIOS: Readonly<Record<StepPlace, ByPurpose<number>>> = {
  butt: {
    usual: 0.83,
    byPurpose: {
      streamer: 0.7,
      'salt-water': 0.7,
      'sinking-line': 0.5,
      'bite-tippet': 0.7,
      'tight-line-nymph': 0.5,
    },
  },
  middle: {
    usual: 0.76,
    byPurpose: {
      streamer: 0.65,
      'salt-water': 0.65,
      'sinking-line': 0.5,
      'bite-tippet': 0.65,
      'tight-line-nymph': 0.5,
    },
  },
  tip: {
    usual: 0.7,
    byPurpose: {
      streamer: 0.6,
      'salt-water': 0.6,
      'sinking-line': 0.5,
      'bite-tippet': 0.6,
      'tight-line-nymph': 0.5,
    },
  },
}

/** Most that a step may take: .002 in (Borger, 2009 article) to .004 in tolerated (common practice). */
export const STEP_SIZE: ByPurpose<number | null> = {
  usual: 4 * THOU_M,
  byPurpose: {
    streamer: 8 * THOU_M,
    'salt-water': 8 * THOU_M,
    'sinking-line': null,
    'bite-tippet': 8 * THOU_M,
    'tight-line-nymph': null,
  },
}

/** Below this share of one size two strands are two sizes: spools of one differ by 2 to 3 %, estimate. */
export const ONE_SIZE = 0.97

/** A step that is built takes at least so much more than that; estimate. */
const LEAST_STEP = ONE_SIZE - 0.01

export function stepPlace(above: Pick<Segment, 'part'>, below: Pick<Segment, 'part'>): StepPlace {
  if (above.part === 'butt') return 'butt'
  return below.part === 'tippet' ? 'tip' : 'middle'
}

/** What one step may take of the diameter. */
export interface StepLimit {
  readonly ratio: number
  /** null: thousandths are no rule here. */
  readonly size_m: number | null
}

export function stepLimit(purpose: Purpose, place: StepPlace): StepLimit {
  const { usual, byPurpose } = STEP_RATIOS[place]
  const own = STEP_SIZE.byPurpose[purpose]
  return {
    ratio: byPurpose[purpose] ?? usual,
    size_m: own === undefined ? STEP_SIZE.usual : own,
  }
}

/** How much of what it may take a step takes: above 1 it is too big, and Infinity where it is hardly one. */
export function stepLoad(above_m: number, below_m: number, { ratio, size_m }: StepLimit): number {
  const left = below_m / above_m
  if (left > LEAST_STEP) return Infinity
  return Math.max(
    Math.log(left) / Math.log(ratio),
    size_m === null ? 0 : (above_m - below_m) / size_m,
  )
}
