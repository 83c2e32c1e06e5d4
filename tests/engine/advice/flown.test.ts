// @vitest-environment node
/** A few briefs whole, with every leader thrown that the page would have thrown. */
import { describe, expect, it } from 'vitest'
import type { Brief, Made } from '../../../src/engine/advice'
import type { Delivery, Judgement } from '../../../src/engine/delivery'
import { advise, chosenOf } from '../../../src/engine/advice'
import { sought } from '../../../src/engine/cast'
import {
  deliveryOf,
  deliveryQuestion,
  deliverySteps,
  fly,
  judgementOf,
} from '../../../src/engine/delivery'
import { evaluate } from '../../../src/engine/evaluate'
import { deliveryWords, describeAdvice, sayIn } from '../../../src/wording'
import type { BriefPatch } from './briefs'
import { CANDIDATES, briefFor } from './briefs'

const say = sayIn({ diameter: 'in', length: 'in', force: 'lb', speed: 'm/s' })

/** Quicker than the usual mesh: what is looked at here is what is made of the casts. */
const onCoarseMesh: typeof fly = (input, each) => fly(input, { ...each, mesh: 'coarse' })

function thrown({ leader }: Made): Judgement {
  const asked = deliveryQuestion(leader)
  return typeof asked === 'string'
    ? { kind: 'not-asked', because: asked }
    : judgementOf(sought(deliverySteps(asked, onCoarseMesh)))
}

/** What the page ends with: the leader that is taken, how it is delivered and what is said. */
function decided(brief: Brief) {
  const { tries } = advise(brief, { candidates: CANDIDATES, name: 'advised' })
  const judged: Judgement[] = []
  let choice = chosenOf(tries, judged)
  while (choice.next !== undefined) {
    judged.push(thrown(tries[choice.next]!))
    choice = chosenOf(tries, judged)
  }
  const { leader } = tries[choice.taken]!
  const judgement = judged[choice.taken]!
  return { choice, leader, judgement, delivery: deliveryOf(judgement)!, thrown: judged.length }
}

/** What the bench has against the leader when it has flown it. */
const against = (leader: Made['leader'], delivery: Delivery) =>
  evaluate(leader, {}, { delivery, remedies: [] })
    .checks.findings.filter(({ severity }) => severity !== 'note')
    .map(({ id }) => id)

const learner = (patch: BriefPatch): Brief => {
  const brief = briefFor(patch)
  return { ...brief, outfit: { ...brief.outfit, caster: 'learner' } }
}

describe('a brief flown whole', () => {
  it.each<[string, BriefPatch]>([
    ['a light dry', {}],
    [
      'a bulky dry on a lake',
      { fly: { style: 'bushy', hook: 10 }, conditions: { water: 'still-water' }, line: 'WF6F' },
    ],
  ])('%s goes over on the leader thrown last, and the bench has nothing against it', (_, patch) => {
    const { choice, leader, judgement, delivery, thrown: flights } = decided(briefFor(patch))
    expect(choice).toMatchObject({ taken: flights - 1, isHopeless: false })
    expect(against(leader, delivery)).toEqual([])
    expect(deliveryWords(judgement, leader, say).title).toMatch(/^Goes over/)
  })

  it('a fly like a shuttlecock goes over on nothing: no leader of it is offered, and the bench agrees', () => {
    const shuttlecock = { style: 'bushy', hook: 12, dragArea_m2: 4e-4 } as const
    const { choice, leader, judgement, delivery } = decided(
      learner({ fly: shuttlecock, line: 'WF5S3' }),
    )
    expect(choice).toMatchObject({ isHopeless: true, next: undefined })
    expect(against(leader, delivery)).toEqual(['turnover'])
    expect(deliveryWords(judgement, leader, say).title).toMatch(/falls short|will not go over/i)
    expect(describeAdvice(choice.reason!, say)).not.toMatch(/even|still/)
  })
})
