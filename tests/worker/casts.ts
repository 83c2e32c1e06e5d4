/** Leaders to cast: one that turns over with ease, one that its fly is too bulky for. */
import type { Leader } from '../../src/engine/leader'
import type { CastCase } from '../../src/engine/cast'
import { caseOf } from '../../src/engine/cast'
import { leaderOf, lineOf } from '../engine/build'

export { soundLeader } from '../engine/build'

/** A popper on a long fine tippet: lazy at an ordinary caster's speed, and to be cured. */
export function overloadedLeader(patch: Partial<Leader> = {}): Leader {
  return leaderOf(
    [
      { length: '40 in', diameter: '18 thou', part: 'butt' },
      { length: '30 in', diameter: '11 thou', part: 'mid-section' },
      { length: '40 in', diameter: '5X', part: 'tippet' },
    ],
    {
      name: 'Overloaded',
      outfit: { line: lineOf('WF4F'), caster: 'ordinary' },
      tip: { joint: { knot: 'improved-clinch' }, fly: { fly: { style: 'popper', hook: 4 } } },
      ...patch,
    },
  )
}

/** The case of a leader that must have one, on the quick mesh. */
export function quickCase(leader: Leader): CastCase {
  const input = caseOf(leader, { mesh: 'coarse' })
  if (typeof input === 'string') throw new Error(input)
  return input
}
