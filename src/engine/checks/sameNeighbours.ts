import type { Check } from './finding'
import { isSameStrand } from '../leader'

/** Two neighbours of one material, size, part and colour: a knot for nothing. */
export const sameNeighbours: Check = {
  id: 'same-neighbours',
  run: ({ leader }) =>
    leader.segments.flatMap((segment, i) => {
      const next = leader.segments[i + 1]
      // A dropper hangs on the tag of a knot, so two equal pieces are how it is tied.
      if (!next || !isSameStrand(segment, next) || next.attachments.length > 0) return []
      return [
        {
          id: 'same-neighbours' as const,
          variant: 'same',
          severity: 'note' as const,
          place: { kind: 'joint' as const, index: i + 1 },
          measured: { diameter_m: (segment.measured ?? segment.diameter).si },
          limit: {},
          source: 'every knot costs strength and catches weed (common practice)',
          remedies: [
            { id: 'join', figures: { piece: i + 1 }, edit: { kind: 'join' as const, at: i } },
          ],
        },
      ]
    }),
}
