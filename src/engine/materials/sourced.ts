/** A constant with its parentage. `low` and `high` bound what it may be where it is poorly known. */
export interface Sourced {
  readonly value: number
  readonly low: number
  readonly high: number
  /** A published work, "common practice", "estimate" or "from memory". */
  readonly source: string
  /** How well the user's own measurement knows it; where there is none, the bounds say. */
  readonly measured?: Spread
}

export function sourced(value: number, low: number, high: number, source: string): Sourced {
  return { value, low, high, source }
}

/** Where a spread comes from. */
export type Origin = 'estimate' | 'label' | 'measured'

/** How far the truth may lie from a figure. */
export interface Spread {
  /** Standard deviation: of the natural logarithm, or of a length, height or angle itself. */
  readonly sd: number
  readonly from: Origin
  /** How far the centre lies off the figure, on the same scale; 0 if left out. */
  readonly shift?: number
}

/** The user's own figure, shown as it is, with the error of such a measurement (sd of its logarithm). */
export function measured(value: number, sd: number, source: string): Sourced {
  return { ...sourced(value, value, value, source), measured: { sd, from: 'measured' } }
}

/** A figure that lies evenly between two bounds has this share of the half of its width as sd. */
export const EVEN = 1 / Math.sqrt(3)

/** The spread of a positive figure: as measured, else as if its logarithm lay evenly between the bounds. */
export function spreadOf({ low, high, measured: own }: Sourced): Spread {
  return own ?? { sd: (EVEN * Math.log(high / low)) / 2, from: 'estimate' }
}

/** What is true of a strand whose label is all that is known of it, and of one under a micrometer. */
export const DIAMETER_SPREAD = {
  /** Six fluorocarbons measured 1.025 times their label, sd .03 widened for other makes: a trade test. */
  label: { sd: 0.03, shift: Math.log(1.025), from: 'label' },
  /** A hundredth: estimate. */
  measured: { sd: 0.01, from: 'measured' },
} as const satisfies Readonly<Record<string, Spread>>
