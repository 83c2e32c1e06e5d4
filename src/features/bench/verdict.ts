import type { Evaluation } from '../../engine/evaluate'
import type { Leader } from '../../engine/leader'
import type { Turnover } from '../../engine/cast'
import type { Say, SpokenUnits } from '../../wording'
import { formatHook } from '../../engine/tackle'
import { formatSi } from '../../engine/units'
import { CASTER_NAMES, FLY_NAMES, VERDICT_WORDS } from '../../wording'
import { placeText } from './rows'
import { totalUnit } from './units'

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
): BandItem[] {
  return [
    totalItem(leader, evaluation, say, units),
    weakestItem(leader, evaluation, say, units),
    turnoverItem(leader, evaluation.turnover),
  ]
}

function totalItem(
  leader: Leader,
  { profile, cut }: Evaluation,
  say: Say,
  units: SpokenUnits,
): BandItem {
  const cutTotal = cut.reduce((sum, piece) => sum + piece.cut_m, 0)
  const waste = cut.reduce((sum, piece) => sum + piece.trimmed_m, 0)
  const unit = totalUnit(units.length)
  return {
    name: 'Finished length',
    figure: formatSi(profile.total_m, 'length', unit),
    rest: `${leader.segments.length} pieces; cut ${formatSi(cutTotal, 'length', unit)}, of it ${say.length(waste)} trimmed; ${(profile.mass_kg * 1e3).toFixed(2)} g`,
  }
}

function weakestItem(
  leader: Leader,
  { strength }: Evaluation,
  say: Say,
  units: SpokenUnits,
): BandItem {
  const { wet, dry } = strength.weakest.strength
  const other = units.force === 'lb' ? 'kg' : 'lb'
  return {
    name: 'Weakest place, wet',
    figure: `${say.force(wet.value)} (${formatSi(wet.value, 'force', other)})`,
    rest: `${placeText(strength.weakest, leader)}; ${say.force(wet.low)} to ${say.force(wet.high)} as knots go; dry ${say.force(dry.value)}`,
  }
}

function turnoverItem(leader: Leader, turnover: Turnover | 'no-fly' | 'no-line'): BandItem {
  const name = 'Turnover, estimated'
  if (turnover === 'no-fly') return { name, figure: 'Not reckoned', rest: 'choose a fly below' }
  if (turnover === 'no-line')
    return { name, figure: 'Not reckoned', rest: 'choose a fly line below' }
  const fly = leader.tip.fly?.fly
  const { neededSpeed_m_s: needed, caster, verdict, lossShares } = turnover
  const words = VERDICT_WORDS[verdict]
  const what = fly ? `${FLY_NAMES[fly.style].toLowerCase()} ${formatHook(fly.hook)}` : 'fly'
  const thrower = CASTER_NAMES[leader.outfit.caster ?? 'ordinary'].toLowerCase()
  return {
    name,
    figure: `${words.charAt(0).toUpperCase()}${words.slice(1)}: ${what}`,
    rest: `needs about ${speed(needed.value)} (${speed(needed.low)} to ${speed(needed.high)}) of line speed; ${thrower} ${caster.lineSpeed_m_s}; ${Math.round(lossShares.fly * 100)} % of the loss is the fly’s`,
  }
}

const FASTEST_SAID = 40

function speed(m_s: number): string {
  return m_s > FASTEST_SAID ? `over ${FASTEST_SAID} m/s` : `${m_s.toFixed(m_s < 9.95 ? 1 : 0)} m/s`
}
