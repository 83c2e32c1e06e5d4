/** What the benches of the cast take from the engine, and the standard cast that they fly. */
import type { CastCase, MeshName } from '../../src/engine/cast'
import formula from '../../formulas/middle-sallow-9ft-5x.json?raw'
import type { DeliveryCase } from '../../src/engine/delivery'
import { caseOf } from '../../src/engine/cast'
import { deliveryQuestion } from '../../src/engine/delivery'
import { readFormulaText } from '../../src/documents'

export { estimateTurnover, flyFrom, leastLineSpeed, runCast } from '../../src/engine/cast'
export { profileOf } from '../../src/engine/profile'
export { buildChain } from '../../src/engine/cast/chain'
export * as kernel from '../../src/engine/cast/kernel'
export { startState } from '../../src/engine/cast/state'
export { makeStepper } from '../../src/engine/cast/step'
export { CastClient } from '../../src/worker/client'
export { work } from '../../src/worker/spread'

export const standardLeader = read(formula)

const texts = import.meta.glob<string>('../../formulas/*.json', {
  query: '?raw',
  import: 'default',
  eager: true,
})

/** Every shipped leader that can be cast, by an ordinary caster. */
export function shippedCases(mesh: MeshName): CastCase[] {
  return Object.values(texts).flatMap((text) => {
    const leader = read(text)
    const input = caseOf({ ...leader, outfit: { ...leader.outfit, caster: 'ordinary' } }, { mesh })
    return typeof input === 'string' ? [] : [input]
  })
}

/** What every shipped leader's delivery is asked as, by an ordinary caster. */
export function shippedDeliveries(): DeliveryCase[] {
  return Object.values(texts).flatMap((text) => {
    const leader = read(text)
    const asked = deliveryQuestion({ ...leader, outfit: { ...leader.outfit, caster: 'ordinary' } })
    return typeof asked === 'string' ? [] : [asked]
  })
}

export function standardCase(mesh: MeshName): CastCase {
  const input = caseOf(standardLeader, { mesh })
  if (typeof input === 'string') throw new Error(input)
  return input
}

function read(text: string) {
  const result = readFormulaText(text)
  if (!result.ok) throw new Error(JSON.stringify(result.problems))
  return result.leader
}
