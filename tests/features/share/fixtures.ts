import ArrivalView from '../../../src/features/share/Arrival.vue'
import LeaderPreview from '../../../src/features/share/LeaderPreview.vue'
import LinkBase from '../../../src/features/share/LinkBase.vue'
import PasteView from '../../../src/features/share/PasteView.vue'
import PictureList from '../../../src/features/share/PictureList.vue'
import ShareView from '../../../src/features/share/View.vue'
import { evaluate } from '../../../src/engine/evaluate'
import { soundLeader } from '../../engine/build'
import type { Fixtures } from '../../support/fixture'

const leader = soundLeader()
const units = {
  diameterUnit: 'typed',
  lengthUnit: 'typed',
  forceUnit: 'lb',
  speedUnit: 'm/s',
} as const

export const fixtures: Fixtures = {
  'View.vue': { component: ShareView, shows: 'Share: Middle Sallow riffles' },
  'Arrival.vue': { component: ArrivalView, shows: 'A link has brought this' },
  'PasteView.vue': { component: PasteView, shows: 'Read a recipe' },
  'LeaderPreview.vue': { component: LeaderPreview, props: { leader }, shows: '7 pieces' },
  'LinkBase.vue': {
    component: LinkBase,
    props: { base: 'http://localhost:1/', own: 'http://localhost:1/', isOnlyHere: true },
    shows: 'this machine only',
  },
  'PictureList.vue': {
    component: PictureList,
    props: { leader, evaluation: evaluate(leader), units, stem: 'test' },
    shows: 'Bending stiffness',
  },
}
