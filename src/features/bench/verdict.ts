import type { Evaluation } from '../../engine/evaluate'
import type { Leader } from '../../engine/leader'
import type { Turnover } from '../../engine/cast'
import type { Say, SpokenUnits } from '../../wording'
import { formatHook } from '../../engine/tackle'
import { formatSi, trimZeros } from '../../engine/units'
import { CASTER_NAMES, FLY_NAMES } from '../../wording'
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
  if (leader.purpose === 'tight-line-nymph') {
    return { name, figure: 'Not reckoned', rest: 'a tight-line rig is swung, not cast in a loop' }
  }
  const fly = leader.tip.fly?.fly
  const { neededSpeed_m_s: needed, caster, lossShares, flySpeed_m_s } = turnover
  const what = fly ? `${FLY_NAMES[fly.style].toLowerCase()} ${formatHook(fly.hook)}` : 'fly'
  const thrower = CASTER_NAMES[leader.outfit.caster ?? 'ordinary'].toLowerCase()
  const only = leader.segments.some((s) => s.attachments.length > 0) ? '; the tip fly alone' : ''
  return {
    name,
    figure: `${verdictWords(turnover)}: ${what}`,
    rest: `needs ${speed(needed.value)} (${speed(needed.low)} to ${speed(needed.high)}) of line speed, ${thrower} throws ${caster.lineSpeed_m_s}; the loop reaches the fly at ${speed(flySpeed_m_s)}; the fly takes ${Math.round(lossShares.fly * 100)} % of what the air takes${only}`,
  }
}

/** As sure as the estimate's own band allows, and no surer. */
export function verdictWords({ verdict, neededSpeed_m_s: needed, caster }: Turnover): string {
  if (verdict === 'straight') {
    return needed.high <= caster.lineSpeed_m_s ? 'Turns over' : 'Should turn over'
  }
  return needed.low <= caster.lineSpeed_m_s ? 'May not turn over' : 'Does not turn over'
}

const FASTEST_SAID = 40

function speed(m_s: number): string {
  return m_s > FASTEST_SAID ? `more than ${FASTEST_SAID} m/s` : `${trimZeros(m_s.toFixed(1))} m/s`
}
