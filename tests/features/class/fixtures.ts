import ExploreMap from '../../../src/features/class/ExploreMap.vue'
import LeaderSelect from '../../../src/features/class/LeaderSelect.vue'
import LessonArrival from '../../../src/features/class/LessonArrival.vue'
import LessonEditor from '../../../src/features/class/LessonEditor.vue'
import LessonList from '../../../src/features/class/LessonList.vue'
import LessonRun from '../../../src/features/class/LessonRun.vue'
import OneChange from '../../../src/features/class/OneChange.vue'
import SecondQuantity from '../../../src/features/class/SecondQuantity.vue'
import SeatChoice from '../../../src/features/class/SeatChoice.vue'
import SideBySide from '../../../src/features/class/SideBySide.vue'
import ClassView from '../../../src/features/class/View.vue'
import lessonFile from '../../../formulas/lessons/11-a-worn-tippet.json'
import { readLesson } from '../../../src/documents/lesson'
import type { Fixtures } from '../../support/fixture'
import { soundLeader } from '../../engine/build'

const read = readLesson(lessonFile)
if (!read.ok) throw new Error('the lesson does not read')

export const fixtures: Fixtures = {
  'ExploreMap.vue': {
    component: ExploreMap,
    props: {
      xs: [5, 10, 15],
      ys: [0.2, 0.6, 1],
      extensions: [0.5, 0.9, 1, 0.4, 0.86, 0.97, 0, 0.5, 0.9],
      present: [10, 0.6],
      xAxis: { unit: 'm/s', size: 1 },
      yAxis: { unit: 'm', size: 1 },
      xName: 'line speed',
      yName: 'Length of the tippet',
    },
    shows: '22 % of this range turns over straight in the air, 56 % at least lazily.',
  },
  'LeaderSelect.vue': {
    component: LeaderSelect,
    props: {
      seat: { source: 'bench' },
      formulas: [{ id: 'shipped:one', name: 'Ford pool' }],
    },
    shows: 'the one on the bench',
  },
  'LessonArrival.vue': {
    component: LessonArrival,
    props: { code: 'AQ' },
    shows: 'This link cannot be read, and nothing was changed.',
  },
  'LessonEditor.vue': {
    component: LessonEditor,
    props: { lesson: read.lesson },
    shows: 'Which prediction the cast shows',
  },
  'LessonList.vue': { component: LessonList, shows: 'One step too far' },
  'LessonRun.vue': {
    component: LessonRun,
    props: { entry: { id: '11-a-worn-tippet', lesson: read.lesson } },
    shows: 'How does the fly come round now?',
  },
  'OneChange.vue': { component: OneChange, shows: 'Length of the tippet: 26 in' },
  'SecondQuantity.vue': {
    component: SecondQuantity,
    props: {
      posed: { leader: soundLeader(), choices: {} },
      offered: ['tippet-length', 'line-speed'],
      units: { diameter: 'in', length: 'in', force: 'lb', speed: 'm/s' },
    },
    shows: 'With a second quantity',
  },
  'SeatChoice.vue': {
    component: SeatChoice,
    props: {
      letter: 'B',
      seat: { source: 'bench', change: { what: { id: 'tippet-length' }, value: 0.508 } },
      plain: { leader: soundLeader(), choices: {} },
      units: { diameter: 'in', length: 'in', force: 'lb', speed: 'm/s' },
      formulas: [{ id: 'shipped:one', name: 'Ford pool' }],
      isOnly: false,
    },
    shows: '20 in',
  },
  'SideBySide.vue': { component: SideBySide, shows: 'What differs from A, worst first' },
  'View.vue': { component: ClassView, shows: 'One thing at a time' },
}
