/** What a flight in the air is called, and how two least speeds rank. */

/** At least this much of its length is straight; between the two it is lazy. Estimates of ours. */
export const STRAIGHT_EXTENSION = 0.95
export const LAZY_EXTENSION = 0.85

export type TurnoverVerdict = 'straight' | 'lazy' | 'collapsed'

/** What an extension is called; differences under 0.03 are ties. */
export function verdictOf(extension: number): TurnoverVerdict {
  if (extension >= STRAIGHT_EXTENSION) return 'straight'
  return extension >= LAZY_EXTENSION ? 'lazy' : 'collapsed'
}

/** How much harder one leader is to turn over than another; rankings are what the model is good for. */
export type Ranking = 'easier' | 'as' | 'harder'
const TIE = 0.08 // speeds within 8 % are a tie, from extension ties of 0.03

export function rankAgainst(
  leastSpeed_m_s: number | null,
  yardstick_m_s: number | null,
): Ranking | null {
  if (leastSpeed_m_s === null) return yardstick_m_s === null ? null : 'harder'
  if (yardstick_m_s === null) return 'easier'
  const ratio = leastSpeed_m_s / yardstick_m_s
  if (ratio > 1 + TIE) return 'harder'
  return ratio < 1 - TIE ? 'easier' : 'as'
}
