/** Briefs for tests, and the shipped formulas as candidates. */
import type { Advice, Brief, Made } from '../../../src/engine/advice'
import type { Conditions } from '../../../src/engine/leader'
import type { Fly } from '../../../src/engine/tackle'
import { advise } from '../../../src/engine/advice'
import { readFormula } from '../../../src/documents'
import { lineOf, q } from '../build'

const FILES = import.meta.glob<unknown>('../../../formulas/*.json', {
  eager: true,
  import: 'default',
})

export const CANDIDATES = Object.entries(FILES).map(([id, file]) => {
  const read = readFormula(file)
  if (!read.ok) throw new Error(`${id} does not read`)
  return { id, leader: read.leader }
})

export interface BriefPatch {
  readonly fly?: Partial<Fly>
  readonly conditions?: Partial<Conditions>
  readonly line?: string
  readonly fish?: string
}

/** An ordinary day: a parachute 14 on a riffle, no wind, a 9 ft 5-weight, a fish of a pound. */
export function briefFor({
  fly,
  conditions,
  line = 'WF5F',
  fish = '1 lb',
}: BriefPatch = {}): Brief {
  return {
    fly: { style: 'parachute', hook: 14, ...fly },
    outfit: { rod: q('9 ft'), line: lineOf(line), fish: q(fish, 'mass') },
    conditions: {
      water: 'riffle',
      wariness: 'usual',
      distance: 'usual',
      wind: 'calm',
      ...conditions,
    },
  }
}

export function adviceFor(patch: BriefPatch = {}): Advice {
  return advise(briefFor(patch), { candidates: CANDIDATES, name: 'advised' })
}

/** The leader by the rules. */
export function firstFor(patch: BriefPatch = {}): Made {
  const [first] = adviceFor(patch).tries
  if (!first) throw new Error('no leader to start from')
  return first
}

export const reasonsOf = ({ tippet, length, material, bite, strength }: Advice) => [
  ...tippet.reasons,
  ...length.reasons,
  ...material.reasons,
  ...(bite?.reasons ?? []),
  ...strength.reasons,
]

export const codesOf = (advice: Advice) => reasonsOf(advice).map((r) => r.code)
