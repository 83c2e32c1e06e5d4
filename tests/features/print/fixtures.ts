import BenchSheet from '../../../src/features/print/BenchSheet.vue'
import ClassSheet from '../../../src/features/print/ClassSheet.vue'
import CutSheet from '../../../src/features/print/CutSheet.vue'
import LabelChoice from '../../../src/features/print/LabelChoice.vue'
import LabelSheets from '../../../src/features/print/LabelSheets.vue'
import RulerStrip from '../../../src/features/print/RulerStrip.vue'
import PrintView from '../../../src/features/print/View.vue'
import WalletLabel from '../../../src/features/print/WalletLabel.vue'
import { LABEL_SHEETS } from '../../../src/features/print/labels'
import { beginBatch, EMPTY_INVENTORY, putSpool } from '../../../src/engine/tying'
import { sayIn } from '../../../src/wording'
import { soundLeader } from '../../engine/build'
import { shelf, simple } from '../../engine/tying/shelf'
import type { Fixtures } from '../../support/fixture'

const say = sayIn({ diameter: 'in', length: 'in', force: 'lb', speed: 'm/s' })
const leader = soundLeader()
const [sheet] = LABEL_SHEETS
const orders = [{ formula: 'f', leader: simple, count: 3 }]
const wanted = { id: 'b', name: 'Evening', begun: '2026-11-25', orders, spoilage: 0.05 }
const inventory = beginBatch(shelf().reduce(putSpool, EMPTY_INVENTORY), wanted)
const common = { say, isMetric: false }

export const fixtures: Fixtures = {
  'View.vue': { component: PrintView, shows: 'Bench sheet' },
  'BenchSheet.vue': {
    component: BenchSheet,
    props: { ...common, leader, judgement: undefined, paper: 'a4', count: 6 },
    shows: 'Not flown yet',
  },
  'CutSheet.vue': {
    component: CutSheet,
    props: { batch: inventory.batches[0], inventory, say, paper: 'a4' },
    shows: 'Supple nylon .020 in',
  },
  'ClassSheet.vue': {
    component: ClassSheet,
    props: { ...common, leaders: [leader, simple], judgements: [], paper: 'a4-wide' },
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
