/** Whether flights that stop once they are decided say what whole flights say: every shipped leader with every shipped fly. */
import type { CastCase, MeshName } from '../../src/engine/cast'
import {
  STRAIGHT_EXTENSION,
  caseOf,
  leastLineSpeed,
  runCast,
  unrolledExtension,
} from '../../src/engine/cast'
import { SHIPPED, leaderOf } from './formulas'

/** Of the least line speed. */
const SHARES = [0.7, 0.85, 0.95, 1, 1.05, 1.25]

interface Verdict {
  readonly leader: string
  readonly fly: string
  readonly share: number
  readonly lineSpeed_m_s: number
  readonly decided: boolean
  readonly whole: boolean
  /** Of the whole flight: how far it is from the target tells a wrong rule from a toss-up. */
  readonly extension: number
  readonly decidedSteps: number
  readonly wholeSteps: number
}

const leaders = SHIPPED.map(({ file, text }) => ({ file, leader: leaderOf(text) }))

/** By style, hook and bead. */
const flies = new Map(
  leaders.flatMap(({ leader: { tip } }) => (tip.fly ? [[JSON.stringify(tip.fly), tip.fly]] : [])),
)

export function* trial(mesh: MeshName): Generator<Verdict> {
  for (const { file, leader } of leaders)
    for (const [fly, choice] of flies) {
      const input = caseOf({ ...leader, tip: { ...leader.tip, fly: choice } }, { mesh })
      if (typeof input === 'string') throw new Error(`${file}: ${input}`)
      const edge = leastLineSpeed(input, { tolerance_m_s: 0.3 }) ?? 20
      for (const share of SHARES)
        yield { leader: file, fly, share, ...verdictAt(input, edge * share) }
    }
}

function verdictAt(input: CastCase, lineSpeed_m_s: number) {
  const cast = { ...input, cast: { ...input.cast, lineSpeed_m_s } }
  const [quick, whole] = [runCast(cast, { decide: STRAIGHT_EXTENSION }), runCast(cast)]
  return {
    lineSpeed_m_s,
    decided: quick.isReached,
    whole: unrolledExtension(whole) >= STRAIGHT_EXTENSION,
    extension: whole.extension,
    decidedSteps: quick.steps,
    wholeSteps: whole.steps,
  }
}
