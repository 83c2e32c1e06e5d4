import type { Delivered, Delivery } from './delivery'
import type { NotAsked } from './question'

/** What can be said of how a leader is delivered: what was flown, or why nothing was. */
export type Judgement =
  | { readonly kind: 'delivered'; readonly delivery: Delivery }
  | { readonly kind: 'not-asked'; readonly because: NotAsked }
  | { readonly kind: 'checking' }
  | { readonly kind: 'not-flown'; readonly reason: string }

/** A delivery as it came back, or none yet. */
export function judgementOf(delivered: Delivered | undefined): Judgement {
  if (!delivered) return { kind: 'checking' }
  if ('failed' in delivered) return { kind: 'not-flown', reason: delivered.failed }
  return { kind: 'delivered', delivery: delivered }
}

/** The delivery, where there is one. */
export const deliveryOf = (judgement: Judgement | undefined): Delivery | undefined =>
  judgement?.kind === 'delivered' ? judgement.delivery : undefined
