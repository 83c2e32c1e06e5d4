import * as fc from 'fast-check'
import { FAMILIES, KNOT_IDS } from '../../src/engine/materials'
import { CASTER_IDS, FLY_STYLES } from '../../src/engine/tackle'
import {
  ATTACHMENT_KINDS,
  DISTANCES,
  DROPPER_WAYS,
  PARTS,
  PURPOSES,
  WARINESS,
  WATERS,
  WINDS,
} from '../../src/engine/leader'

/** Right formula files of every kind, with fields of their own at every level. */

const decimals = (low: number, high: number, places: number) =>
  fc.integer({ min: low * 10 ** places, max: high * 10 ** places }).map((n) => n / 10 ** places)

/** A number as people write it: point or comma, with or without the leading zero. */
const spelled = (low: number, high: number, places: number) =>
  fc
    .tuple(decimals(low, high, places), fc.constantFrom('plain', 'comma', 'bare point'))
    .map(([n, style]) => {
      const text = n.toFixed(places)
      if (style === 'comma' && n < 1) return text.replace('.', ',')
      return style === 'bare point' ? text.replace(/^0\./, '.') : text
    })

const withUnit = (number: fc.Arbitrary<string>, ...units: readonly string[]) =>
  fc.tuple(number, fc.constantFrom(...units)).map(([n, unit]) => `${n}${unit}`)

/** Bare, as typed into a field with a unit of its own, and at times estimated from a label. */
const inField = (number: fc.Arbitrary<string>, unit: string) =>
  fc.record(
    { text: number, unit: fc.constant(unit), estimatedFrom: fc.constantFrom('20 lb', '8 kg') },
    { requiredKeys: ['text', 'unit'] },
  )

const xSize = fc.integer({ min: 0, max: 16 }).map((n) => String(n / 2))

const diameter = fc.oneof(
  withUnit(xSize, 'X', 'x'),
  withUnit(spelled(0.003, 0.05, 4), ' in', '"', 'in'),
  withUnit(spelled(3, 50, 1), ' thou'),
  withUnit(spelled(0.08, 1.2, 3), ' mm', 'mm'),
  inField(xSize, 'X'),
  inField(spelled(0.003, 0.05, 4), 'in'),
  inField(spelled(0.08, 1.2, 3), 'mm'),
)

const feetAndInches = fc
  .tuple(fc.integer({ min: 1, max: 20 }), fc.integer({ min: 0, max: 11 }))
  .map(([feet, inches]) => `${feet}' ${inches}"`)

const length = fc.oneof(
  feetAndInches,
  fc.integer({ min: 0, max: 15 }).map((n) => `${n} 1/2 ft`),
  withUnit(spelled(2, 90, 1), ' in', '"'),
  withUnit(spelled(5, 200, 1), ' cm', 'cm'),
  withUnit(spelled(0.1, 6, 2), ' m'),
  inField(spelled(2, 90, 1), 'in'),
  inField(spelled(5, 200, 1), 'cm'),
)

const force = fc.oneof(withUnit(spelled(1, 60, 1), ' lb'), withUnit(spelled(0.5, 30, 2), ' kg'))
const mass = fc.oneof(withUnit(spelled(1, 90, 1), ' mg'), withUnit(spelled(0.1, 9, 2), ' g'))

const words = fc.string({ maxLength: 40 })
const others = fc.dictionary(
  fc.string({ maxLength: 8 }).map((key) => `x-${key}`),
  fc.jsonValue({ maxDepth: 2 }),
  { maxKeys: 2 },
)

/** A record with some of its optional fields, and fields that no version knows. */
function recordOf(
  required: Record<string, fc.Arbitrary<unknown>>,
  optional: Record<string, fc.Arbitrary<unknown>>,
) {
  return fc
    .tuple(fc.record({ ...required, ...optional }, { requiredKeys: Object.keys(required) }), others)
    .map(([known, unknown]) => ({ ...known, ...unknown }))
}

const knot = fc.constantFrom(...KNOT_IDS)
const turns = fc.integer({ min: 1, max: 20 })
const joint = fc.oneof(
  knot,
  recordOf({ knot }, { turns: fc.tuple(turns, turns), takeUp: fc.tuple(length, length) }),
)

const bead = recordOf(
  {
    metal: fc.constantFrom('tungsten', 'brass'),
    diameter: withUnit(spelled(2, 6, 1), ' mm'),
  },
  {},
)
const hook = fc.oneof(fc.integer({ min: 1, max: 26 }), fc.constantFrom('1/0', '2/0', '#14', '16'))
const fly = recordOf(
  { style: fc.constantFrom(...FLY_STYLES), hook },
  { bead, mass, dragArea_mm2: decimals(1, 900, 2), sinkRate_m_s: decimals(1, 4, 2) },
)

const OWN = 'own-strand'
const material = fc.constantFrom('nylon-stiff', 'nylon-supple', 'copolymer', 'fluorocarbon', OWN)
const attachment = recordOf(
  { kind: fc.constantFrom(...ATTACHMENT_KINDS) },
  {
    way: fc.constantFrom(...DROPPER_WAYS),
    from: length,
    length,
    diameter,
    material,
    knot,
    mass,
    fly,
  },
)

const segment = recordOf(
  { part: fc.constantFrom(...PARTS), material, diameter, length },
  {
    measured: diameter,
    label: words,
    strength: force,
    pullTest: force,
    colour: words,
    note: words,
    joint,
    attachments: fc.array(attachment, { maxLength: 3 }),
  },
)

const ownMaterial = recordOf(
  {
    id: fc.constant(OWN),
    name: words,
    family: fc.constantFrom(...FAMILIES),
    density_kg_m3: decimals(800, 8000, 1),
    modulus_Pa: decimals(1e8, 2e11, 0),
    tensileStrength_Pa: decimals(1e8, 3e9, 0),
  },
  {
    wetModulusFactor: decimals(0.1, 1, 2),
    wetStrengthFactor: decimals(0.1, 1, 2),
    refractiveIndex: decimals(1.2, 1.7, 3),
    source: words,
  },
)

const outfit = recordOf(
  {},
  {
    rod: length,
    line: fc.constantFrom('WF5F', 'DT 4 F', 'wf7f/s', 'L3', 'ST 9-I', 'WF7S III'),
    lineTip: withUnit(spelled(0.6, 1.2, 2), ' mm'),
    lineShape: recordOf({}, { frontTaper: length, belly: length, total: length }),
    rodClass: fc.integer({ min: 1, max: 15 }),
    fish: withUnit(spelled(1, 30, 1), ' lb'),
    caster: fc.constantFrom(...CASTER_IDS),
    ownCast: fc.record({ lineSpeed_m_s: decimals(3, 40, 1), loopHeight_m: decimals(0.2, 3, 2) }),
    wet: fc.boolean(),
  },
)

const brief = recordOf(
  {
    water: fc.constantFrom(...WATERS),
    wariness: fc.constantFrom(...WARINESS),
    distance: fc.constantFrom(...DISTANCES),
    wind: fc.constantFrom(...WINDS),
  },
  { snags: fc.boolean(), warm: fc.boolean(), toothy: fc.boolean() },
)

export const formula = recordOf(
  {
    format: fc.constant('taperwright-leader'),
    version: fc.constant(1),
    name: words,
    purpose: fc.constantFrom(...PURPOSES),
    materials: ownMaterial.map((own) => [own]),
    segments: fc.array(segment, { minLength: 1, maxLength: 8 }),
  },
  {
    $schema: words,
    notes: words,
    statedTotal: length,
    outfit,
    brief,
    tip: recordOf({}, { joint, fly }),
  },
).map((file) => JSON.parse(JSON.stringify(file)) as Record<string, unknown>)
