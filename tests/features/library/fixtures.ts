import LibraryView from '../../../src/features/library/View.vue'
import type { Fixtures } from '../../support/fixture'

export const fixtures: Fixtures = {
  'View.vue': { component: LibraryView, shows: 'Middle Sallow riffles' },
}
