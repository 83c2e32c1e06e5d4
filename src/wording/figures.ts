import type { Dimension, Unit } from '../engine/units'
import { formatSi } from '../engine/units'
import { languageTag } from './language'

/** A number with so many decimals, as the language writes it. */
export const fixed = (value: number, decimals: number): string =>
  new Intl.NumberFormat(languageTag(), {
    minimumFractionDigits: decimals,
    maximumFractionDigits: decimals,
    useGrouping: false,
  }).format(value)

/** A number with at most so many decimals, without zeros at its end. */
export const rounded = (value: number, decimals = 0): string =>
  new Intl.NumberFormat(languageTag(), {
    maximumFractionDigits: decimals,
    useGrouping: false,
  }).format(value)

/** A figure in a unit, as the trade writes it (`.006 in`, `7' 6"`), with the language's decimal mark. */
export const figure = (si: number, dimension: Dimension, unit: Unit): string =>
  withDecimalMark(formatSi(si, dimension, unit))

/** A figure that has a point, with the language's decimal mark in its place. */
function withDecimalMark(text: string): string {
  const mark = rounded(0.5, 1).charAt(1)
  return mark === '.' ? text : text.replace(/\.(?=\d)/g, mark)
}

/** The word for so many: `plural(n, { one: 'piece', other: 'pieces' })`. */
export const plural = (
  count: number,
  forms: Readonly<Partial<Record<Intl.LDMLPluralRule, string>>> & { readonly other: string },
): string => forms[new Intl.PluralRules(languageTag()).select(count)] ?? forms.other

/** `a, b and c`. */
export const list = (
  items: readonly string[],
  type: 'conjunction' | 'disjunction' = 'conjunction',
) => new Intl.ListFormat(languageTag(), { type }).format(items)
