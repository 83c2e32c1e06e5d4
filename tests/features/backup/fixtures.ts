import BackupView from '../../../src/features/backup/BackupView.vue'
import VersionsView from '../../../src/features/backup/VersionsView.vue'
import type { Fixtures } from '../../support/fixture'

export const fixtures: Fixtures = {
  'BackupView.vue': { component: BackupView, shows: 'Back up everything' },
  'VersionsView.vue': { component: VersionsView, shows: 'No earlier version yet' },
}
