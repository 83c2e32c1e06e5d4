/** What a leader with its cast is found to do, for holding a lesson's claims against. */
import type { Found, Posed } from '../../src/engine/explore'
import { caseOf, leastLineSpeed, runCast, STRAIGHT_EXTENSION } from '../../src/engine/cast'
import { measuresOf } from '../../src/engine/explore'
import { strengthOf } from '../../src/engine/strength'

export function foundOf({ leader, choices }: Posed): Found {
  const input = caseOf(leader, choices)
  if (typeof input === 'string') throw new Error(`${leader.name}: ${input}`)
  const { lineSpeed_m_s } = input.cast
  return {
    ...measuresOf(runCast(input)),
    strength_N: strengthOf(leader).weakest.strength.wet.value,
    // Many flights: found only where it is claimed.
    get leastSpeed_m_s() {
      const wanted = { target: STRAIGHT_EXTENSION, from_m_s: lineSpeed_m_s, tolerance_m_s: 0.2 }
      return leastLineSpeed({ ...input, mesh: 'coarse' }, wanted)
    },
  }
}
