import ConvergenceTable from '../../../src/features/explanation/ConvergenceTable.vue'
import ExplanationView from '../../../src/features/explanation/View.vue'
import type { Fixtures } from '../../support/fixture'

export const fixtures: Fixtures = {
  'ConvergenceTable.vue': { component: ConvergenceTable, shows: 'Least line speed, m/s' },
  'View.vue': { component: ExplanationView, shows: 'Where it stops being true' },
}
