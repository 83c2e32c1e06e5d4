import ReadingList from '../../../src/features/spools/ReadingList.vue'
import SpoolDialog from '../../../src/features/spools/SpoolDialog.vue'
import SpoolTable from '../../../src/features/spools/SpoolTable.vue'
import TieDetails from '../../../src/features/spools/TieDetails.vue'
import TieList from '../../../src/features/spools/TieList.vue'
import SpoolsView from '../../../src/features/spools/View.vue'
import { againstShelf } from '../../../src/features/spools/againstShelf'
import { sayIn } from '../../../src/wording'
import { q, size } from '../../engine/build'
import { shelf, simple, spoolOf } from '../../engine/tying/shelf'
import type { Fixtures } from '../../support/fixture'

const say = sayIn({ diameter: 'in', length: 'in', force: 'lb', speed: 'm/s' })
const units = { diameterUnit: 'typed', forceUnit: 'lb' } as const
const old = {
  ...spoolOf({ id: 'old', size: '5X', left: '12 m', readings: ['.0066 in', '.0068 in'] }),
  bought: '2020-01-01',
  pullTests: [q('4 lb', 'force')],
  taken_m: 2,
}

export const fixtures: Fixtures = {
  'View.vue': { component: SpoolsView, shows: 'Nothing is on the shelf yet' },
  'SpoolTable.vue': {
    component: SpoolTable,
    props: { spools: [old], say, today: '2026-11-25' },
    shows: 'Bought 6 years ago',
  },
  'SpoolDialog.vue': {
    component: SpoolDialog,
    props: { spool: old, isNew: false, units },
    shows: 'Take off the shelf',
  },
  'ReadingList.vue': {
    component: ReadingList,
    props: {
      of: 'micrometer',
      dimension: 'diameter',
      unit: 'in',
      readings: [size('.0066 in'), size('.0068 in')],
    },
    shows: 'mean .0067 in',
  },
  'TieList.vue': { component: TieList, props: { say }, shows: 'lacks 7 of 7 pieces' },
  'TieDetails.vue': {
    component: TieDetails,
    props: {
      leader: simple,
      against: againstShelf(
        simple,
        [{ segment: 1, why: 'none' }],
        [spoolOf({ id: 'a', size: '.0115 in', left: '9 m' }), ...shelf().slice(2)],
      ),
      judged: () => ({ kind: 'checking' }),
      say,
    },
    shows: 'Copy with Supple nylon .0115 in',
  },
}
