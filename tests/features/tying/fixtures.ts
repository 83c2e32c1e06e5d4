import BatchPanel from '../../../src/features/tying/BatchPanel.vue'
import CutList from '../../../src/features/tying/CutList.vue'
import LeaderTicks from '../../../src/features/tying/LeaderTicks.vue'
import NewBatch from '../../../src/features/tying/NewBatch.vue'
import PlanSummary from '../../../src/features/tying/PlanSummary.vue'
import StockList from '../../../src/features/tying/StockList.vue'
import TyingView from '../../../src/features/tying/View.vue'
import { beginBatch, EMPTY_INVENTORY, planBatch, putSpool } from '../../../src/engine/tying'
import { sayIn } from '../../../src/wording'
import { shelf, simple } from '../../engine/tying/shelf'
import type { Fixtures } from '../../support/fixture'

const say = sayIn({ diameter: 'in', length: 'in', force: 'lb', speed: 'm/s' })
const orders = [{ formula: 'f', leader: simple, count: 2 }]
const wanted = { id: 'b', name: 'Evening', begun: '2026-11-25', orders, spoilage: 0.05 }
const [batch] = beginBatch(shelf().slice(0, 2).reduce(putSpool, EMPTY_INVENTORY), wanted).batches

export const fixtures: Fixtures = {
  'View.vue': { component: TyingView, shows: 'No batch yet' },
  'NewBatch.vue': { component: NewBatch, props: { say }, shows: 'Middle Sallow riffles' },
  'PlanSummary.vue': {
    component: PlanSummary,
    props: { plan: planBatch(orders, shelf().slice(0, 2), 0.05), orders, say },
    shows: '1 spool of Supple nylon .006 in',
  },
  'BatchPanel.vue': {
    component: BatchPanel,
    props: { batch, say },
    shows: '2 pieces have no spool',
  },
  'CutList.vue': { component: CutList, props: { batch, say }, shows: 'piece 1 of test, no. 1' },
  'LeaderTicks.vue': {
    component: LeaderTicks,
    props: { batch, say },
    shows: 'Loop to loop, at the line',
  },
  'StockList.vue': { component: StockList, props: { say }, shows: '' },
}
