import type { Judgement } from '../../engine/delivery'
import type { Leader } from '../../engine/leader'
import type { DeliveryWords, Say } from '../../wording'
import { deliveryWords } from '../../wording'

const NOT_YET: DeliveryWords = { title: 'Not flown yet', mark: 'none', sentences: [] }

/** As on the screen; paper does not wait, so what is still being thrown says that it is not in. */
export function verdictOnPaper(
  judgement: Judgement | undefined,
  leader: Leader,
  say: Say,
): DeliveryWords {
  if (!judgement || judgement.kind === 'checking') return NOT_YET
  return deliveryWords(judgement, leader, say)
}
