/** A constant with its parentage. `low` and `high` bound what it may be where it is poorly known. */
export interface Sourced {
  readonly value: number
  readonly low: number
  readonly high: number
  /** A published work, "common practice", "estimate" or "from memory". */
  readonly source: string
}

export function sourced(value: number, low: number, high: number, source: string): Sourced {
  return { value, low, high, source }
}
