import OwnCast from '../../../src/features/cast/OwnCast.vue'
import CastView from '../../../src/features/cast/View.vue'
import WhatHelps from '../../../src/features/cast/WhatHelps.vue'
import type { Fixtures } from '../../support/fixture'
import { sayIn } from '../../../src/wording'
import { sound } from '../../castViews/flights'
import { UNITS } from '../bench/fixtures'

export const fixtures: Fixtures = {
  'OwnCast.vue': {
    component: OwnCast,
    props: { cast: { lineSpeed_m_s: 11, loopHeight_m: 0.9 }, kept: undefined },
    shows: 'Keep 11 m/s and 0.9 m as your cast',
  },
  'WhatHelps.vue': {
    component: WhatHelps,
    props: { leader: sound.leader, limits: {}, say: sayIn(UNITS) },
    shows: 'Throw the changes that might help',
  },
  'View.vue': { component: CastView, shows: 'Cast: Middle Sallow riffles 9 ft 5X' },
}
