import type { CastChoices } from '../cast'
import type { Leader } from '../leader'
import {
  casterOf,
  diameter_m,
  materialOf,
  setDiameter,
  setSegment,
  shareOf,
  tippetIndex,
  totalLength_m,
} from '../leader'
import { flyFigures } from '../tackle'
import { quantityOf } from '../units'

/** The quantities that can be changed one at a time while all else is held. */
export const EXPLORER_IDS = [
  'butt-share',
  'tippet-length',
  'tippet-size',
  'step',
  'material',
  'line-speed',
  'loop-height',
  'wind',
  'fly-mass',
  'fly-drag',
] as const
export type ExplorerId = (typeof EXPLORER_IDS)[number]

/** A leader with its cast, ready to be changed. */
export interface Posed {
  readonly leader: Leader
  readonly choices: CastChoices
}

/** What is explored: a quantity and, for a step, the piece (from 0) at whose butt end it is. */
export interface Explored {
  readonly id: ExplorerId
  readonly piece?: number
}

/** The range (SI; shares, ratios and factors as numbers) over which a quantity makes sense, and where it stands. */
export interface Span {
  readonly low: number
  readonly high: number
  readonly present: number
  /** Spaced by factors, not by differences. */
  readonly isLog: boolean
}

interface Explorer {
  readonly span: (posed: Posed, piece: number) => Span | null
  readonly change: (posed: Posed, value: number, piece: number) => Posed
}

const linear = (low: number, high: number, present: number): Span => ({
  low: Math.min(low, present),
  high: Math.max(high, present),
  present,
  isLog: false,
})
const byFactors = (present: number, down: number, up: number): Span => ({
  low: present / down,
  high: present * up,
  present,
  isLog: true,
})

const withChoices = (posed: Posed, patch: Partial<CastChoices>): Posed => ({
  ...posed,
  choices: { ...posed.choices, ...patch },
})
const withCast = (posed: Posed, cast: NonNullable<CastChoices['cast']>): Posed =>
  withChoices(posed, { cast: { ...posed.choices.cast, ...cast } })

// Ranges are estimates of ours: as far as a person would go, and a little farther.
const EXPLORERS: Readonly<Record<ExplorerId, Explorer>> = {
  'butt-share': {
    span: ({ leader }) => {
      const share = buttLength_m(leader) / totalLength_m(leader)
      return share > 0 && share < 1 ? linear(0.1, 0.85, share) : null
    },
    change: (posed, share) => ({ ...posed, leader: withButtShare(posed.leader, share) }),
  },
  'tippet-length': {
    span: ({ leader }) => {
      const tippet = leader.segments[tippetIndex(leader)]
      return tippet ? linear(0.15, 2.4, tippet.length.si) : null
    },
    change: (posed, length_m) => {
      const { leader } = posed
      const at = tippetIndex(leader)
      const length = quantityOf(length_m, 'length', leader.segments[at]?.length.unit ?? 'm')
      return { ...posed, leader: setSegment(leader, at, { length }) }
    },
  },
  'tippet-size': {
    span: ({ leader }) => {
      const tippet = leader.segments[tippetIndex(leader)]
      return tippet ? linear(0.075e-3, 0.4e-3, diameter_m(tippet)) : null
    },
    change: (posed, size_m) => withDiameter(posed, tippetIndex(posed.leader), size_m),
  },
  step: {
    span: ({ leader }, piece) => {
      const ratio = stepAt(leader, piece)
      return ratio === null ? null : linear(0.4, 1, ratio)
    },
    change: (posed, ratio, piece) => {
      const above = posed.leader.segments[piece - 1]
      return above ? withDiameter(posed, piece, ratio * diameter_m(above)) : posed
    },
  },
  material: {
    span: () => byFactors(1, 3, 3),
    change: (posed, factor) => ({ ...posed, leader: withModulus(posed.leader, factor) }),
  },
  'line-speed': {
    span: ({ leader, choices }) =>
      linear(4, 24, choices.cast?.lineSpeed_m_s ?? casterOf(leader.outfit).lineSpeed_m_s),
    change: (posed, lineSpeed_m_s) => withCast(posed, { lineSpeed_m_s }),
  },
  'loop-height': {
    span: ({ leader, choices }) =>
      linear(0.3, 2, choices.cast?.loopHeight_m ?? casterOf(leader.outfit).loopHeight_m),
    change: (posed, loopHeight_m) => withCast(posed, { loopHeight_m }),
  },
  wind: {
    span: ({ choices }) => linear(-8, 8, choices.wind_m_s ?? 0),
    change: (posed, wind_m_s) => withChoices(posed, { wind_m_s }),
  },
  'fly-mass': {
    span: (posed) => flySpan(posed, 'mass_kg'),
    change: (posed, mass_kg) => withChoices(posed, { fly: { ...posed.choices.fly, mass_kg } }),
  },
  'fly-drag': {
    span: (posed) => flySpan(posed, 'dragArea_m2'),
    change: (posed, dragArea_m2) =>
      withChoices(posed, { fly: { ...posed.choices.fly, dragArea_m2 } }),
  },
}

/** Where a quantity stands and how far it may go; null where this leader has none of it. */
export function spanOf(posed: Posed, { id, piece = 1 }: Explored): Span | null {
  return EXPLORERS[id].span(posed, piece)
}

/** The leader and cast with one quantity set to `value` and all else as it was. */
export function changed(posed: Posed, { id, piece = 1 }: Explored, value: number): Posed {
  return EXPLORERS[id].change(posed, value, piece)
}

/**
 * `count` >= 2 values over the span, ends included; the one nearest to where the quantity stands is moved
 * there, so that the present case is among them.
 */
export function valuesOver({ low, high, present, isLog }: Span, count: number): number[] {
  const at = (k: number) => {
    const share = k / (count - 1)
    return isLog ? low * (high / low) ** share : low + (high - low) * share
  }
  const values = Array.from({ length: count }, (_, k) => at(k))
  const nearest = values.reduce(
    (best, value, k) =>
      Math.abs(value - present) < Math.abs((values[best] ?? 0) - present) ? k : best,
    0,
  )
  values[nearest] = present
  return values
}

/** Diameter below the joint over diameter above it; null at the line and beyond the last piece. */
export function stepAt(leader: Leader, piece: number): number | null {
  const [above, below] = [leader.segments[piece - 1], leader.segments[piece]]
  return above && below ? diameter_m(below) / diameter_m(above) : null
}

function flySpan({ leader, choices }: Posed, figure: 'mass_kg' | 'dragArea_m2'): Span | null {
  const fly = leader.tip.fly && flyFigures(leader.tip.fly.fly)
  if (!fly) return null
  const own = figure === 'mass_kg' ? fly.mass.value : fly.dragArea.value
  const present = choices.fly?.[figure] ?? own
  return present > 0 ? byFactors(present, 4, 4) : null
}

function withDiameter(posed: Posed, at: number, size_m: number): Posed {
  const unit = posed.leader.segments[at]?.diameter.unit ?? 'mm'
  // An X size has no place for what lies between two sizes.
  const written = unit === 'X' ? 'in' : unit
  const diameter = quantityOf(size_m, 'diameter', written)
  return { ...posed, leader: setDiameter(posed.leader, at, diameter) }
}

const isButt = (part: Leader['segments'][number]['part']) => shareOf(part) === 'butt'

function buttLength_m(leader: Leader): number {
  return leader.segments.reduce((sum, s) => sum + (isButt(s.part) ? s.length.si : 0), 0)
}

/** Butt pieces and the others each keep their proportions; the total stays. */
function withButtShare(leader: Leader, share: number): Leader {
  const total = totalLength_m(leader)
  const butt = buttLength_m(leader)
  const [forButt, forRest] = [(share * total) / butt, ((1 - share) * total) / (total - butt)]
  const segments = leader.segments.map((s) => ({
    ...s,
    length: quantityOf(s.length.si * (isButt(s.part) ? forButt : forRest), 'length', s.length.unit),
  }))
  return { ...leader, segments }
}

/** Every piece of a material so many times as stiff; in all else the materials are as they were. */
function withModulus(leader: Leader, factor: number): Leader {
  if (factor === 1) return leader
  const ids = [...new Set(leader.segments.map((s) => s.material))]
  const changedId = (id: string) => `${id}*${factor}`
  const materials = ids.map((id) => {
    const { modulus, ...material } = materialOf(leader, id)
    return {
      ...material,
      id: changedId(id),
      name: `${material.name}, ${Number(factor.toPrecision(2))} times as stiff`,
      modulus: {
        ...modulus,
        value: modulus.value * factor,
        low: modulus.low * factor,
        high: modulus.high * factor,
      },
    }
  })
  const segments = leader.segments.map((s) => ({ ...s, material: changedId(s.material) }))
  return { ...leader, segments, materials: [...leader.materials, ...materials] }
}
