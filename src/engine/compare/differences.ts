import type { Leader } from '../leader'
import type { Profile } from '../profile'
import { diameter_m, tippetIndex } from '../leader'
import { profileOf, segmentAt } from '../profile'
import { strengthOf } from '../strength'

export type ComparedId =
  | 'length'
  | 'mass'
  | 'butt-diameter'
  | 'tippet-diameter'
  | 'tippet-length'
  | 'butt-share'
  | 'largest-step'
  | 'strength'
  | 'stiffness'
  | 'density'

/** How one leader differs from another in one figure: both figures (SI), and where along them (m). */
export interface Difference {
  readonly id: ComparedId
  readonly first: number
  readonly other: number
  /** Distance from the line at which they differ most, for what varies along a leader. */
  readonly at_m?: number
  /** How much it matters: 1 is what a person would just notice. */
  readonly weight: number
}

/** The factor in a figure that a person would just notice; estimates of ours. */
const NOTICED: Readonly<Record<ComparedId, number>> = {
  length: 1.05,
  mass: 1.15,
  'butt-diameter': 1.07,
  'tippet-diameter': 1.1,
  'tippet-length': 1.15,
  'butt-share': 1.15,
  'largest-step': 1.1,
  strength: 1.15,
  stiffness: 1.5,
  density: 1.25,
}

/** What differs noticeably between two leaders, what matters most first. */
export function differencesOf(first: Leader, other: Leader): Difference[] {
  const [a, b] = [first, other].map(figuresOf) as [Figures, Figures]
  const single = SINGLE.flatMap((id) => {
    const [x, y] = [a.single[id], b.single[id]]
    return x === null || y === null ? [] : [difference(id, x, y)]
  })
  const along = (['stiffness', 'density'] as const).map((id) =>
    worstAlong(id, a.profile, b.profile),
  )
  return [...single, ...along]
    .filter(({ weight }) => weight >= 1)
    .sort((x, y) => y.weight - x.weight)
}

type SingleId = Exclude<ComparedId, 'stiffness' | 'density'>
const SINGLE: readonly SingleId[] = [
  'length',
  'mass',
  'butt-diameter',
  'tippet-diameter',
  'tippet-length',
  'butt-share',
  'largest-step',
  'strength',
]

interface Figures {
  readonly profile: Profile
  readonly single: Readonly<Record<SingleId, number | null>>
}

function figuresOf(leader: Leader): Figures {
  const profile = profileOf(leader)
  const tippet = leader.segments[tippetIndex(leader)]
  const [butt] = leader.segments
  const steps = leader.segments.flatMap((s, i) => {
    const above = leader.segments[i - 1]
    return above ? [diameter_m(s) / diameter_m(above)] : []
  })
  return {
    profile,
    single: {
      length: profile.total_m,
      mass: profile.mass_kg,
      'butt-diameter': butt ? diameter_m(butt) : null,
      'tippet-diameter': tippet ? diameter_m(tippet) : null,
      'tippet-length': tippet ? tippet.length.si : null,
      'butt-share': profile.shares.butt || null,
      'largest-step': steps.length > 0 ? Math.min(...steps) : null,
      strength: strengthOf(leader).weakest.strength.wet.value,
    },
  }
}

function difference(id: ComparedId, first: number, other: number, at_m?: number): Difference {
  const weight = Math.abs(Math.log(other / first)) / Math.log(NOTICED[id])
  return { id, first, other, weight, ...(at_m === undefined ? {} : { at_m }) }
}

const PLACES = 60
const COLUMNS = { stiffness: 'stiffness_N_m2', density: 'linearDensity_kg_m' } as const

/** Where two leaders, laid side by side from the line, differ most; beyond the shorter there is nothing to compare. */
function worstAlong(id: 'stiffness' | 'density', a: Profile, b: Profile): Difference {
  const reach_m = Math.min(a.total_m, b.total_m)
  const figure = (profile: Profile, at_m: number) =>
    profile.segments[segmentAt(profile, at_m)]?.[COLUMNS[id]] ?? NaN
  const all = Array.from({ length: PLACES }, (_, k) => {
    const at_m = (reach_m * (k + 0.5)) / PLACES
    return difference(id, figure(a, at_m), figure(b, at_m), at_m)
  })
  return all.reduce((worst, each) => (each.weight > worst.weight ? each : worst))
}
