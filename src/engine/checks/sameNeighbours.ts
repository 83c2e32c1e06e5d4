import type { Check, FindingOf } from './finding'
import { isSameStrand } from '../leader'

type SameNeighbours = FindingOf<'same-neighbours', 'same', { diameter_m: number }>

/** Two neighbours of one material, size, part and colour: a knot for nothing. */
export const sameNeighbours: Check<SameNeighbours> = {
  id: 'same-neighbours',
  oneFor: 'place',
  bounds: [],
  limits: {},
  run: ({ leader }) =>
    leader.segments.flatMap((segment, i): SameNeighbours[] => {
      const next = leader.segments[i + 1]
      // A dropper hangs on the tag of a knot, so two equal pieces are how it is tied.
      if (!next || !isSameStrand(segment, next) || next.attachments.length > 0) return []
      return [
        {
          id: 'same-neighbours',
          variant: 'same',
          severity: 'note',
          place: { kind: 'joint', index: i + 1 },
          measured: { diameter_m: (segment.measured ?? segment.diameter).si },
          limit: {},
          source: 'every knot costs strength and catches weed (common practice)',
          remedies: [{ id: 'join', edit: { kind: 'join', at: i } }],
        },
      ]
    }),
}
