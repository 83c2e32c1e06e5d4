/** What the benches of the cast take from the engine, and the standard cast that they fly. */
import type { CastCase, MeshName } from '../../src/engine/cast'
import formula from '../../formulas/middle-sallow-9ft-5x.json?raw'
import { caseOf } from '../../src/engine/cast'
import { readFormulaText } from '../../src/documents'

export { runCast } from '../../src/engine/cast'
export { buildChain } from '../../src/engine/cast/chain'
export { startState } from '../../src/engine/cast/state'
export { makeStepper } from '../../src/engine/cast/step'

export const standardLeader = read()

export function standardCase(mesh: MeshName): CastCase {
  const input = caseOf(standardLeader, { mesh })
  if (typeof input === 'string') throw new Error(input)
  return input
}

function read() {
  const result = readFormulaText(formula)
  if (!result.ok) throw new Error(JSON.stringify(result.problems))
  return result.leader
}
