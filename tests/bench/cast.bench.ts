/**
 * What a cast costs. Targets in Node: one coarse flight under 6 ms (aim 3), the energy model 20 microseconds,
 * least line speed to 0.25 m/s 40 ms (aim 25). Node-steps do not depend on the machine: cost.test.ts holds them.
 */
import { bench, describe } from 'vitest'
import { estimateTurnover, leastLineSpeed, runCast, sampleLeastSpeed } from '../../src/engine/cast'
import { profileOf } from '../../src/engine/profile'
import { standardCase, standardLeader } from './cast-entry'

const BAND_SAMPLES = 30
const once = { iterations: 3, warmupIterations: 1, time: 0, warmupTime: 0 }

const coarse = standardCase('coarse')
const usual = standardCase('usual')
const profile = profileOf(standardLeader)

for (const [name, input] of Object.entries({ coarse, usual })) {
  const fly = () => runCast(input, { stopWhenStraight: true })
  for (let i = 0; i < 50; i++) fly()
  const from = performance.now()
  const { steps, nodes } = fly()
  const ns = ((performance.now() - from) * 1e6) / (steps * nodes)
  console.log(
    `${name}: ${steps} steps of ${nodes} nodes, ${steps * nodes} node-steps, ${ns.toFixed(0)} ns each`,
  )
}

describe('cast, the standard one with a 9 ft 5X leader', () => {
  bench('one flight, coarse', () => void runCast(coarse, { stopWhenStraight: true }))
  bench('one flight, usual', () => void runCast(usual, { stopWhenStraight: true }))
  bench('energy model', () => void estimateTurnover(standardLeader, profile))
  bench('least line speed to 0.25 m/s, coarse', () =>
    void leastLineSpeed(coarse, { from_m_s: 12, tolerance_m_s: 0.25 }))
})

describe('band', () => {
  bench(
    `${BAND_SAMPLES} samples, coarse`,
    () => {
      for (let seed = 0; seed < BAND_SAMPLES; seed++) sampleLeastSpeed(coarse, seed, 0.95, 8)
    },
    once,
  )
})
