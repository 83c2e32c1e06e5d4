import type { CastChoices } from '../engine/cast'
import type { Leader } from '../engine/leader'
import { STANDARD_CAST, STANDARD_SETTINGS } from '../engine/cast'
import { casterOf } from '../engine/leader'
import { flyFigures, THROWN } from '../engine/tackle'

const { lineSpeed_m_s: SPEED, loopHeight_m: LOOP } = THROWN

/** What a person can set about a cast: name of the field, what it is called, its unit, bounds and step. */
export const CAST_FIELDS = [
  ['lineSpeed_m_s', 'Line speed', 'm/s', SPEED.low, SPEED.high, 0.5],
  ['loopHeight_m', 'Loop height', 'm', LOOP.low, LOOP.high, 0.1],
  ['wind_m_s', 'Wind (head wind negative)', 'm/s', -12, 12, 0.5],
  ['lineOut_m', 'Line out', 'm', 5, 20, 0.5],
  ['tipHeight_m', 'Rod tip above water', 'm', 0.5, 5, 0.1],
  ['launchAngle_deg', 'Launch, upward', '°', -10, 30, 1],
  ['curl_1_m', 'Curl off the spool', '1/m', 0, 30, 1],
  ['flyMass_mg', 'Fly', 'mg', 1, 5000, 1],
  ['flyDrag_mm2', 'Drag area of the fly', 'mm²', 0.1, 2000, 1],
] as const
export type CastField = (typeof CAST_FIELDS)[number][0]
export type CastFigures = Readonly<Record<CastField, number>>
/** What the person set over the standard cast. */
export type OwnFigures = Readonly<Partial<Record<CastField, number>>>

/** The standard cast of a leader: its caster, its fly, still air. */
export function standardFigures(leader: Leader): CastFigures {
  const fly = leader.tip.fly && flyFigures(leader.tip.fly.fly)
  const rounded = (value = 0) => Math.round(value * 1e7) / 10
  return {
    ...casterOf(leader.outfit),
    wind_m_s: 0,
    lineOut_m: STANDARD_CAST.lineOut_m,
    tipHeight_m: STANDARD_SETTINGS.tipHeight_m,
    launchAngle_deg: STANDARD_SETTINGS.launchAngle_deg,
    curl_1_m: 0,
    flyMass_mg: rounded(fly?.mass.value),
    flyDrag_mm2: rounded(fly?.dragArea.value),
  }
}

/** The figures as the engine takes them; a fly's only where set over its own, so that a second leader keeps its own fly. */
export function choicesOf(figures: CastFigures, own: OwnFigures, wet: boolean): CastChoices {
  const { wind_m_s, lineOut_m, curl_1_m, flyMass_mg, flyDrag_mm2, ...cast } = figures
  const fly = {
    ...(own.flyMass_mg === undefined ? {} : { mass_kg: flyMass_mg * 1e-6 }),
    ...(own.flyDrag_mm2 === undefined ? {} : { dragArea_m2: flyDrag_mm2 * 1e-6 }),
  }
  return { cast, wind_m_s, lineOut_m, curl_1_m, wet, fly }
}
