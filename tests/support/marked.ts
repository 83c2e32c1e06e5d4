import type { AnyLanguage, Messages } from '../../src/wording/language'

const [OPEN, CLOSE] = ['⟦', '⟧']
const mark = (text: string) => `${OPEN}${text}${CLOSE}`

/** A made-up language: every message marked, so that a text that no language was asked for stands out. */
export const marked = (rooms: Readonly<Record<string, Messages>>): AnyLanguage => ({
  // German has a decimal comma.
  tag: 'de',
  rooms: markedIn(rooms) as Readonly<Record<string, Messages>>,
})

function markedIn(value: unknown): unknown {
  if (typeof value === 'string') return mark(value)
  if (typeof value === 'function')
    return (...parts: unknown[]) => mark((value as (...parts: unknown[]) => string)(...parts))
  if (Array.isArray(value)) return value.map(markedIn)
  const entries = Object.entries(value as object).map(([key, each]) => [key, markedIn(each)])
  return Object.fromEntries(entries) as unknown
}
