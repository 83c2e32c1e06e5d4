import AdvicePanel from '../../../src/features/brief/AdvicePanel.vue'
import BriefForm from '../../../src/features/brief/BriefForm.vue'
import FigureList from '../../../src/features/brief/FigureList.vue'
import FlyPanel from '../../../src/features/brief/FlyPanel.vue'
import LineShapePanel from '../../../src/features/brief/LineShapePanel.vue'
import MadeLeader from '../../../src/features/brief/MadeLeader.vue'
import OutfitPanel from '../../../src/features/brief/OutfitPanel.vue'
import ReasonList from '../../../src/features/brief/ReasonList.vue'
import ReelPanel from '../../../src/features/brief/ReelPanel.vue'
import SmallerFly from '../../../src/features/brief/SmallerFly.vue'
import BriefView from '../../../src/features/brief/View.vue'
import { sayIn } from '../../../src/wording'
import type { Fixtures } from '../../support/fixture'
import { chosenOf } from '../../../src/engine/advice'
import { adviceFor, briefFor } from '../../engine/advice/briefs'
import { judgedAs } from '../../engine/delivery/made'
import { lineOf, q } from '../../engine/build'

const UNITS = { diameter: 'in', length: 'in', force: 'lb', speed: 'm/s' } as const
const say = sayIn(UNITS)
const total = (m: number) => `${(m / 0.3048).toFixed(1)} ft`
const advice = adviceFor({ conditions: { water: 'flat' } })
const { fly, outfit, conditions } = briefFor()
const choice = { fly }
const judgement = judgedAs('surely enough', 0.7)
const [made] = advice.tries
const chosen = { choice: chosenOf(advice.tries, [judgement]), made, judgement, plain: judgement }

export const fixtures: Fixtures = {
  'AdvicePanel.vue': {
    component: AdvicePanel,
    props: { advice, chosen, say, total },
    shows: '12.0 ft',
  },
  'BriefForm.vue': {
    component: BriefForm,
    props: { draft: { fly: choice, outfit, conditions }, flies: [], units: UNITS },
    shows: 'Water and wariness',
  },
  'FigureList.vue': {
    component: FigureList,
    props: { figures: [{ name: 'Tippet', figure: '5X', source: 'common practice' }] },
    shows: '5X',
  },
  'FlyPanel.vue': { component: FlyPanel, props: { choice, flies: [] }, shows: 'Mass, soaked' },
  'LineShapePanel.vue': { component: LineShapePanel, props: { outfit }, shows: 'Front taper' },
  'MadeLeader.vue': {
    component: MadeLeader,
    props: { made, choice: chosen.choice, say, busy: false },
    shows: 'Open on the bench',
  },
  'OutfitPanel.vue': {
    component: OutfitPanel,
    props: { outfit: { ...outfit, rodClass: 5 } },
    shows: 'Of the rod’s class',
  },
  'ReasonList.vue': {
    component: ReasonList,
    props: { title: 'Material', reasons: advice.material.reasons, say },
    shows: 'The fly floats',
  },
  'ReelPanel.vue': {
    component: ReelPanel,
    props: {
      reel: {
        backing: 'braid-20',
        arbor: q('30 mm'),
        width: q('22 mm'),
        rim: q('82 mm'),
      },
      line: lineOf('WF5F'),
      say,
    },
    shows: 'A fish can run',
  },
  'SmallerFly.vue': {
    component: SmallerFly,
    props: { smaller: [{ hook: 16, chosen }], say },
    shows: 'A size 16 instead',
  },
  'View.vue': { component: BriefView, shows: 'What to tie on' },
}
