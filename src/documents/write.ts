import type {
  Attachment,
  Conditions,
  FlyChoice,
  Joint,
  Leader,
  Outfit,
  Segment,
} from '../engine/leader'
import type { Quantity } from '../engine/units'
import type { OwnBead, OwnMaterial } from './extra'
import { formatHook } from '../engine/tackle'
import { writeQuantity } from './fields'
import { FORMAT, VERSION } from './schema'

type Json = Record<string, unknown>

/** The file of a leader: plain JSON in the order a person reads it, with unknown fields at the end. */
export function writeFormula(leader: Leader): Json {
  const { $schema, ...extra } = leader.extra ?? {}
  return {
    ...($schema === undefined ? {} : { $schema }),
    format: FORMAT,
    version: VERSION,
    name: leader.name,
    purpose: leader.purpose,
    ...plain({ notes: leader.notes, statedTotal: leader.statedTotal }),
    ...filled('outfit', writeOutfit(leader.outfit)),
    ...(leader.brief ? { brief: writeBrief(leader.brief) } : {}),
    ...(leader.materials.length > 0 ? { materials: leader.materials.map(writeMaterial) } : {}),
    segments: leader.segments.map(writeSegment),
    tip: {
      joint: writeJoint(leader.tip.joint),
      ...(leader.tip.fly ? { fly: writeFly(leader.tip.fly) } : {}),
      ...leader.tip.extra,
    },
    ...extra,
  }
}

/** The file as text, with a line end at its end, as an editor would save it. */
export function writeFormulaText(leader: Leader): string {
  return `${JSON.stringify(writeFormula(leader), null, 2)}\n`
}

/** Fields that are there, figures as they were typed. */
function plain(
  fields: Readonly<Record<string, Quantity | string | number | boolean | undefined>>,
): Json {
  const kept = Object.entries(fields).filter(([, value]) => value !== undefined)
  return Object.fromEntries(
    kept.map(([key, value]) => [key, typeof value === 'object' ? writeQuantity(value) : value]),
  )
}

function filled(key: string, value: Json): Json {
  return Object.keys(value).length > 0 ? { [key]: value } : {}
}

function writeSegment(segment: Segment): Json {
  const { part, material, diameter, measured, label, strength, pullTest, length, colour, note } =
    segment
  return {
    ...plain({
      part,
      material,
      diameter,
      measured,
      label,
      strength,
      pullTest,
      length,
      colour,
      note,
    }),
    joint: writeJoint(segment.joint),
    ...(segment.attachments.length > 0
      ? { attachments: segment.attachments.map(writeAttachment) }
      : {}),
    ...segment.extra,
  }
}

function writeJoint({ knot, turns, takeUp, extra }: Joint): unknown {
  if (!turns && !takeUp && !extra) return knot
  return {
    knot,
    ...(turns ? { turns } : {}),
    ...(takeUp ? { takeUp: takeUp.map(writeQuantity) } : {}),
    ...extra,
  }
}

function writeAttachment({ fly, extra, ...fields }: Attachment): Json {
  return { ...plain(fields), ...(fly ? { fly: writeFly(fly) } : {}), ...extra }
}

export function writeFly({ fly, mass, beadDiameter, extra }: FlyChoice): Json {
  const dragArea_mm2 =
    fly.dragArea_m2 === undefined ? undefined : Number((fly.dragArea_m2 * 1e6).toPrecision(12))
  return {
    style: fly.style,
    hook: fly.hook >= 1 ? fly.hook : formatHook(fly.hook),
    ...(fly.bead ? { bead: writeBead(fly.bead, beadDiameter) } : {}),
    ...plain({
      mass: mass ?? exactly(fly.mass_kg, 1e-6, 'mg'),
      dragArea_mm2,
      sinkRate_m_s: fly.sinkRate_m_s,
    }),
    ...extra,
  }
}

function writeBead({ metal, diameter_m, extra }: OwnBead, typed: Quantity | undefined): Json {
  const diameter = typed ? writeQuantity(typed) : exactly(diameter_m, 1e-3, 'mm')
  return { metal, diameter, ...extra }
}

/** A figure that nobody typed, at full precision. */
function exactly(si: number | undefined, size: number, unit: string): string | undefined {
  return si === undefined ? undefined : `${Number((si / size).toPrecision(9))} ${unit}`
}

export function writeOutfit({ line, lineShape, extra, ...fields }: Outfit): Json {
  const { rod, lineTip, rodClass, fish, caster, ownCast, wet } = fields
  return {
    ...plain({ rod, line: line?.designation, lineTip }),
    ...(lineShape ? { lineShape: writeLineShape(lineShape) } : {}),
    ...plain({ rodClass, fish, caster, wet }),
    ...(ownCast ? { ownCast } : {}),
    ...extra,
  }
}

function writeLineShape({ extra, ...parts }: NonNullable<Outfit['lineShape']>): Json {
  return { ...plain(parts), ...extra }
}

export function writeBrief({ extra, ...fields }: Conditions): Json {
  return { ...plain({ ...fields }), ...extra }
}

function writeMaterial(material: OwnMaterial): Json {
  return {
    id: material.id,
    name: material.name,
    family: material.family,
    density_kg_m3: material.density.value,
    modulus_Pa: material.modulus.value,
    wetModulusFactor: material.wetModulus.value,
    tensileStrength_Pa: material.tensileStrength.value,
    wetStrengthFactor: material.wetStrength.value,
    ...plain({ refractiveIndex: material.refractiveIndex?.value }),
    source: material.density.source,
    ...material.extra,
  }
}
