import type { Judgement } from '../../engine/delivery'
import type { Leader } from '../../engine/leader'
import type { MissingPiece, Spool, Substitute } from '../../engine/tying'
import type { Say } from '../../wording'
import { measuredByShelf, substitutesFor } from '../../engine/tying'
import { deliveryWords } from '../../wording'
import { spools as words } from '../../wording/rooms/spools'

/** A formula against the shelf: what stands in for each piece it lacks, and what it is by the micrometer. */
export interface AgainstShelf {
  readonly lacks: readonly (MissingPiece & { readonly substitutes: readonly Substitute[] })[]
  readonly measured: ReturnType<typeof measuredByShelf>
}

export function againstShelf(
  leader: Leader,
  missing: readonly MissingPiece[],
  spools: readonly Spool[],
): AgainstShelf {
  const lacks = missing.map((piece) => ({
    ...piece,
    substitutes: substitutesFor(leader, piece.segment, spools),
  }))
  return { lacks, measured: measuredByShelf(leader, spools) }
}

/** The leader as its formula has it, and all that the shelf may make of it. */
export function leadersOf(leader: Leader, { lacks, measured }: AgainstShelf): readonly Leader[] {
  const substituted = lacks.flatMap(({ substitutes }) => substitutes.map((one) => one.leader))
  const isMeasured = measured.measured.length > 0
  const others = [...substituted, ...(isMeasured ? [measured.leader] : [])]
  return others.length > 0 ? [leader, ...others] : []
}

type Judged = (leader: Leader) => Judgement

/** How the leader is delivered before and after; nothing of one that is not thrown at all. */
export function deliveredTexts(before: Leader, after: Leader, judged: Judged, say: Say): string[] {
  const [was, is] = [judged(before), judged(after)]
  if (is.kind === 'not-asked') return []
  if (was.kind === 'checking' || is.kind === 'checking') return [words.tie.notFlown]
  const [from, to] = [deliveryWords(was, before, say).title, deliveryWords(is, after, say).title]
  return [from === to ? words.tie.delivered({ to }) : words.tie.deliveredNow({ from, to })]
}
