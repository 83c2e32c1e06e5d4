import type { Check, FindingOf } from './finding'
import type { KnotId } from '../materials'
import { knot } from '../materials'

type SlippingMaterials = FindingOf<
  'slipping-materials',
  'slick',
  { knot: KnotId; above: string; below: string },
  { knot: KnotId }
>

/** Fluorocarbon is slick: on nylon it wants a knot that holds both. */
export const slippingMaterials: Check<SlippingMaterials> = {
  id: 'slipping-materials',
  oneFor: 'place',
  bounds: [],
  limits: {},
  run: ({ pieces }) =>
    pieces.flatMap(({ profile, above: { joint } }, index): SlippingMaterials[] => {
      const [above, below] = [pieces[index - 1]?.profile.material, profile.material]
      if (!above || knot(joint.knot).holdsMixed) return []
      const isMixed = (above.family === 'fluorocarbon') !== (below.family === 'fluorocarbon')
      if (!isMixed) return []
      return [
        {
          id: 'slipping-materials',
          variant: 'slick',
          severity: 'caution',
          place: { kind: 'joint', index },
          measured: { knot: joint.knot, above: above.name, below: below.name },
          limit: { knot: 'surgeons-triple' },
          source: 'nylon to fluorocarbon by triple surgeon’s (common practice)',
          remedies: [
            {
              id: 'change-knot',
              edit: { kind: 'knot', at: index, knot: 'surgeons-triple' },
            },
          ],
        },
      ]
    }),
}
