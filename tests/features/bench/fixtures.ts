import BriefLine from '../../../src/features/bench/BriefLine.vue'
import RigDepth from '../../../src/features/bench/RigDepth.vue'
import RigDialog from '../../../src/features/bench/RigDialog.vue'
import BenchTools from '../../../src/features/bench/BenchTools.vue'
import FiguresBand from '../../../src/features/bench/FiguresBand.vue'
import FiguresDialog from '../../../src/features/bench/FiguresDialog.vue'
import FindingsPanel from '../../../src/features/bench/FindingsPanel.vue'
import FlyRow from '../../../src/features/bench/FlyRow.vue'
import LeaderDrawing from '../../../src/features/bench/LeaderDrawing.vue'
import LeaderNotes from '../../../src/features/bench/LeaderNotes.vue'
import LimitsDialog from '../../../src/features/bench/LimitsDialog.vue'
import OutfitBar from '../../../src/features/bench/OutfitBar.vue'
import OwnMaterial from '../../../src/features/bench/OwnMaterial.vue'
import ProfileChart from '../../../src/features/bench/ProfileChart.vue'
import ProfileStack from '../../../src/features/bench/ProfileStack.vue'
import SegmentDialog from '../../../src/features/bench/SegmentDialog.vue'
import SegmentRow from '../../../src/features/bench/SegmentRow.vue'
import SegmentTable from '../../../src/features/bench/SegmentTable.vue'
import BenchView from '../../../src/features/bench/View.vue'
import { profileSeries } from '../../../src/charts'
import { evaluate } from '../../../src/engine/evaluate'
import type { Leader } from '../../../src/engine/leader'
import { sayIn } from '../../../src/wording'
import type { Fixtures } from '../../support/fixture'
import { q, soundLeader, withPiece } from '../../engine/build'

export const UNITS = { diameter: 'in', length: 'in', force: 'lb', speed: 'm/s' } as const
export const AS_TYPED = {
  diameterUnit: 'typed',
  lengthUnit: 'typed',
  forceUnit: 'lb',
  speedUnit: 'm/s',
} as const
export const COLOURS = { ink: '#111111', faint: '#666666', rule: '#cccccc', water: '#115566' }

/** A sound leader spoiled by one piece that cannot be tied. */
export const spoiled: Leader = withPiece(soundLeader(), 3, { length: q('0.3 in') })

/** What most parts of the bench are given of a leader. */
export function givenOf(leader: Leader) {
  return {
    leader,
    evaluation: evaluate(leader),
    say: sayIn(UNITS),
    units: UNITS,
    judgement: { kind: 'checking' } as const,
  }
}

const given = givenOf(soundLeader())
const { leader, evaluation, say, units } = given

/** A row of the table of pieces. */
export const piece = {
  segment: leader.segments[1],
  row: 1,
  step: '88 %',
  cut: '20 in',
  holds: '21 lb',
  severity: undefined,
  measured: '',
}

export const fixtures: Fixtures = {
  'BenchTools.vue': { component: BenchTools, props: { leader, units }, shows: 'Scale to' },
  'BriefLine.vue': {
    component: BriefLine,
    props: {
      leader: {
        ...leader,
        brief: { water: 'riffle', wariness: 'usual', distance: 'usual', wind: 'calm' },
      },
      say,
    },
    shows: 'The leader keeps to it.',
  },
  'RigDepth.vue': { component: RigDepth, props: { leader, say }, shows: 'made to float' },
  'RigDialog.vue': { component: RigDialog, props: { leader, say }, shows: 'Where it breaks first' },
  'FiguresBand.vue': { component: FiguresBand, props: given, shows: "9'" },
  'FiguresDialog.vue': {
    component: FiguresDialog,
    props: { leader, evaluation, say },
    shows: 'EI dry',
  },
  'FindingsPanel.vue': {
    component: FindingsPanel,
    props: { report: evaluation.checks, leader, say },
    shows: 'Nothing wrong so far: it is not flown yet.',
  },
  'FlyRow.vue': { component: FlyRow, props: { leader, evaluation, say }, shows: 'Knot at the fly' },
  'LeaderDrawing.vue': {
    component: LeaderDrawing,
    props: { ...given, width: 800, current: null },
    shows: '38 in',
  },
  'LeaderNotes.vue': { component: LeaderNotes, props: { leader }, shows: '' },
  'LimitsDialog.vue': {
    component: LimitsDialog,
    props: { purpose: 'general-dry', own: {}, units },
    shows: 'Shortest tippet',
  },
  'OutfitBar.vue': { component: OutfitBar, props: { leader, units }, shows: 'Parachute dry' },
  'OwnMaterial.vue': { component: OwnMaterial, props: {}, shows: 'A material of your own' },
  'ProfileChart.vue': {
    component: ProfileChart,
    props: { series: profileSeries(evaluation, units)[0], total_m: 2.7432, colours: COLOURS },
    shows: 'thousandths of an inch',
  },
  'ProfileStack.vue': {
    component: ProfileStack,
    props: { ...given, distance: null },
    shows: 'Point at a place to read it.',
  },
  'SegmentDialog.vue': {
    component: SegmentDialog,
    props: { leader, row: 2, units },
    shows: 'Piece 3: mid-section',
  },
  'SegmentRow.vue': {
    component: SegmentRow,
    props: {
      piece,
      ownMaterials: [],
      units,
      choice: AS_TYPED,
      isCurrent: false,
      isSelected: false,
    },
    shows: '88 %',
  },
  'SegmentTable.vue': {
    component: SegmentTable,
    props: { ...given, choice: AS_TYPED, current: null },
    shows: 'Add a piece',
  },
  'View.vue': { component: BenchView, shows: 'Finished length' },
}
