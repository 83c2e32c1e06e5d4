import type { Check } from './finding'
import { knot } from '../materials'

/** Fluorocarbon is slick: on nylon it wants a knot that holds both. */
export const slippingMaterials: Check = {
  id: 'slipping-materials',
  run: ({ profile, joints }) =>
    joints.flatMap(({ index, joint }) => {
      const [above, below] = [
        profile.segments[index - 1]?.material,
        profile.segments[index]?.material,
      ]
      if (!above || !below || knot(joint.knot).holdsMixed) return []
      const isMixed = (above.family === 'fluorocarbon') !== (below.family === 'fluorocarbon')
      if (!isMixed) return []
      return [
        {
          id: 'slipping-materials' as const,
          variant: 'slick',
          severity: 'caution' as const,
          place: { kind: 'joint' as const, index },
          measured: { knot: joint.knot, above: above.name, below: below.name },
          limit: { knot: 'surgeons-triple' },
          source: 'nylon to fluorocarbon by triple surgeon’s (common practice)',
          remedies: [
            {
              id: 'change-knot',
              figures: { knot: 'surgeons-triple' },
              edit: { kind: 'knot' as const, at: index, knot: 'surgeons-triple' as const },
            },
          ],
        },
      ]
    }),
}
