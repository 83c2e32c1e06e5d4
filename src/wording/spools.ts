import type { SpoolState, SpoolWarning, Readings } from '../engine/tying'
import type { Change, LeaderChange, PieceChange } from '../engine/whatChanges'
import type { Say } from './say'

export const STATE_NAMES: Readonly<Record<SpoolState, string>> = {
  good: 'Good',
  old: 'Old',
  damaged: 'Damaged',
}

export function warningText(warning: SpoolWarning, say: Say): string {
  switch (warning.kind) {
    case 'damaged':
      return 'Damaged: nothing is tied from it.'
    case 'old':
      return 'Old: for butt and middle only, its label counts for less.'
    case 'dated':
      return `Bought ${Math.floor(warning.years)} years ago: pull-test it, or mark it as old.`
    case 'uneven':
      return `Readings differ by ${say.step(warning.range)}: oval, worn or misread.`
    case 'off-label': {
      const thicker = warning.share > 0 ? 'thicker' : 'thinner'
      return `${say.percent(Math.abs(warning.share))} ${thicker} than its label.`
    }
  }
}

/** Mean and spread of micrometer readings. */
export function readingsText(read: Readings | null, say: Say): string {
  if (!read) return 'not measured'
  const mean = say.diameter(read.mean)
  return read.count === 1
    ? `${mean}, once`
    : `${mean}, ${read.count} readings within ${say.step(read.range)}`
}

const isNews = ({ before, after }: Change) =>
  before !== null && after !== null && Math.abs(after / before - 1) > 0.005

function line(name: string, { before, after }: Change, word: (value: number) => string): string[] {
  if (before === null || after === null) return []
  return [`${name} ${word(before)} to ${word(after)}`]
}

/** What a substitute or a measured diameter changes, a line a figure; what stays is left out. */
export function changeTexts(piece: PieceChange, whole: LeaderChange, say: Say): string[] {
  const relative = ({ before, after }: Change) =>
    before && after
      ? `${after >= before ? '+' : '−'}${say.percent(Math.abs(after / before - 1))}`
      : ''
  return [
    ...(isNews(piece.diameter_m) ? line('diameter', piece.diameter_m, say.diameter) : []),
    ...(isNews(piece.stepAbove)
      ? line('keeps at the joint above', piece.stepAbove, say.percent)
      : []),
    ...(isNews(piece.stepBelow)
      ? line('keeps at the joint below', piece.stepBelow, say.percent)
      : []),
    ...(isNews(piece.stiffness_N_m2) ? [`stiffness ${relative(piece.stiffness_N_m2)}`] : []),
    ...(isNews(piece.strength_N) ? line('holds, wet', piece.strength_N, say.force) : []),
    ...(isNews(whole.weakest_N) ? line('weakest place', whole.weakest_N, say.force) : []),
  ]
}

/** Money in whatever currency the user counts in. */
export const priceText = (price: number): string => price.toFixed(2)

export const countText = (count: number, one: string, many = `${one}s`): string =>
  `${count} ${count === 1 ? one : many}`
