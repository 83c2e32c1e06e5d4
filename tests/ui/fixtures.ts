import AppDialog from '../../src/ui/AppDialog.vue'
import AppIcon from '../../src/ui/AppIcon.vue'
import ChoiceField from '../../src/ui/ChoiceField.vue'
import FigureTip from '../../src/ui/FigureTip.vue'
import MissingPart from '../../src/ui/MissingPart.vue'
import QrCode from '../../src/ui/QrCode.vue'
import QuantityField from '../../src/ui/QuantityField.vue'
import UndoButtons from '../../src/ui/UndoButtons.vue'
import type { Fixtures } from '../support/fixture'
import { size } from '../engine/build'

export const fixtures: Fixtures = {
  'AppDialog.vue': {
    component: AppDialog,
    props: { title: 'Knots' },
    slots: { default: '<p>All of them.</p>' },
    shows: 'All of them.',
  },
  // An icon says nothing in words: it never stands without them.
  'AppIcon.vue': { component: AppIcon, props: { name: 'add' }, shows: '' },
  'ChoiceField.vue': {
    component: ChoiceField,
    props: { label: 'Wind', options: [['calm', 'Calm']], value: 'calm' },
    shows: 'Calm',
  },
  'FigureTip.vue': {
    component: FigureTip,
    props: { figure: '5X', band: '4X to 5X', source: 'common practice' },
    shows: '4X to 5X',
  },
  'MissingPart.vue': { component: MissingPart, shows: 'could not be fetched' },
  'UndoButtons.vue': {
    component: UndoButtons,
    props: { undo: 'Cut a piece', redo: undefined },
    shows: 'Undo',
  },
  'QrCode.vue': { component: QrCode, props: { text: 'a', label: 'Code' }, shows: '' },
  'QuantityField.vue': {
    component: QuantityField,
    props: { quantity: size('5X'), dimension: 'diameter', unit: 'in', label: 'Diameter' },
    shows: '',
  },
}
