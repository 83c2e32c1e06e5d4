import * as v from 'valibot'
import type {
  Attachment,
  Conditions,
  Extra,
  FlyChoice,
  Joint,
  Leader,
  Outfit,
  Segment,
  Tip,
} from '../engine/leader'
import type { Bead } from '../engine/tackle'
import type { OwnMaterial } from './extra'
import type { FormulaFile } from './schema'
import type { Problem } from './problem'
import { measured, sourced } from '../engine/materials'
import { SHAPE_PARTS, measuredShape, parseDesignation, parseHook } from '../engine/tackle'
import { materialProblems } from './materialProblems'
import { migrate } from './migrate'
import { problemOf, shown } from './problem'
import {
  ATTACHMENT,
  BEAD,
  BRIEF,
  FLY,
  FORMULA,
  JOINT,
  LINE_SHAPE,
  MATERIAL,
  OUTFIT,
  SEGMENT,
  TIP,
} from './schema'
import { messageOf } from '../engine/messageOf'

const MOST_NESTED = 40

export type ReadResult =
  | { readonly ok: true; readonly leader: Leader }
  | { readonly ok: false; readonly problems: readonly Problem[] }

/** Reads a parsed formula file of any version; a wrong one gives every problem at once. */
export function readFormula(json: unknown): ReadResult {
  if (isTooDeep(json)) {
    return refused('file', 'something nested deeper', `at most ${MOST_NESTED} levels of nesting`)
  }
  const migrated = migrate(json)
  if ('problems' in migrated) return { ok: false, problems: migrated.problems }
  const result = v.safeParse(FORMULA, migrated.file)
  const problems = [...(result.issues ?? []).map(problemOf), ...materialProblems(migrated.file)]
  return result.success && problems.length === 0
    ? { ok: true, leader: toLeader(result.output) }
    : { ok: false, problems }
}

/** Reads the text of a formula file; text that is no JSON is one problem, with the place where it ends. */
export function readFormulaText(text: string): ReadResult {
  let json: unknown
  try {
    // Some editors put a byte order mark first, which is no JSON.
    json = JSON.parse(text.replace(/^\uFEFF/, ''))
  } catch (error) {
    return refused(
      'file',
      shown(text.slice(0, 40)),
      `JSON (${messageOf(error)}${lineOf(error, text)})`,
    )
  }
  return readFormula(json)
}

/** `, line 12` where the parser says at which character it gave up. */
function lineOf(error: unknown, text: string): string {
  const position = /position (\d+)/.exec(messageOf(error))?.[1]
  if (position === undefined) return ''
  return `, line ${text.slice(0, Number(position)).split('\n').length}`
}

function refused(path: string, found: string, expected: string): ReadResult {
  return { ok: false, problems: [{ path, found, expected }] }
}

/** Unknown fields are kept as they are, and what copies or writes them later must not run out of stack. */
function isTooDeep(json: unknown): boolean {
  let level = [json]
  for (let depth = 0; depth <= MOST_NESTED; depth++) {
    level = level.flatMap((value) =>
      typeof value === 'object' && value !== null ? (Object.values(value) as unknown[]) : [],
    )
    if (level.length === 0) return false
  }
  return true
}

/** Only what is there: a field left out stays left out. */
function present<T extends object>(fields: T): { [K in keyof T]: Exclude<T[K], undefined> } {
  return Object.fromEntries(
    Object.entries(fields).filter(([, value]) => value !== undefined),
  ) as never
}

type WithEntries = { readonly pipe: readonly [{ readonly entries: object }, ...unknown[]] }

/** The fields a schema does not know, kept for the way back. */
function extraOf(value: object, schema: WithEntries): { extra?: Extra } {
  const known = schema.pipe[0].entries
  const unknown = Object.entries(value).filter(([key]) => !Object.hasOwn(known, key))
  return unknown.length > 0 ? { extra: Object.fromEntries(unknown) } : {}
}

function toLeader(file: FormulaFile): Leader {
  const { name, purpose, notes, statedTotal, $schema } = file
  const { extra } = extraOf(file, FORMULA)
  const kept = { ...present({ $schema }), ...extra }
  return {
    name,
    purpose,
    ...present({ notes, statedTotal }),
    outfit: toOutfit(file.outfit ?? {}),
    ...(file.brief ? { brief: toBrief(file.brief) } : {}),
    segments: file.segments.map((segment, i) => toSegment(segment, i)),
    tip: toTip(file.tip ?? {}),
    materials: (file.materials ?? []).map(toMaterial),
    // Which schema an editor checks the file by says nothing about the leader, but must not get lost.
    ...(Object.keys(kept).length > 0 ? { extra: kept } : {}),
  }
}

type FileOf<K extends keyof FormulaFile> = NonNullable<FormulaFile[K]>
type SegmentFile = FileOf<'segments'>[number]
type MaterialFile = FileOf<'materials'>[number]
type TipFile = FileOf<'tip'>
type FlyFile = NonNullable<TipFile['fly']>

function toSegment(file: SegmentFile, i: number): Segment {
  const { part, material, diameter, measured, label, strength, pullTest, length, colour, note } =
    file
  return {
    key: i + 1,
    part,
    material,
    diameter,
    length,
    ...present({ measured, label, strength, pullTest, colour, note }),
    joint: toJoint(file.joint ?? (i === 0 ? 'loop-to-loop' : 'blood')),
    attachments: (file.attachments ?? []).map(toAttachment),
    ...extraOf(file, SEGMENT),
  }
}

function toJoint(file: NonNullable<SegmentFile['joint']>): Joint {
  if (typeof file === 'string') return { knot: file }
  const { knot, turns, takeUp } = file
  return { knot, ...present({ turns, takeUp }), ...extraOf(file, JOINT) }
}

function toAttachment(file: NonNullable<SegmentFile['attachments']>[number]): Attachment {
  const { kind, way, from, length, diameter, material, knot, mass, fly } = file
  return {
    kind,
    ...present({ way, from, length, diameter, material, knot, mass }),
    ...(fly ? { fly: toFly(fly) } : {}),
    ...extraOf(file, ATTACHMENT),
  }
}

function toTip(file: TipFile): Tip {
  return {
    joint: toJoint(file.joint ?? 'improved-clinch'),
    ...(file.fly ? { fly: toFly(file.fly) } : {}),
    ...extraOf(file, TIP),
  }
}

export function toFly(file: FlyFile): FlyChoice {
  const { style, bead, mass, dragArea_mm2, sinkRate_m_s } = file
  const figures = {
    bead: bead && toBead(bead),
    mass_kg: mass?.si,
    dragArea_m2: dragArea_mm2 === undefined ? undefined : dragArea_mm2 * 1e-6,
    sinkRate_m_s,
  }
  return {
    fly: { style, hook: parseHook(file.hook) ?? 14, ...present(figures) },
    ...present({ mass, beadDiameter: bead?.diameter }),
    ...extraOf(file, FLY),
  }
}

function toBead(file: NonNullable<FlyFile['bead']>): Bead {
  return { metal: file.metal, diameter_m: file.diameter.si, ...extraOf(file, BEAD) }
}

export function toOutfit(file: FileOf<'outfit'>): Outfit {
  const { rod, line, lineTip, lineShape, rodClass, fish, caster, ownCast, wet } = file
  const designation = line === undefined ? undefined : parseDesignation(line)
  const shape = lineShape && toLineShape(lineShape)
  const own = {
    ...(lineTip ? { tipDiameter_m: lineTip.si } : {}),
    ...(shape ? { shape: measuredShape(metresOf(shape)) } : {}),
  }
  return {
    ...present({ rod, lineTip, lineShape: shape, rodClass, fish, caster, ownCast, wet }),
    ...(designation ? { line: { ...designation, ...own } } : {}),
    ...extraOf(file, OUTFIT),
  }
}

type ShapeFile = NonNullable<FileOf<'outfit'>['lineShape']>

function toLineShape(file: ShapeFile): NonNullable<Outfit['lineShape']> {
  const known = SHAPE_PARTS.map((part) => [part, file[part]] as const)
  return { ...present(Object.fromEntries(known)), ...extraOf(file, LINE_SHAPE) }
}

function metresOf(shape: NonNullable<Outfit['lineShape']>) {
  return Object.fromEntries(SHAPE_PARTS.map((part) => [part, shape[part]?.si]))
}

export function toBrief(file: FileOf<'brief'>): Conditions {
  const { water, wariness, distance, wind, snags, warm, toothy } = file
  const said = present({ snags, warm, toothy })
  return { water, wariness, distance, wind, ...said, ...extraOf(file, BRIEF) }
}

/** Density by weighing a length, and stiffness by a vibrating or drooping piece, are known to so much: estimates. */
const DENSITY_SD = 0.01
const MODULUS_SD = 0.1

function toMaterial(file: MaterialFile): OwnMaterial {
  const source = file.source ?? 'as stated in the file'
  const own = (value: number) => sourced(value, value, value, source)
  return {
    id: file.id,
    name: file.name,
    family: file.family,
    density: measured(file.density_kg_m3, DENSITY_SD, source),
    modulus: measured(file.modulus_Pa, MODULUS_SD, source),
    wetModulus: own(file.wetModulusFactor ?? 1),
    tensileStrength: own(file.tensileStrength_Pa),
    wetStrength: own(file.wetStrengthFactor ?? 1),
    ...(file.refractiveIndex === undefined ? {} : { refractiveIndex: own(file.refractiveIndex) }),
    ...extraOf(file, MATERIAL),
  }
}
