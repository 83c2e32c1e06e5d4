import FlightScene from '../../../src/features/flight/FlightScene.vue'
import LineChart from '../../../src/features/flight/LineChart.vue'
import FlightView from '../../../src/features/flight/View.vue'
import WhatHelps from '../../../src/features/flight/WhatHelps.vue'
import { extensionCurves } from '../../../src/features/flight/curves'
import { extentOf } from '../../../src/features/flight/scene'
import type { Fixtures } from '../../support/fixture'
import { sound } from './flights'

const flights = [sound]

export const fixtures: Fixtures = {
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
  'WhatHelps.vue': {
    component: WhatHelps,
    props: { leader: sound.leader, choices: {} },
    shows: 'Work out which change helps most',
  },
  'View.vue': { component: FlightView, shows: 'Cast: Middle Sallow riffles 9 ft 5X' },
}
