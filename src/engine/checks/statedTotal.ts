import type { Check, FindingOf } from './finding'
import { quantityOf } from '../units'

const TOLERANCE = 0.01 // a rule laid along a leader reads within 1 %, estimate

type StatedTotal = FindingOf<'stated-total', 'differs', { total_m: number }, { total_m: number }>

/** A total that the recipe states and its pieces do not make: said, never corrected in silence. */
export const statedTotal: Check<StatedTotal, 'no-stated-total'> = {
  id: 'stated-total',
  oneFor: 'leader',
  bounds: [],
  limits: {},
  run: ({ leader, profile }) => {
    const stated = leader.statedTotal
    if (!stated) return 'no-stated-total'
    if (Math.abs(profile.total_m / stated.si - 1) <= TOLERANCE) return []
    const total = quantityOf(profile.total_m, 'length', stated.unit)
    return [
      {
        id: 'stated-total',
        variant: 'differs',
        severity: 'caution',
        place: { kind: 'leader', index: 0 },
        measured: { total_m: profile.total_m },
        limit: { total_m: stated.si },
        source: 'the total stated in the formula',
        remedies: [
          { id: 'restate', edit: { kind: 'stated-total', total } },
          {
            id: 'scale',
            edit: { kind: 'scale', total_m: stated.si },
          },
        ],
      },
    ]
  },
}
