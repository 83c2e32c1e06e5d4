import type { Purpose } from '../leader'
import { INCH_M, THOU_M } from '../units'

/** What a limit measures, for its field and its unit. */
export type LimitKind = 'ratio' | 'diameter' | 'length' | 'share' | 'rods' | 'factor'

export interface LimitDefinition {
  readonly kind: LimitKind
  /** Of the usual value; a purpose's own number is an estimate. */
  readonly source: string
  /** Where no purpose of its own is named. null: the rule does not apply. */
  readonly usual: number | null
  readonly byPurpose?: Partial<Readonly<Record<Purpose, number | null>>>
}

const RATIOS =
  'estimate, our reading: stiffness falls with the fourth power of diameter; rules by thousandths (.002 in; 35 % thinner) from Borger, 2009 article, and common practice'
const SHARES =
  'McClane, 60/20/20 (from memory), to halves, Kreh, salt-water article (from memory), and thirds (common practice)'
const TIPPETS =
  'Borger, uni-body leader (from memory): dry 24 to 36 in, nymph 8 to 12 in; 18 to 36 in in general (from memory)'
const RODS =
  'about the rod to one and a half (common practice); competition to twice the rod (common practice)'
const BUTTS =
  'two thirds of the line tip, 60 to 75 %: J. Wulff, article on leaders (from memory), and common practice; about half fails (common practice)'
/** Said of a limit that is a purpose's own: practice tells the direction, the number is ours. */
const ADAPTED = '; adapted to this purpose: estimate'

const define = (
  kind: LimitKind,
  usual: number | null,
  source: string,
  byPurpose?: LimitDefinition['byPurpose'],
): LimitDefinition => ({ kind, usual, source, ...(byPurpose ? { byPurpose } : {}) })

/**
 * Every limit of every check. Limits differ by purpose because practice does: a leader that is meant to
 * land slack or to be fished on a tight line is right for what it is.
 */
export const LIMIT_DEFINITIONS = {
  stepRatioButt: define('ratio', 0.83, RATIOS, {
    streamer: 0.7,
    'salt-water': 0.7,
    'sinking-line': 0.5,
    'bite-tippet': 0.7,
    'tight-line-nymph': 0.5,
  }),
  stepRatioMiddle: define('ratio', 0.76, RATIOS, {
    streamer: 0.65,
    'salt-water': 0.65,
    'sinking-line': 0.5,
    'bite-tippet': 0.65,
    'tight-line-nymph': 0.5,
  }),
  stepRatioTip: define('ratio', 0.7, RATIOS, {
    streamer: 0.6,
    'salt-water': 0.6,
    'sinking-line': 0.5,
    'bite-tippet': 0.6,
    'tight-line-nymph': 0.5,
  }),
  stepRatioStrong: define('ratio', 0.65, RATIOS, {
    streamer: 0.55,
    'salt-water': 0.55,
    'sinking-line': 0.45,
    'bite-tippet': 0.55,
    'tight-line-nymph': 0.45,
  }),
  stepSize: define(
    'diameter',
    4 * THOU_M,
    '.002 in (Borger, 2009 article) to .004 in tolerated (common practice)',
    {
      streamer: 8 * THOU_M,
      'salt-water': 8 * THOU_M,
      'sinking-line': null,
      'bite-tippet': 8 * THOU_M,
      'tight-line-nymph': null,
    },
  ),
  shortestPiece: define('length', 6 * INCH_M, 'each transition at least 6 in (common practice)'),
  longestMiddleShare: define(
    'share',
    0.4,
    'estimate: one piece that is most of the taper is a step, not a taper',
    {
      'slack-line-dry': null,
      'tight-line-nymph': null,
      'still-water': null,
      'sinking-line': null,
      'bite-tippet': null,
    },
  ),
  buttRatioLow: define('ratio', 0.6, BUTTS, {
    'slack-line-dry': 0.45,
    'tight-line-nymph': null,
    'sinking-line': null,
    'still-water': 0.33,
    'salt-water': 0.5,
    'bite-tippet': 0.5,
  }),
  buttRatioHigh: define('ratio', 0.75, BUTTS, {
    'tight-line-nymph': null,
    'sinking-line': null,
    streamer: 0.85,
    'salt-water': 0.9,
    'bite-tippet': 0.95,
  }),
  buttShareLow: define('share', 0.33, SHARES, {
    'slack-line-dry': 0.12,
    'tight-line-nymph': null,
    'sinking-line': null,
    'still-water': 0.25,
  }),
  buttShareHigh: define('share', 0.66, SHARES, {
    'slack-line-dry': 0.45,
    'tight-line-nymph': null,
    'sinking-line': null,
    streamer: 0.75,
    'salt-water': 0.75,
    'bite-tippet': 0.75,
  }),
  midShareLow: define('share', 0.1, SHARES, {
    'slack-line-dry': 0.2,
    'tight-line-nymph': null,
    'sinking-line': null,
    streamer: 0,
    'bite-tippet': 0,
  }),
  midShareHigh: define('share', 0.45, SHARES, {
    'slack-line-dry': 0.7,
    nymph: 0.55,
    'tight-line-nymph': null,
    'sinking-line': null,
  }),
  tippetShareLow: define('share', 0.13, SHARES, {
    'slack-line-dry': 0.16,
    nymph: 0.06,
    'tight-line-nymph': null,
    'sinking-line': null,
    streamer: 0.08,
    'salt-water': 0.1,
  }),
  tippetShareHigh: define('share', 0.36, SHARES, {
    'slack-line-dry': 0.45,
    'tight-line-nymph': null,
    'sinking-line': null,
    'still-water': 0.45,
    'bite-tippet': 0.5,
  }),
  rodsLow: define('rods', 0.75, RODS, {
    streamer: 0.5,
    'sinking-line': 0.15,
    'bite-tippet': 0.6,
    teaching: 0.6,
  }),
  rodsHigh: define('rods', 1.5, RODS, {
    'slack-line-dry': 1.6,
    'tight-line-nymph': 2,
    'still-water': 2,
    'sinking-line': 1,
    'salt-water': 1.75,
    streamer: 1.3,
  }),
  tippetShortest: define('length', 18 * INCH_M, TIPPETS, {
    nymph: 8 * INCH_M,
    'tight-line-nymph': 24 * INCH_M,
    streamer: 9 * INCH_M,
    'sinking-line': 8 * INCH_M,
    'salt-water': 15 * INCH_M,
    'bite-tippet': 12 * INCH_M,
  }),
  tippetLongest: define('length', 42 * INCH_M, TIPPETS, {
    'slack-line-dry': 54 * INCH_M,
    'tight-line-nymph': 96 * INCH_M,
    'still-water': 72 * INCH_M,
    'sinking-line': 60 * INCH_M,
  }),
  fishPull: define(
    'factor',
    0.5,
    'estimate: a hooked fish is let run before it pulls half its weight',
  ),
  flyRuleLow: define('factor', 4, 'X is hook size divided by four, fast water (common practice)'),
  flyRuleHigh: define('factor', 3, 'X is hook size divided by three, slow water (common practice)'),
} as const satisfies Readonly<Record<string, LimitDefinition>>

export type LimitId = keyof typeof LIMIT_DEFINITIONS
export const LIMIT_IDS = Object.keys(LIMIT_DEFINITIONS) as LimitId[]

/** A value for each limit; null where the rule does not apply to the purpose. */
export type Limits = Readonly<Record<LimitId, number | null>>
export type LimitOverrides = Partial<Readonly<Record<LimitId, number>>>

const NO_OVERRIDES: LimitOverrides = {}
/** Worked out once for each set of overrides, which are replaced and never changed. */
const WORKED_OUT = new WeakMap<LimitOverrides, Map<Purpose, Limits>>()

/** The limits for a purpose, with the user's own in place of ours. */
export function limitsFor(purpose: Purpose, own: LimitOverrides = NO_OVERRIDES): Limits {
  const byPurpose = WORKED_OUT.get(own) ?? new Map<Purpose, Limits>()
  const known = byPurpose.get(purpose)
  if (known) return known
  const limits: Partial<Record<LimitId, number | null>> = {}
  for (const id of LIMIT_IDS) limits[id] = own[id] ?? limitFor(id, purpose)
  WORKED_OUT.set(own, byPurpose.set(purpose, limits as Limits))
  return limits as Limits
}

export function limitFor(id: LimitId, purpose: Purpose): number | null {
  const definition: LimitDefinition = LIMIT_DEFINITIONS[id]
  const own = definition.byPurpose?.[purpose]
  return own === undefined ? definition.usual : own
}

/** Where a limit comes from: the user's own word wins and says so; so does a number adapted to a purpose. */
export function limitSource(id: LimitId, limits: Limits, purpose: Purpose): string {
  if (limits[id] !== limitFor(id, purpose)) return 'your own limit'
  const { source, byPurpose }: LimitDefinition = LIMIT_DEFINITIONS[id]
  return byPurpose?.[purpose] === undefined ? source : source + ADAPTED
}
