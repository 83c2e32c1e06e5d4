/** Spools and leaders for tests, invented. */
import type { Spool } from '../../../src/engine/tying'
import { leaderOf, q, size } from '../build'

export interface SpoolText {
  readonly id: string
  readonly size: string
  readonly left: string
  readonly material?: string
  readonly readings?: readonly string[]
  readonly patch?: Partial<Spool>
}

export function spoolOf({ id, size: on, left, material, readings = [], patch }: SpoolText): Spool {
  return {
    id,
    material: material ?? 'nylon-supple',
    size: size(on),
    left: q(left, 'spool-length'),
    readings: readings.map(size),
    pullTests: [],
    state: 'good',
    ...patch,
  }
}

/** Three pieces that a shelf of three spools can be tied from. */
export const simple = leaderOf([
  { length: '40 in', diameter: '.020 in', part: 'butt' },
  { length: '20 in', diameter: '.012 in', part: 'mid-section' },
  { length: '24 in', diameter: '5X', part: 'tippet' },
])

export const shelf = (left = '20 m'): Spool[] => [
  spoolOf({ id: 'butt', size: '.020 in', left }),
  spoolOf({ id: 'mid', size: '.012 in', left }),
  spoolOf({ id: 'tip', size: '5X', left }),
]

/** Five formulas of six pieces over fifteen spools, five of them partly used twins. */
export function season() {
  const sizes = ['.021', '.019', '.017', '.015', '.013', '.011', '.009', '.008', '.007', '.006']
  const leaders = Array.from({ length: 5 }, (_, k) =>
    leaderOf(
      Array.from({ length: 6 }, (_, i) => ({
        length: `${[36, 16, 12, 9, 8, 26][i]! + k} in`,
        diameter: `${sizes[Math.min(9, i + (k % 5))]} in`,
        part: i < 2 ? ('butt' as const) : i < 5 ? ('mid-section' as const) : ('tippet' as const),
      })),
      { name: `formula ${k + 1}` },
    ),
  )
  const spools = [
    ...sizes.map((on, i) => spoolOf({ id: `full ${i}`, size: `${on} in`, left: '45 m' })),
    ...sizes
      .slice(2, 7)
      .map((on, i) => spoolOf({ id: `begun ${i}`, size: `${on} in`, left: `${4 + 1.7 * i} m` })),
  ]
  return { orders: leaders.map((leader) => ({ leader, count: 8 })), spools }
}
