import type { Evaluation } from '../../engine/evaluate'
import type { Leader } from '../../engine/leader'
import type { Judgement } from '../../engine/delivery'
import type { Yardstick } from '../../stores/benchDelivery'
import type { Say, SpokenUnits } from '../../wording'
import { formatHook } from '../../engine/tackle'
import { formatSi } from '../../engine/units'
import { deliveryWords, FLY_NAMES, totalUnit } from '../../wording'
import { placeText } from './rows'

/** A figure of the band: what it is, the figure, and a line that says what it rests on. */
export interface BandItem {
  readonly name: string
  readonly figure: string
  readonly rest: string
}

export function bandItems(
  leader: Leader,
  evaluation: Evaluation,
  say: Say,
  units: SpokenUnits,
  judgement: Judgement,
  yardstick?: Yardstick,
): BandItem[] {
  return [
    totalItem(leader, evaluation, say, units),
    weakestItem(leader, evaluation, say, units),
    deliveryItem(leader, judgement, yardstick, say),
  ]
}

function totalItem(
  leader: Leader,
  { profile, pieces }: Evaluation,
  say: Say,
  units: SpokenUnits,
): BandItem {
  const cutTotal = pieces.reduce((sum, { cut }) => sum + cut.cut_m, 0)
  const waste = pieces.reduce((sum, { cut }) => sum + cut.trimmed_m, 0)
  const unit = totalUnit(units.length)
  return {
    name: 'Finished length',
    figure: formatSi(profile.total_m, 'length', unit),
    rest: `${leader.segments.length} pieces; cut ${formatSi(cutTotal, 'length', unit)}, of it ${say.length(waste)} trimmed; ${(profile.mass_kg * 1e3).toFixed(2)} g`,
  }
}

function weakestItem(
  leader: Leader,
  { weakest }: Evaluation,
  say: Say,
  units: SpokenUnits,
): BandItem {
  const { wet, dry } = weakest.strength
  const other = units.force === 'lb' ? 'kg' : 'lb'
  return {
    name: 'Weakest place, wet',
    figure: `${say.force(wet.value)} (${formatSi(wet.value, 'force', other)})`,
    rest: `${placeText(weakest, leader)}; ${say.force(wet.low)} to ${say.force(wet.high)} as knots go; dry ${say.force(dry.value)}`,
  }
}

/** The answer that the bench is there for, in the words of every other place. */
function deliveryItem(
  leader: Leader,
  judgement: Judgement,
  yardstick: Yardstick | undefined,
  say: Say,
): BandItem {
  const { title, sentences } = deliveryWords(judgement, leader, say)
  const fly = leader.tip.fly?.fly
  const what = fly ? `: ${FLY_NAMES[fly.style].toLowerCase()} ${formatHook(fly.hook)}` : ''
  const isThrown = judgement.kind === 'delivered'
  return {
    name: 'How it is delivered',
    figure: `${title}${isThrown ? what : ''}`,
    rest: [...sentences, ...(isThrown && yardstick ? [rankSentence(yardstick)] : [])].join(' '),
  }
}

const RANKS = {
  easier: 'It asks for less power than',
  as: 'It asks for as much power as',
  harder: 'It asks for more power than',
} as const

const rankSentence = ({ name, rank }: Yardstick) => `${RANKS[rank]} “${name}”.`
