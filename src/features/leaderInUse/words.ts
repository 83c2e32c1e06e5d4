import type { Addition, UseEvent, UseStatus } from '../../engine/advice'
import type { Say } from '../../wording'
import { knot } from '../../engine/materials'
import { formatX } from '../../engine/units'
import { speedText } from '../../wording'

/** A diameter as its size on the spool and as it measures: "5X (.006 in)". */
export function sizeText(diameter_m: number, say: Say): string {
  const [x, plain] = [formatX(diameter_m), say.diameter(diameter_m)]
  return x === plain || !x.endsWith('X') ? plain : `${x} (${plain})`
}

/** How the leader stands, in one sentence that can be read at arm's length. */
export function stateWords({ state, end_m, shortest_m, changesLeft }: UseStatus, say: Say): string {
  if (state === 'in-taper')
    return `The tippet is gone: the end is in the taper and is now ${sizeText(end_m, say)}.`
  if (state === 'short') return `Too short: below ${say.length(shortest_m)}.`
  if (changesLeft === 0) return 'Good for now; the next change makes it too short.'
  return `Good for ${changesLeft} more ${changesLeft === 1 ? 'change' : 'changes'} of fly.`
}

/** What to tie on, piece by piece. */
export function additionWords({ pieces, replaces }: Addition, say: Say): string[] {
  const tied = pieces.map(
    ({ diameter, length, knot: by }) =>
      `Tie on ${say.length(length.si)} of ${sizeText(diameter.si, say)} by ${knot(by).name.toLowerCase()}.`,
  )
  return replaces ? ['Cut off what is left of the tippet and take it home.', ...tied] : tied
}

/** What the leader is then. */
export function afterWords({ total_m, needed_m_s, strength_N }: Addition, say: Say): string {
  const turnover =
    needed_m_s === null ? '' : `; needs ${speedText(needed_m_s)} of line speed (estimate)`
  return `Then ${say.length(total_m)} in all, holds ${say.force(strength_N)} wet at its weakest place${turnover}.`
}

/** A line of the log. */
export function eventWords(event: UseEvent, say: Say): string {
  switch (event.kind) {
    case 'fly-change':
      return `Changed the fly, ${say.length(event.clipped_m)} clipped`
    case 'break':
      return `Broke off, ${say.length(event.lost_m)} lost`
    case 'added':
      return `Tied on ${event.piece.length.text} of ${event.piece.diameter.text}`
    case 'replaced':
      return `Cut the stub off, tied on ${event.piece.length.text} of ${event.piece.diameter.text}`
  }
}
