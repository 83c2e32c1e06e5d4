/**
 * A cast case as the command line reads it: SI, plain numbers, names that end in their unit. What is left
 * out takes the standard cast.
 */
import * as v from 'valibot'
import type { CaseSpreads, CastCase, Strand } from '../engine/cast'
import type { DeliveryCase } from '../engine/delivery'
import type { Problem } from './problem'
import {
  AXIAL_FRICTION,
  CYLINDER_DRAG,
  MESHES,
  COMMON_SPREADS,
  STANDARD_SETTINGS,
  STANDARD_SURROUNDINGS,
  standardLine,
  STATED_STRAND,
  STRAIGHT_EXTENSION,
} from '../engine/cast'
import { LAID, untilTouch } from '../engine/delivery'
import { GREATEST_OVER_USUAL, SPREAD_OF_CASTS } from '../engine/tackle'
import { numberBetween, oneOf, record } from './fields'
import { nearestOf } from './nearest'
import { problemOf } from './problem'

/** Words about a case that it is not flown by. */
const FREE = ['name', 'note']

/**
 * An object that refuses fields it does not know: one that is misspelt would silently be the standard cast's. A
 * name and a note are let through anywhere.
 */
function exact<E extends v.ObjectEntries>(entries: E, what: string) {
  const known = Object.keys(entries)
  return v.pipe(
    record(entries, what),
    v.rawCheck(({ dataset: { value }, addIssue }) => {
      if (typeof value !== 'object' || value === null) return
      const found = value as Record<string, unknown>
      for (const [key, of] of Object.entries(found)) {
        if (known.includes(key) || FREE.includes(key)) continue
        const nearest = nearestOf(key, known)
        const hint = nearest === undefined ? `one of ${known.join(', ')}` : `${nearest}, perhaps`
        addIssue({
          message: `a field that is known here: ${hint}`,
          input: of,
          path: [{ type: 'object', origin: 'key', input: found, key, value: of }],
        })
      }
    }),
  )
}

const length = numberBetween(1e-4, 60, 'length in m')
const diameter = numberBetween(1e-6, 0.02, 'diameter in m')
const strand = {
  length_m: length,
  density_kg_m3: numberBetween(1, 30_000, 'density in kg/m3'),
  modulus_Pa: numberBetween(0, 1e12, "Young's modulus in Pa"),
  curl_1_m: v.optional(numberBetween(-1000, 1000, 'natural curvature in 1/m')),
}

const LEVEL = exact(
  { ...strand, diameter_m: diameter },
  'a strand: length_m, diameter_m, density_kg_m3, modulus_Pa',
)
const TAPERED = exact(
  { ...strand, diameterFrom_m: diameter, diameterTo_m: diameter },
  'a strand: length_m, diameterFrom_m, diameterTo_m, density_kg_m3, modulus_Pa',
)
const isTapered = (input: unknown) =>
  typeof input === 'object' && input !== null && 'diameterFrom_m' in input
const STRAND = v.lazy<typeof LEVEL | typeof TAPERED>((input) =>
  isTapered(input) ? TAPERED : LEVEL,
)

const WANTS = ['flight', 'leastSpeed', 'band', 'ledger', 'delivery'] as const
export type Want = (typeof WANTS)[number]

const axial = v.union(
  [
    numberBetween(0, 10, 'a constant coefficient'),
    oneOf(Object.keys(AXIAL_FRICTION) as (keyof typeof AXIAL_FRICTION)[]),
  ],
  `a constant coefficient on the wetted surface, or one of ${Object.keys(AXIAL_FRICTION).join(', ')}`,
)

const SPREAD = exact(
  {
    lineSpeed: v.optional(numberBetween(0, 1, 'sd of the logarithm')),
    loopHeight: v.optional(numberBetween(0, 1, 'sd of the logarithm')),
    launchAngle_deg: v.optional(numberBetween(0, 30, 'sd in degrees')),
    tipHeight_m: v.optional(numberBetween(0, 2, 'sd in m')),
  },
  'how casts differ: lineSpeed, loopHeight, launchAngle_deg, tipHeight_m',
)

const CASE = exact(
  {
    line: v.optional(
      v.pipe(
        v.array(STRAND, 'a list of strands from rod tip to line end'),
        v.maxLength(200, 'at most 200 strands'),
      ),
    ),
    segments: v.pipe(
      v.array(STRAND, 'a list of strands from butt to tippet'),
      v.minLength(1, 'at least one segment'),
      v.maxLength(200, 'at most 200 segments'),
      v.description('a list of strands from butt to tippet'),
    ),
    fly: exact(
      {
        mass_kg: numberBetween(0, 1, 'mass in kg'),
        dragArea_m2: numberBetween(0, 1, 'drag area in m2'),
        dragExponent: v.optional(numberBetween(0, 1, 'power by which drag area falls with speed')),
      },
      'a fly: mass_kg, dragArea_m2, dragExponent',
    ),
    cast: v.optional(
      exact(
        {
          lineSpeed_m_s: v.optional(numberBetween(0.1, 100, 'speed in m/s')),
          loopHeight_m: v.optional(numberBetween(0.02, 10, 'height in m')),
          loopStart_m: v.optional(numberBetween(0, 60, 'length in m')),
          launchAngle_deg: v.optional(numberBetween(-80, 80, 'angle in degrees')),
          tipHeight_m: v.optional(numberBetween(0.01, 100, 'height in m')),
          greatestLineSpeed_m_s: v.optional(numberBetween(0.1, 100, 'speed in m/s')),
        },
        'a cast: lineSpeed_m_s, loopHeight_m, loopStart_m, launchAngle_deg, tipHeight_m, greatestLineSpeed_m_s',
      ),
    ),
    spread: v.optional(SPREAD),
    air: v.optional(
      exact(
        {
          density_kg_m3: v.optional(numberBetween(0, 100, 'density in kg/m3')),
          kinematicViscosity_m2_s: v.optional(
            numberBetween(1e-9, 1, 'kinematic viscosity in m2/s'),
          ),
        },
        'the air: density_kg_m3, kinematicViscosity_m2_s',
      ),
    ),
    knots: v.optional(
      v.array(
        exact(
          {
            joint: v.pipe(
              numberBetween(0, 200, 'a joint, 0 at the line'),
              v.integer('a whole number: a joint, 0 at the line'),
            ),
            mass_kg: numberBetween(0, 0.1, 'mass in kg'),
          },
          'a knot: joint, mass_kg',
        ),
        'a list of knots',
      ),
    ),
    gravity_m_s2: v.optional(numberBetween(0, 100, 'gravity in m/s2')),
    wind_m_s: v.optional(numberBetween(-50, 50, 'wind along the cast in m/s, head wind negative')),
    axialFriction: v.optional(axial),
    cylinderDrag: v.optional(oneOf(Object.keys(CYLINDER_DRAG) as (keyof typeof CYLINDER_DRAG)[])),
    bendingDamping_s: v.optional(numberBetween(0, 1, 'damping time in s')),
    endTime_s: v.optional(numberBetween(0.01, 60, 'time in s')),
    mesh: v.optional(oneOf(Object.keys(MESHES) as (keyof typeof MESHES)[])),
    targetExtension: v.optional(numberBetween(0.1, 1, 'share of the leader length')),
    want: v.optional(v.array(oneOf(WANTS), `a list of ${WANTS.join(', ')}`)),
  },
  'a cast case: an object with segments and fly',
)

export interface CastJob {
  readonly input: CastCase
  readonly targetExtension: number
  readonly want: readonly Want[]
  /** The same for the delivery: an ordinary caster's spreads where none are stated. */
  readonly delivery: DeliveryCase
}

export type CastReadResult =
  | { readonly ok: true; readonly jobs: readonly CastJob[] }
  | { readonly ok: false; readonly problems: readonly Problem[] }

/** Reads one case or an array of them; all problems at once, each with its path. */
export function readCastCases(json: unknown): CastReadResult {
  const isList = Array.isArray(json)
  const results = (isList ? (json as unknown[]) : [json]).map((one) => v.safeParse(CASE, one))
  const problems = results.flatMap((result, i) =>
    [
      ...(result.issues ?? []).map(problemOf),
      ...(result.success ? strayKnots(result.output) : []),
    ].map((problem) => placed(problem, isList ? `[${i}]` : '')),
  )
  if (problems.length > 0) return { ok: false, problems }
  return {
    ok: true,
    jobs: results.flatMap((result) => (result.success ? [toJob(result.output)] : [])),
  }
}

/** Knots at joints that this leader does not have. */
function strayKnots({ knots = [], segments }: v.InferOutput<typeof CASE>): Problem[] {
  return knots.flatMap(({ joint }, i) =>
    joint < segments.length
      ? []
      : [
          {
            path: `knots[${i}].joint`,
            found: String(joint),
            expected: `a joint of this leader, from 0 at the line to ${segments.length - 1}`,
          },
        ],
  )
}

function placed(problem: Problem, prefix: string): Problem {
  if (prefix === '') return problem
  return { ...problem, path: problem.path === 'file' ? prefix : `${prefix}.${problem.path}` }
}

type StrandFile = v.InferOutput<typeof LEVEL> | v.InferOutput<typeof TAPERED>

function toStrand(file: StrandFile): Strand {
  const { length_m, density_kg_m3, modulus_Pa, curl_1_m } = file
  const ends =
    'diameter_m' in file
      ? { diameterFrom_m: file.diameter_m as number, diameterTo_m: file.diameter_m as number }
      : { diameterFrom_m: file.diameterFrom_m, diameterTo_m: file.diameterTo_m }
  return { length_m, density_kg_m3, modulus_Pa, ...ends, ...given({ curl_1_m }) }
}

/** Only what is there, so that a field left out does not overwrite the standard. */
function given<T extends object>(fields: T | undefined): Partial<T> {
  return Object.fromEntries(
    Object.entries(fields ?? {}).filter(([, value]) => value !== undefined),
  ) as Partial<T>
}

/** Spreads of a cast as stated in the file: of a person's casts, so their own. */
function statedSpreads(file: v.InferOutput<typeof SPREAD> | undefined): Partial<CaseSpreads> {
  const { lineSpeed, loopHeight, launchAngle_deg, tipHeight_m } = file ?? {}
  const stated = given({ lineSpeed, loopHeight, launchAngle_deg, tipHeight_m })
  return Object.fromEntries(
    Object.entries(stated).map(([name, sd]) => [name, { sd, from: 'measured' }]),
  )
}

function deliveryOf(
  input: CastCase,
  stated: Partial<CaseSpreads>,
  greatest_m_s = input.cast.lineSpeed_m_s * GREATEST_OVER_USUAL,
): DeliveryCase {
  const { loopHeight, tipHeight_m } = COMMON_SPREADS
  const spreads = {
    ...input.spreads,
    ...SPREAD_OF_CASTS.ordinary,
    loopHeight,
    tipHeight_m,
    ...stated,
  }
  return { input: untilTouch({ ...input, spreads }), wanted: LAID, greatest_m_s }
}

function toJob(file: v.InferOutput<typeof CASE>): CastJob {
  const { gravity_m_s2, wind_m_s, axialFriction, cylinderDrag, bendingDamping_s, endTime_s, mesh } =
    file
  const { greatestLineSpeed_m_s, ...cast } = file.cast ?? {}
  const surroundings = given({
    gravity_m_s2,
    wind_m_s,
    axialFriction,
    cylinderDrag,
    bendingDamping_s,
    endTime_s,
    mesh,
  })
  const input = {
    ...STANDARD_SURROUNDINGS,
    ...surroundings,
    line: file.line?.map(toStrand) ?? standardLine(),
    segments: file.segments.map((s) => ({ ...toStrand(s), spreads: STATED_STRAND })),
    fly: given(file.fly),
    cast: { ...STANDARD_SETTINGS, ...given(cast) },
    air: { ...STANDARD_SURROUNDINGS.air, ...given(file.air) },
    knots: file.knots ?? [],
    spreads: { ...STANDARD_SURROUNDINGS.spreads, ...statedSpreads(file.spread) },
  } as CastCase
  return {
    input,
    targetExtension: file.targetExtension ?? STRAIGHT_EXTENSION,
    want: file.want ?? ['flight'],
    delivery: deliveryOf(input, statedSpreads(file.spread), greatestLineSpeed_m_s),
  }
}
