import type { Addition, UseEvent, UseStatus } from '../../engine/advice'
import type { Judgement } from '../../engine/delivery'
import type { Say } from '../../wording'
import { knot } from '../../engine/materials'
import { formatX } from '../../engine/units'
import { deliveryLine } from '../../wording'
import { leaderInUse as words } from '../../wording/rooms/leaderInUse'

/** A diameter as its size on the spool and as it measures: "5X (.006 in)". */
export function sizeText(diameter_m: number, say: Say): string {
  const [x, plain] = [formatX(diameter_m), say.diameter(diameter_m)]
  return x === plain || !x.endsWith('X') ? plain : `${x} (${plain})`
}

/** How the leader stands, in one sentence that can be read at arm's length. */
export function stateWords({ state, end_m, shortest_m, changesLeft }: UseStatus, say: Say): string {
  if (state === 'in-taper') return words.state.inTaper({ size: sizeText(end_m, say) })
  if (state === 'short') return words.state.short({ length: say.length(shortest_m) })
  return changesLeft === 0 ? words.state.last : words.state.good({ count: changesLeft })
}

/** What to tie on, piece by piece. */
export function additionWords({ pieces, replaces }: Addition, say: Say): string[] {
  const tied = pieces.map(({ diameter, length, knot: by }) =>
    words.addition.tieOn({
      length: say.length(length.si),
      size: sizeText(diameter.si, say),
      knot: knot(by).name.toLowerCase(),
    }),
  )
  return replaces ? [words.addition.cutOff, ...tied] : tied
}

/** What the leader is then. */
export const afterWords = ({ total_m, strength_N }: Addition, say: Say): string =>
  words.addition.after({
    length: say.length(total_m),
    force: say.force(strength_N),
  })

/** How the leader is then delivered. */
export const thenWords = ({ leader }: Addition, judgement: Judgement, say: Say): string =>
  words.addition.delivered({ line: deliveryLine(judgement, leader, say) })

/** A line of the log. */
export function eventWords(event: UseEvent, say: Say): string {
  switch (event.kind) {
    case 'fly-change':
      return words.event.changed({ length: say.length(event.clipped_m) })
    case 'break':
      return words.event.broke({ length: say.length(event.lost_m) })
    case 'added':
    case 'replaced': {
      const { length, diameter } = event.piece
      return words.event[event.kind]({ length: length.text, size: diameter.text })
    }
  }
}
