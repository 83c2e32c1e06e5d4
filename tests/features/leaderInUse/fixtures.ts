import AddTippet from '../../../src/features/leaderInUse/AddTippet.vue'
import Keeper from '../../../src/features/leaderInUse/Keeper.vue'
import RebuildPanel from '../../../src/features/leaderInUse/RebuildPanel.vue'
import StartPanel from '../../../src/features/leaderInUse/StartPanel.vue'
import LeaderInUseView from '../../../src/features/leaderInUse/View.vue'
import { useStatus } from '../../../src/engine/advice'
import { sayIn } from '../../../src/wording'
import type { Fixtures } from '../../support/fixture'
import { q, size, soundLeader } from '../../engine/build'

const UNITS = { diameter: 'in', length: 'in', force: 'lb', speed: 'm/s' } as const
const say = sayIn(UNITS)
const start = soundLeader()

export const usual = {
  material: 'nylon-supple',
  diameter: size('5X'),
  length: q('26 in'),
  knot: 'surgeons-triple',
} as const

export const fixtures: Fixtures = {
  'AddTippet.vue': { component: AddTippet, props: { usual, units: UNITS }, shows: 'Added this' },
  'Keeper.vue': {
    component: Keeper,
    props: {
      inUse: { start, events: [], clip: q('3 in'), lost: q('6 in') },
      status: useStatus(start, []),
      say,
      units: UNITS,
    },
    shows: '26 in',
  },
  'RebuildPanel.vue': {
    component: RebuildPanel,
    props: { target: start, units: UNITS, say },
    shows: 'Spools at hand',
  },
  'StartPanel.vue': {
    component: StartPanel,
    props: { leaders: [{ id: 'a', leader: start }], onBench: 'a', say },
    shows: 'Start with test',
  },
  'View.vue': { component: LeaderInUseView, shows: 'Take a leader to the water' },
}
