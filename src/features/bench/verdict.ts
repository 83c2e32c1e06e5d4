import type { Evaluation } from '../../engine/evaluate'
import type { Leader } from '../../engine/leader'
import type { Presentation, SimulatedTurnover, Turnover } from '../../engine/cast'
import { rankAgainst, SPEED_BAND, verdictOf } from '../../engine/cast'
import type { Say, SpokenUnits } from '../../wording'
import { formatHook } from '../../engine/tackle'
import { formatSi, trimZeros } from '../../engine/units'
import { casterName, FASTEST_SAID, FLY_NAMES, speedText, totalUnit } from '../../wording'
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
  simulated?: SimulatedCast,
): BandItem[] {
  return [
    totalItem(leader, evaluation, say, units),
    weakestItem(leader, evaluation, say, units),
    simulated ? simulatedItem(leader, simulated) : turnoverItem(leader, evaluation.turnover),
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

function turnoverItem(leader: Leader, turnover: Turnover | 'no-fly' | 'no-line'): BandItem {
  const name = 'Turnover, estimated'
  if (turnover === 'no-fly') return { name, figure: 'Not computed', rest: 'choose a fly below' }
  if (turnover === 'no-line')
    return { name, figure: 'Not computed', rest: 'choose a fly line below' }
  if (leader.purpose === 'tight-line-nymph') {
    return { name, figure: 'Not computed', rest: 'a tight-line rig is swung, not cast in a loop' }
  }
  const fly = leader.tip.fly?.fly
  const { neededSpeed_m_s: needed, caster, lossShares, flySpeed_m_s } = turnover
  const what = fly ? `${FLY_NAMES[fly.style].toLowerCase()} ${formatHook(fly.hook)}` : 'fly'
  const thrower = casterName(leader.outfit).toLowerCase()
  const only = leader.segments.some((s) => s.attachments.length > 0) ? '; the tip fly alone' : ''
  return {
    name,
    figure: `${verdictWords(turnover)}: ${what}`,
    rest: `needs ${speedText(needed.value)} (${speedText(needed.low)} to ${speedText(needed.high)}) of line speed, ${thrower} throws ${caster.lineSpeed_m_s}; the loop reaches the fly at ${speedText(flySpeed_m_s)}; the fly takes ${Math.round(lossShares.fly * 100)} % of what the air takes${only}`,
  }
}

/** A simulated turnover, with what it is compared to. */
export interface SimulatedCast {
  readonly turnover: SimulatedTurnover
  readonly presentation: Presentation | null
  readonly yardstick: { readonly name: string; readonly least_m_s: number | null } | undefined
}

const PRESENTATION_WORDS: Readonly<Record<Presentation, string>> = {
  delicate: ', delicate',
  firm: ', firm',
  slap: ', with a slap',
  'turned-over': '',
}

function simulatedItem(
  leader: Leader,
  { turnover: t, presentation, yardstick }: SimulatedCast,
): BandItem {
  const fly = leader.tip.fly?.fly
  const what = fly ? `${FLY_NAMES[fly.style].toLowerCase()} ${formatHook(fly.hook)}` : 'fly'
  const verdict = verdictOf(t.extension)
  const manner = presentation && verdict !== 'collapsed' ? PRESENTATION_WORDS[presentation] : ''
  return {
    name: 'Turnover, simulated',
    figure: `${SHAPES[verdict]}${manner}: ${what}`,
    rest: [rankWords(t, yardstick), needWords(t), oddsWords(t)].filter(Boolean).join('; '),
  }
}

const SHAPES = { straight: 'Straight', lazy: 'Lazy', collapsed: 'Collapsed' } as const

/** Rankings first: they are what the model is good for. */
function rankWords(
  { leastSpeed_m_s }: SimulatedTurnover,
  yardstick: SimulatedCast['yardstick'],
): string {
  const rank = yardstick && rankAgainst(leastSpeed_m_s, yardstick.least_m_s)
  if (!rank || !yardstick) return ''
  const words = {
    easier: 'easier to turn over than',
    as: 'about as hard to turn over as',
    harder: 'harder to turn over than',
  }[rank]
  return `${words} “${yardstick.name}”`
}

function needWords({ leastSpeed_m_s: least, lineSpeed_m_s, band }: SimulatedTurnover): string {
  const throws = `you throw ${trimZeros(lineSpeed_m_s.toFixed(1))}`
  if (least === null) return `no line speed up to ${FASTEST_SAID} m/s turns it over; ${throws}`
  const [low, high] = [
    band?.p10_m_s ?? least * SPEED_BAND.low,
    band?.p90_m_s ?? least * SPEED_BAND.high,
  ]
  return `needs ${speedText(least)} (${Math.round(low)} to ${band && band.p90_m_s === null ? `more than ${FASTEST_SAID}` : Math.round(high)}), ${throws}`
}

function oddsWords({ band }: SimulatedTurnover): string {
  return band ? `turns over in ${Math.round(band.probability * 100)} of 100 likely casts` : ''
}

/** As sure as the estimate's own band allows, and no surer. */
function verdictWords({ verdict, neededSpeed_m_s: needed, caster }: Turnover): string {
  if (verdict === 'straight') {
    return needed.high <= caster.lineSpeed_m_s ? 'Turns over' : 'Should turn over'
  }
  return needed.low <= caster.lineSpeed_m_s ? 'May not turn over' : 'Does not turn over'
}
