import BenchSheet from '../../../src/features/sheets/BenchSheet.vue'
import ClassSheet from '../../../src/features/sheets/ClassSheet.vue'
import CutSheet from '../../../src/features/sheets/CutSheet.vue'
import LabelChoice from '../../../src/features/sheets/LabelChoice.vue'
import LabelSheets from '../../../src/features/sheets/LabelSheets.vue'
import RulerStrip from '../../../src/features/sheets/RulerStrip.vue'
import SheetsView from '../../../src/features/sheets/View.vue'
import WalletLabel from '../../../src/features/sheets/WalletLabel.vue'
import { LABEL_SHEETS } from '../../../src/features/sheets/labels'
import { beginBatch, EMPTY_SHED, putSpool } from '../../../src/engine/bench'
import { sayIn } from '../../../src/wording'
import { soundLeader } from '../../engine/build'
import { shelf, simple } from '../../engine/bench/shelf'
import type { Fixtures } from '../../support/fixture'

const say = sayIn({ diameter: 'in', length: 'in', force: 'lb' })
const leader = soundLeader()
const [sheet] = LABEL_SHEETS
const orders = [{ formula: 'f', leader: simple, count: 3 }]
const wanted = { id: 'b', name: 'Evening', begun: '2026-11-25', orders, spoilage: 0.05 }
const shed = beginBatch(shelf().reduce(putSpool, EMPTY_SHED), wanted)
const common = { say, isMetric: false }

export const fixtures: Fixtures = {
  'View.vue': { component: SheetsView, shows: 'Bench sheet' },
  'BenchSheet.vue': {
    component: BenchSheet,
    props: { ...common, leader, paper: 'a4', count: 6 },
    shows: 'tie 6',
  },
  'CutSheet.vue': {
    component: CutSheet,
    props: { batch: shed.batches[0], shed, say, paper: 'a4' },
    shows: 'Supple nylon .020 in',
  },
  'ClassSheet.vue': {
    component: ClassSheet,
    props: { ...common, leaders: [leader, simple], paper: 'a4-wide' },
    shows: 'What I would change',
  },
  'RulerStrip.vue': { component: RulerStrip, shows: '150 mm' },
  'LabelChoice.vue': {
    component: LabelChoice,
    props: { sheet: { ...sheet, pitchX: 10 }, first: 1, modules: 80 },
    shows: 'The labels overlap',
  },
  'LabelSheets.vue': {
    component: LabelSheets,
    props: {
      ...common,
      labels: [{ leader, tied: '2026-11-25' }],
      sheet,
      first: 2,
      base: 'https://a.example/',
    },
    shows: 'tied 2026-11-25',
  },
  'WalletLabel.vue': {
    component: WalletLabel,
    props: { ...common, leader, tied: '2026-11-25', link: '', sheet },
    shows: 'tippet 5X',
  },
}
