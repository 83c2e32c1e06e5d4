import { describe, expect, it } from 'vitest'
import { cutGroups, leadersOf, progressOf } from '../../../src/features/tying/batchRows'
import {
  beginBatch,
  EMPTY_INVENTORY,
  finish,
  putSpool,
  setCut,
  setCutBy,
} from '../../../src/engine/tying'
import { q } from '../../engine/build'
import { shelf, simple, spoolOf } from '../../engine/tying/shelf'
import { stand } from '../../support/fixture'
import { fixtures } from './fixtures'

const orders = [{ formula: 'f', leader: simple, count: 2 }]
const wanted = { id: 'b', name: 'Evening', begun: '2026-11-25', orders, spoilage: 0 }
const nearlyDone = spoolOf({ id: 'end', size: '.012 in', left: '1.5 m' })
const inventory = beginBatch(
  [...shelf().slice(0, 2), nearlyDone].reduce(putSpool, EMPTY_INVENTORY),
  wanted,
)
const batch = inventory.batches[0]!

describe('a batch in rows', () => {
  it('lists the spool with least left first, and what is missing under the strand to buy', () => {
    const titles = cutGroups(batch, inventory).map(({ title }) => title)
    expect(titles).toEqual([
      'Supple nylon .012 in',
      'Supple nylon .020 in',
      'Not on the shelf: Supple nylon 5X',
    ])
  })

  it('lists leader by leader where that is chosen', () => {
    const byLeader = setCutBy(inventory, 'b', 'leader').batches[0]!
    expect(cutGroups(byLeader, inventory).map(({ title }) => title)).toEqual([
      'test, no. 1',
      'test, no. 2',
    ])
  })

  it('counts what is done, and puts finished leaders last', () => {
    const full = beginBatch(shelf().reduce(putSpool, EMPTY_INVENTORY), wanted)
    const cut = [0, 1, 2].reduce(
      (made, segment) => setCut(made, 'b', { order: 0, copy: 0, segment }, true),
      full,
    )
    const into = { stockId: 's', wallet: 'Boat 1', tied: '2026-11-25' }
    const done = finish(cut, 'b', { order: 0, copy: 0 }, into).batches[0]!
    expect(progressOf(done)).toEqual({
      cut: 3,
      pieces: 6,
      tied: 3,
      joints: 6,
      finished: 1,
      leaders: 2,
    })
    expect(leadersOf(done).map(({ copy, wallet }) => [copy, wallet])).toEqual([
      [1, undefined],
      [0, 'Boat 1'],
    ])
  })

  it('shows what must be bought', () => {
    const wrapper = stand(fixtures['PlanSummary.vue']!)
    expect(wrapper.text()).toContain('To buy')
    expect(wrapper.text()).toContain(`${q('30 m', 'spool-length').text} each`)
    wrapper.unmount()
  })
})
