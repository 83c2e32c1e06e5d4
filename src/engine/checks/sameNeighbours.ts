import type { Check, FindingOf, Remedy } from './finding'
import type { Leader, Part, Segment } from '../leader'
import { ONE_SIZE, diameter_m, tippetIndex } from '../leader'

type SameNeighbours = FindingOf<'same-neighbours', 'same', { diameter_m: number; below_m: number }>

/** Two neighbours of one material, size and colour: a knot for nothing. */
export const sameNeighbours: Check<SameNeighbours> = {
  id: 'same-neighbours',
  oneFor: 'place',
  bounds: [],
  limits: {},
  run: ({ leader }) =>
    leader.segments.flatMap((segment, i): SameNeighbours[] => {
      const next = leader.segments[i + 1]
      // A dropper hangs on the tag of a knot, so two equal pieces are how it is tied.
      if (!next || !isSameStrand(leader, segment, next) || next.attachments.length > 0) return []
      return [
        {
          id: 'same-neighbours',
          variant: 'same',
          severity: 'note',
          place: { kind: 'joint', index: i + 1 },
          measured: { diameter_m: diameter_m(segment), below_m: diameter_m(next) },
          limit: {},
          source:
            'every knot costs strength and catches weed (common practice); spools of one size differ by 2 to 3 %: estimate',
          remedies: [{ id: 'join', edit: { kind: 'join', at: i } }, ...restepped(leader)],
        },
      ]
    }),
}

/** Parts by which the taper alone is divided: a knot between them has no use but a step. */
const OF_TAPER: readonly Part[] = ['butt', 'mid-section']

/** Whether two neighbours are of one material, size and colour, and there for the same thing. */
function isSameStrand({ purpose }: Leader, a: Segment, b: Segment): boolean {
  const isOfTaper = OF_TAPER.includes(a.part) && OF_TAPER.includes(b.part)
  // A level line that is shown to a class has a butt all the same.
  const isForSame = a.part === b.part || (isOfTaper && purpose !== 'teaching')
  const [one, other] = [diameter_m(a), diameter_m(b)]
  const isOneSize = Math.min(one, other) > ONE_SIZE * Math.max(one, other)
  return isForSame && isOneSize && a.material === b.material && a.colour === b.colour
}

/** Where one piece of the two sizes would make its next step too big: the whole taper anew. */
function restepped(leader: Leader): Remedy[] {
  const tippet = leader.segments[tippetIndex(leader)]
  if (!tippet) return []
  return [{ id: 'restep', edit: { kind: 'restep', tippet: tippet.measured ?? tippet.diameter } }]
}
