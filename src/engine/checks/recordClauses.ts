import type { ClauseResult, ForRecords } from './recordRules'
import type { Leader } from '../leader'
import { materialOf, tippetIndex } from '../leader'
import { FOOT_M, POUND_FORCE_N } from '../units'
import { RULES, judged, measuredClauses, noFigure } from './recordRules'

const SHORTEST_ROD_M = 6 * FOOT_M
const MOST_FLIES = 2
/** Labelled pounds of each class, and what its tippet may test at, lb: IGFA fly fishing rules. */
const RECORD_CLASSES = [
  [2, 2.2],
  [4, 4.4],
  [6, 6.61],
  [8, 8.81],
  [12, 13.22],
  [16, 17.63],
  [20, 22.04],
] as const

/** Every clause on its own, kept, broken or not known. */
export function recordClauses(input: ForRecords): ClauseResult[] {
  const { leader } = input
  return [
    ...measuredClauses(input),
    classMaterial(leader),
    rodLength(leader),
    flies(leader),
    { clause: 'butt', status: 'pass', index: 0, source: RULES },
  ]
}

/** Label (lb) of the class that a tested strength (N) falls in; undefined above the heaviest. */
export function recordClassOf(tested_N: number): number | undefined {
  return RECORD_CLASSES.find(([, limit]) => tested_N <= limit * POUND_FORCE_N * (1 + 1e-9))?.[0]
}

function classMaterial(leader: Leader): ClauseResult {
  const at = tippetIndex(leader)
  const tippet = leader.segments[at]
  if (!tippet) return noFigure('class-material', at, 'unknown')
  const metal = materialOf(leader, tippet.material).family === 'wire'
  return { clause: 'class-material', index: at, status: metal ? 'fail' : 'pass', source: RULES }
}

function rodLength({ outfit }: Leader): ClauseResult {
  if (!outfit.rod) return noFigure('rod-length', -1, 'unknown')
  const ok = outfit.rod.si >= SHORTEST_ROD_M - 1e-6
  return judged('rod-length', -1, outfit.rod.si, SHORTEST_ROD_M, ok)
}

function flies({ segments, tip }: Leader): ClauseResult {
  const hanging = segments.flatMap((s) =>
    s.attachments.filter((a) => a.kind === 'dropper' || a.kind === 'fly'),
  )
  const count = hanging.length + (tip.fly ? 1 : 0)
  return judged('flies', -1, count, MOST_FLIES, count <= MOST_FLIES)
}
