/** Lessons as files: a question, a prediction, leaders to cast, what is seen and why. */
import * as v from 'valibot'
import type { Claim, Explored } from '../engine/explore'
import type { FlyLine, Fly } from '../engine/tackle'
import type { Leader } from '../engine/leader'
import type { Problem } from './problem'
import { CLAIMED_IDS, DIRECTIONS, EXPLORER_IDS } from '../engine/explore'
import { FLY_STYLES, formatHook, parseDesignation, parseHook } from '../engine/tackle'
import { numberBetween, oneOf, record, text } from './fields'
import { problemOf, shown } from './problem'
import { readFormula } from './read'
import { lineSpeed, loopHeight } from './schema'
import { writeFormula } from './write'

const LESSON_FORMAT = 'taperwright-lesson'
export const LESSON_VERSION = 1
const MOST_LEADERS = 4
const MOST_LINES = 8

/** A leader of a lesson: a shipped formula by name or one's own in full, with what is different about it here. */
export interface LessonLeader {
  readonly label: string
  readonly formula: string | Leader
  readonly fly?: Fly
  readonly line?: FlyLine
  readonly change?: { readonly what: Explored; readonly value: number }
}

export interface LessonCast {
  readonly lineSpeed_m_s?: number
  readonly loopHeight_m?: number
  readonly wind_m_s?: number
  readonly lineOut_m?: number
  readonly launchAngle_deg?: number
}

export interface Lesson {
  readonly title: string
  readonly question: string
  /** What may be predicted, and which of it (from 0) the cast shows. */
  readonly predictions: readonly string[]
  readonly shows: number
  readonly leaders: readonly LessonLeader[]
  readonly cast: LessonCast
  /** What may be changed in this lesson, for a class that asks for more. */
  readonly change?: Explored
  readonly look: string
  readonly seen: string
  readonly why: readonly string[]
  readonly exercise: string
  /** Where the model and what is taught differ, or what the model cannot say. */
  readonly limits?: string
  readonly claims: readonly Claim[]
}

const line = (what: string) =>
  v.pipe(
    v.array(text(what), `a list of texts: ${what}`),
    v.minLength(1, 'at least one'),
    v.maxLength(MOST_LINES, `at most ${MOST_LINES}`),
  )
const place = (what: string) =>
  v.pipe(numberBetween(0, MOST_LINES - 1, what), v.integer(`a whole number: ${what}`))

const EXPLORED = {
  id: oneOf(EXPLORER_IDS),
  piece: v.optional(v.pipe(numberBetween(1, 40, 'a piece'), v.integer('a whole number'))),
}
const DESIGNATION = 'a line designation, such as WF5F'
const HOOK = 'a hook size, such as 14 or 2/0'

const LEADER = record(
  {
    label: text('what it is called in this lesson'),
    // Read as a formula of its own, with problems of its own.
    formula: v.unknown(),
    fly: v.optional(
      record(
        {
          style: oneOf(FLY_STYLES),
          hook: v.pipe(
            v.union([v.string(), v.number()], HOOK),
            v.check((hook) => parseHook(String(hook)) !== undefined, HOOK),
          ),
        },
        'a fly, such as { "style": "parachute", "hook": 14 }',
      ),
    ),
    line: v.optional(
      v.pipe(
        v.string(DESIGNATION),
        v.check((designation) => parseDesignation(designation) !== undefined, DESIGNATION),
      ),
    ),
    change: v.optional(
      record(
        { ...EXPLORED, value: numberBetween(-100, 100, 'the value it is set to, in SI') },
        'a change, such as { "id": "tippet-length", "value": 0.3 }',
      ),
    ),
  },
  'a leader with label and formula',
)

const CAST = record(
  {
    lineSpeed_m_s: v.optional(lineSpeed),
    loopHeight_m: v.optional(loopHeight),
    wind_m_s: v.optional(numberBetween(-12, 12, 'wind in m/s, head wind negative')),
    lineOut_m: v.optional(numberBetween(5, 20, 'line out in m')),
    launchAngle_deg: v.optional(numberBetween(-10, 30, 'launch, degrees upward')),
  },
  'the cast, such as { "lineSpeed_m_s": 12 }',
)

const CLAIM = record(
  {
    measure: oneOf(CLAIMED_IDS),
    of: place('which leader, from 0'),
    against: place('which other leader, from 0'),
    direction: oneOf(DIRECTIONS),
    by: numberBetween(0, 1000, 'by how much, in the unit of the measure'),
  },
  'a claim, such as { "measure": "extension", "of": 1, "against": 0, "direction": "less", "by": 0.1 }',
)

const LESSON = record(
  {
    format: v.literal(LESSON_FORMAT, `"${LESSON_FORMAT}"`),
    version: v.literal(
      LESSON_VERSION,
      `${LESSON_VERSION}; a file of a newer version wants a newer Taperwright`,
    ),
    title: text('what the lesson is called'),
    question: text('the question it asks'),
    predictions: line('what may be predicted'),
    shows: place('which prediction the cast shows, from 0'),
    leaders: v.pipe(
      v.array(LEADER, 'a list of leaders'),
      v.minLength(1, 'at least one leader'),
      v.maxLength(MOST_LEADERS, `at most ${MOST_LEADERS} leaders`),
    ),
    cast: v.optional(CAST),
    change: v.optional(record(EXPLORED, 'what may be changed, such as { "id": "tippet-length" }')),
    look: text('what to look for'),
    seen: text('what was seen'),
    why: line('why, a sentence each'),
    exercise: text('an exercise on the grass'),
    limits: v.optional(text('what the model cannot say, or where it differs from what is taught')),
    claims: v.optional(v.array(CLAIM, 'a list of claims')),
  },
  'a lesson',
)
type LessonFile = v.InferOutput<typeof LESSON>

export type LessonResult =
  | { readonly ok: true; readonly lesson: Lesson }
  | { readonly ok: false; readonly problems: readonly Problem[] }

/** Reads a parsed lesson file; a wrong one gives every problem at once. */
export function readLesson(json: unknown): LessonResult {
  const result = v.safeParse(LESSON, json)
  if (!result.success) return { ok: false, problems: result.issues.map(problemOf) }
  const formulas = result.output.leaders.map(({ formula }, i) => formulaIn(formula, i))
  const problems = [...formulas.flatMap((f) => f.problems), ...placeProblems(result.output)]
  if (problems.length > 0) return { ok: false, problems }
  return { ok: true, lesson: toLesson(result.output, formulas) }
}

interface FoundFormula {
  readonly formula: string | Leader
  readonly problems: readonly Problem[]
}

function formulaIn(formula: unknown, i: number): FoundFormula {
  if (typeof formula === 'string') return { formula, problems: [] }
  const read = readFormula(formula)
  if (read.ok) return { formula: read.leader, problems: [] }
  const within = (path: string) => `leaders[${i}].formula${path === 'file' ? '' : `.${path}`}`
  return {
    formula: '',
    problems: read.problems.map((problem) => ({ ...problem, path: within(problem.path) })),
  }
}

/** What points at a leader or a prediction that is not there. */
function placeProblems({ predictions, shows, leaders, claims = [] }: LessonFile): Problem[] {
  const beyond = (path: string, at: number, count: number): Problem[] =>
    at < count ? [] : [{ path, found: shown(at), expected: `a number from 0 to ${count - 1}` }]
  return [
    ...beyond('shows', shows, predictions.length),
    ...claims.flatMap(({ of, against }, i) => [
      ...beyond(`claims[${i}].of`, of, leaders.length),
      ...beyond(`claims[${i}].against`, against, leaders.length),
    ]),
  ]
}

function toLesson(file: LessonFile, formulas: readonly FoundFormula[]): Lesson {
  const { title, question, predictions, shows, look, seen, why, exercise, limits } = file
  return {
    title,
    question,
    predictions,
    shows,
    leaders: file.leaders.map((leader, i) => toLeader(leader, formulas[i]?.formula ?? '')),
    cast: defined(file.cast ?? {}),
    ...(file.change ? { change: exploredOf(file.change) } : {}),
    look,
    seen,
    why,
    exercise,
    ...(limits === undefined ? {} : { limits }),
    claims: file.claims ?? [],
  }
}

function toLeader(
  { label, fly, line: designation, change }: LessonFile['leaders'][number],
  formula: string | Leader,
): LessonLeader {
  const hook = fly && parseHook(String(fly.hook))
  const flyLine = designation === undefined ? undefined : parseDesignation(designation)
  return {
    label,
    formula,
    ...(fly && hook !== undefined ? { fly: { style: fly.style, hook } } : {}),
    ...(flyLine ? { line: flyLine } : {}),
    ...(change ? { change: { what: exploredOf(change), value: change.value } } : {}),
  }
}

function exploredOf({ id, piece }: { id: Explored['id']; piece?: number | undefined }): Explored {
  return { id, ...(piece === undefined ? {} : { piece }) }
}

function defined(fields: object): object {
  return Object.fromEntries(Object.entries(fields).filter(([, value]) => value !== undefined))
}

type Json = Record<string, unknown>

/** The file of a lesson; formulas of one's own stand in it in full, so that it can be given away. */
export function writeLesson(lesson: Lesson): Json {
  const { title, question, predictions, shows, leaders, cast, change, claims, ...texts } = lesson
  const { look, seen, why, exercise, limits } = texts
  return {
    format: LESSON_FORMAT,
    version: LESSON_VERSION,
    title,
    question,
    predictions,
    shows,
    leaders: leaders.map(writeLeader),
    ...(Object.keys(cast).length > 0 ? { cast } : {}),
    ...(change ? { change } : {}),
    look,
    seen,
    why,
    exercise,
    ...(limits === undefined ? {} : { limits }),
    ...(claims.length > 0 ? { claims } : {}),
  }
}

function writeLeader({ label, formula, fly, line: flyLine, change }: LessonLeader): Json {
  return {
    label,
    formula: typeof formula === 'string' ? formula : writeFormula(formula),
    ...(fly ? { fly: { style: fly.style, hook: formatHook(fly.hook) } } : {}),
    ...(flyLine ? { line: flyLine.designation } : {}),
    ...(change ? { change: { ...change.what, value: change.value } } : {}),
  }
}

export function writeLessonText(lesson: Lesson): string {
  return `${JSON.stringify(writeLesson(lesson), null, 2)}\n`
}

/** Reads the text of a lesson file. */
export function readLessonText(text: string): LessonResult {
  try {
    return readLesson(JSON.parse(text.replace(/^\uFEFF/, '')))
  } catch {
    const found = shown(text.slice(0, 40))
    return { ok: false, problems: [{ path: 'file', found, expected: 'a lesson file (JSON)' }] }
  }
}
