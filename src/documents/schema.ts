/**
 * The shape of a formula file, version 1. It is what is saved, exported, imported and written by hand;
 * public/leader.schema.json is made from it. Fields it does not know are kept.
 */
import * as v from 'valibot'
import { FAMILIES, KNOT_IDS } from '../engine/materials'
import {
  CASTER_IDS,
  FLY_STYLES,
  HEAVIEST_LINE,
  SHAPE_PARTS,
  parseDesignation,
  parseHook,
  THROWN,
} from '../engine/tackle'
import {
  ATTACHMENT_KINDS,
  DISTANCES,
  DROPPER_WAYS,
  PARTS,
  PURPOSES,
  WARINESS,
  WATERS,
  WINDS,
} from '../engine/leader'
import { numberBetween, oneOf, quantity, record, shortOrFull, text } from './fields'

export const FORMAT = 'taperwright-leader'
export const VERSION = 1
export const MOST_SEGMENTS = 200
export const MOST_ATTACHMENTS = 20
export const MOST_MATERIALS = 50

const knotName = oneOf(KNOT_IDS)
const turns = numberBetween(1, 20, 'turns of one side of the knot')

export const JOINT = record(
  {
    knot: knotName,
    turns: v.optional(
      v.strictTuple([turns, turns], 'two numbers: turns on the butt side and on the fly side'),
    ),
    takeUp: v.optional(
      v.strictTuple(
        [quantity('length'), quantity('length')],
        'two lengths: butt side and fly side',
      ),
    ),
  },
  'a knot, short as "blood" or in full as { "knot": "blood", "turns": [5, 7] }',
)
const joint = v.pipe(shortOrFull(knotName, JOINT), v.description('a knot, such as "blood"'))

const HOOK_SIZE = 'a hook size from 26 to 4/0, such as 14 or "1/0"'
const hook = v.pipe(
  v.union([v.number(), v.string()], HOOK_SIZE),
  v.check((size) => parseHook(size) !== undefined, HOOK_SIZE),
  v.description(HOOK_SIZE),
)

export const BEAD = record(
  { metal: oneOf(['tungsten', 'brass']), diameter: quantity('length') },
  'a bead, such as { "metal": "tungsten", "diameter": "2.4 mm" }',
)

export const FLY = record(
  {
    style: oneOf(FLY_STYLES),
    hook,
    bead: v.optional(BEAD),
    mass: v.optional(quantity('mass')),
    dragArea_mm2: v.optional(
      numberBetween(0.01, 100_000, 'drag coefficient times frontal area in mm2'),
    ),
    sinkRate_m_s: v.optional(numberBetween(0.001, 5, 'fall in still water in m/s')),
  },
  'a fly, such as { "style": "parachute", "hook": 14 }',
)

export const ATTACHMENT = record(
  {
    kind: oneOf(ATTACHMENT_KINDS),
    way: v.optional(oneOf(DROPPER_WAYS)),
    from: v.optional(quantity('length')),
    length: v.optional(quantity('length')),
    diameter: v.optional(quantity('diameter')),
    material: v.optional(text('the id of a material')),
    knot: v.optional(knotName),
    mass: v.optional(quantity('mass')),
    fly: v.optional(FLY),
  },
  'what hangs here, such as { "kind": "dropper", "length": "5 in" }',
)

export const SEGMENT = record(
  {
    part: oneOf(PARTS),
    material: text('the id of a material, such as nylon-stiff'),
    diameter: quantity('diameter'),
    measured: v.optional(quantity('diameter')),
    label: v.optional(text('the size on the label, such as 5X')),
    strength: v.optional(quantity('force')),
    pullTest: v.optional(quantity('force')),
    length: quantity('length'),
    colour: v.optional(text('a colour')),
    note: v.optional(text('a note')),
    joint: v.optional(joint),
    attachments: v.optional(
      v.pipe(
        v.array(ATTACHMENT, 'a list of what hangs here'),
        v.maxLength(MOST_ATTACHMENTS, `at most ${MOST_ATTACHMENTS} on one segment`),
      ),
    ),
  },
  'a segment with part, material, diameter and length',
)

export const MATERIAL = record(
  {
    id: text('a short id used by the segments'),
    name: text('its name'),
    family: oneOf(FAMILIES),
    density_kg_m3: numberBetween(500, 20_000, 'density in kg/m3'),
    modulus_Pa: numberBetween(1e6, 5e11, "Young's modulus in Pa"),
    wetModulusFactor: v.optional(numberBetween(0.05, 2, 'wet modulus over dry modulus')),
    tensileStrength_Pa: numberBetween(1e6, 1e11, 'breaking stress in Pa'),
    wetStrengthFactor: v.optional(numberBetween(0.05, 2, 'wet strength over dry strength')),
    refractiveIndex: v.optional(numberBetween(1, 3, 'refractive index')),
    source: v.optional(text('where the figures come from')),
  },
  'a material of your own',
)

const DESIGNATION = 'a line designation, such as WF5F or DT4F (1- to 15-weight)'
const designation = v.pipe(
  v.string(DESIGNATION),
  v.check((line) => parseDesignation(line) !== undefined, DESIGNATION),
  v.description(DESIGNATION),
)

const { lineSpeed_m_s: SPEED, loopHeight_m: LOOP } = THROWN
export const lineSpeed = numberBetween(SPEED.low, SPEED.high, 'line speed in m/s')
export const loopHeight = numberBetween(LOOP.low, LOOP.high, 'height of the loop in m')

const OWN_CAST = record(
  {
    lineSpeed_m_s: lineSpeed,
    loopHeight_m: loopHeight,
  },
  'your cast as measured, such as { "lineSpeed_m_s": 11, "loopHeight_m": 1 }',
)

type Parts = Record<(typeof SHAPE_PARTS)[number], ReturnType<typeof optionalLength>>
const optionalLength = () => v.optional(quantity('length'))
export const LINE_SHAPE = record(
  Object.fromEntries(SHAPE_PARTS.map((part) => [part, optionalLength()])) as Parts,
  'a measured line, such as { "frontTaper": "2 m", "belly": "7 m" }',
)

export const OUTFIT = record(
  {
    rod: v.optional(quantity('length')),
    line: v.optional(designation),
    lineTip: v.optional(quantity('diameter')),
    lineShape: v.optional(LINE_SHAPE),
    rodClass: v.optional(numberBetween(1, HEAVIEST_LINE, 'line class of the rod')),
    fish: v.optional(quantity('mass')),
    caster: v.optional(oneOf(CASTER_IDS)),
    ownCast: v.optional(OWN_CAST),
    wet: v.optional(v.boolean('true or false')),
  },
  'the outfit, such as { "rod": "9 ft", "line": "WF5F" }',
)

export const TIP = record(
  { joint: v.optional(joint), fly: v.optional(FLY) },
  'the tip, such as { "joint": "improved-clinch", "fly": { "style": "parachute", "hook": 14 } }',
)

export const BRIEF = record(
  {
    water: oneOf(WATERS),
    wariness: oneOf(WARINESS),
    distance: oneOf(DISTANCES),
    wind: oneOf(WINDS),
    snags: v.optional(v.boolean('true or false')),
    warm: v.optional(v.boolean('true or false')),
    toothy: v.optional(v.boolean('true or false')),
  },
  'a brief: water, wariness, distance and wind',
)

export const FORMULA = record(
  {
    $schema: v.optional(text('where the JSON Schema stands')),
    format: v.pipe(v.literal(FORMAT, `"${FORMAT}"`), v.description(`"${FORMAT}"`)),
    version: v.pipe(v.literal(VERSION, String(VERSION)), v.description(String(VERSION))),
    name: text('the name of the formula'),
    purpose: oneOf(PURPOSES),
    notes: v.optional(text('notes')),
    statedTotal: v.optional(quantity('length')),
    outfit: v.optional(OUTFIT),
    brief: v.optional(BRIEF),
    materials: v.optional(
      v.pipe(
        v.array(MATERIAL, 'a list of materials'),
        v.maxLength(MOST_MATERIALS, `at most ${MOST_MATERIALS} materials`),
      ),
    ),
    segments: v.pipe(
      v.array(SEGMENT, 'a list of segments from butt to tippet'),
      v.minLength(1, 'at least one segment'),
      v.maxLength(MOST_SEGMENTS, `at most ${MOST_SEGMENTS} segments`),
      v.description('a list of segments from butt to tippet'),
    ),
    tip: v.optional(TIP),
  },
  'a formula: an object with format, version, name, purpose and segments',
)

export type FormulaFile = v.InferOutput<typeof FORMULA>
