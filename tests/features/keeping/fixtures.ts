import BackupView from '../../../src/features/keeping/BackupView.vue'
import VersionsView from '../../../src/features/keeping/VersionsView.vue'
import type { Fixtures } from '../../support/fixture'

export const fixtures: Fixtures = {
  'BackupView.vue': { component: BackupView, shows: 'Back up everything' },
  'VersionsView.vue': { component: VersionsView, shows: 'No earlier version yet' },
}
