import ConvergenceTable from '../../../src/features/model/ConvergenceTable.vue'
import ModelView from '../../../src/features/model/View.vue'
import type { Fixtures } from '../../support/fixture'

export const fixtures: Fixtures = {
  'ConvergenceTable.vue': { component: ConvergenceTable, shows: 'Least line speed, m/s' },
  'View.vue': { component: ModelView, shows: 'Where it stops being true' },
}
