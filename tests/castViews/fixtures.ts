import AlongStrips from '../../src/castViews/AlongStrips.vue'
import CastFields from '../../src/castViews/CastFields.vue'
import CastPlayer from '../../src/castViews/CastPlayer.vue'
import ChartFigure from '../../src/castViews/ChartFigure.vue'
import FlightScene from '../../src/castViews/FlightScene.vue'
import LineChart from '../../src/castViews/LineChart.vue'
import LossChart from '../../src/castViews/LossChart.vue'
import TakeOut from '../../src/castViews/TakeOut.vue'
import DeliveryVerdict from '../../src/castViews/DeliveryVerdict.vue'
import { standardFigures } from '../../src/castViews/castFields'
import { extensionCurves, lossRows } from '../../src/castViews/curves'
import { extentOf } from '../../src/castViews/scene'
import type { Fixtures } from '../support/fixture'
import { sayIn } from '../../src/wording'
import { madeJudgement } from '../engine/delivery/made'
import { UNITS } from '../features/bench/fixtures'
import { sound } from './flights'

const flights = [sound]

export const fixtures: Fixtures = {
  'AlongStrips.vue': {
    component: AlongStrips,
    props: { flights, time_s: 0.4 },
    shows: 'Tension along the leader',
  },
  'CastFields.vue': {
    component: CastFields,
    props: { figures: standardFigures(sound.leader) },
    shows: 'Line speed, m/s',
  },
  'CastPlayer.vue': { component: CastPlayer, props: { flights }, shows: 'Frame back' },
  'ChartFigure.vue': {
    component: ChartFigure,
    props: { title: 'Extension', height: '5rem' },
    shows: 'PNG of Extension',
  },
  'DeliveryVerdict.vue': {
    component: DeliveryVerdict,
    props: { judgement: madeJudgement(), leader: sound.leader, say: sayIn(UNITS) },
    shows: 'Goes over easily',
  },
  'FlightScene.vue': {
    component: FlightScene,
    props: { flights, extent: extentOf(flights), time_s: 0 },
    shows: '4 m',
  },
  'LineChart.vue': {
    component: LineChart,
    props: {
      title: 'Extension along time',
      x: 's',
      y: 'chord over length',
      curves: extensionCurves(flights),
      marker: 0.5,
    },
    shows: 'Extension along time',
  },
  'LossChart.vue': {
    component: LossChart,
    props: { rows: lossRows(sound) },
    shows: 'Where the energy went',
  },
  'TakeOut.vue': {
    component: TakeOut,
    props: { flights, moment_s: 0.5 },
    shows: 'This moment as SVG',
  },
}
