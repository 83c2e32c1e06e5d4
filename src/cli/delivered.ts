import type { Delivered } from '../engine/delivery'

/** A delivery as it is printed; the shape is documented in README.md. */
export function printed(delivered: Delivered) {
  if ('failed' in delivered) return { notChecked: delivered.failed }
  const { state, best, least } = delivered
  const { pieceLays: _, ...shown } = best
  return { state, best: shown, least }
}
