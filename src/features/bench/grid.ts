import type { Leader, Part, Segment } from '../../engine/leader'
import type { KnotId } from '../../engine/materials'
import type { Reading, Unit } from '../../engine/units'
import {
  insertSegment,
  materialsOf,
  PARTS,
  setDiameter,
  setJoint,
  setSegment,
} from '../../engine/leader'
import { knot, KNOT_IDS } from '../../engine/materials'
import { MOST_SEGMENTS } from '../../documents/schema'
import { clipboardRow } from '../../documents/spreadsheet'
import { parseQuantity } from '../../engine/units'
import { PART_NAMES } from '../../wording'

/** The columns that can be typed in, in order; the same order serves copying and pasting. */
export const COLUMNS = ['part', 'material', 'diameter', 'length', 'knot'] as const
export type Column = (typeof COLUMNS)[number]

export interface PasteResult {
  readonly leader: Leader
  /** One line for each cell that was not understood; such a cell keeps what it held. */
  readonly problems: readonly string[]
}

export interface EntryUnits {
  readonly diameter: Unit
  readonly length: Unit
}

/** Rows as a spreadsheet takes them: tab-separated, with a heading. */
export function copyRows(leader: Leader, from: number, to: number): string {
  const rows = leader.segments
    .slice(from, to + 1)
    .map((s) => COLUMNS.map((column) => cellText(leader, s, column)))
  return [COLUMNS, ...rows].map(clipboardRow).join('\n')
}

function cellText(leader: Leader, segment: Segment, column: Column): string {
  switch (column) {
    case 'part':
      return PART_NAMES[segment.part]
    case 'material':
      return materialsOf(leader).find((m) => m.id === segment.material)?.name ?? segment.material
    case 'knot':
      return knot(segment.joint.knot).name
    default: {
      const { text, unit, bare } = segment[column]
      return bare ? `${text} ${unit}` : text
    }
  }
}

/**
 * Pastes rows of a spreadsheet from a cell on: over what is there, and on past the end. A heading row
 * names the columns; without one the cells run to the right from where they were pasted.
 */
export function pasteRows(
  leader: Leader,
  text: string,
  at: { row: number; column: Column },
  units: EntryUnits,
): PasteResult {
  const lines = text
    .replace(/\r/g, '')
    .replace(/\n+$/, '')
    .split('\n')
    .map((line) => line.split('\t'))
  if (lines.length > MOST_SEGMENTS + 1) return { leader, problems: [tooMany(lines.length)] }
  const heading = headingOf(lines[0] ?? [])
  const columns = heading ?? COLUMNS.slice(COLUMNS.indexOf(at.column))
  const body = heading ? lines.slice(1) : lines
  const pastedUnits = unitsOf(body, columns, units)
  const problems: string[] = []
  const pasted = body.reduce((current, cells, k) => {
    const row = at.row + k
    const grown = row < current.segments.length ? current : appendLike(current)
    return cells.reduce((acc, cell, c) => {
      const column = columns[c]
      if (!column || cell.trim() === '') return acc
      const outcome = setCell(acc, row, column, cell.trim(), pastedUnits)
      if (typeof outcome !== 'string') return outcome
      problems.push(`Line ${k + 1 + (heading ? 1 : 0)}, ${column}: ${outcome}`)
      return acc
    }, grown)
  }, leader)
  return { leader: pasted, problems }
}

const tooMany = (rows: number) =>
  `${rows} rows were pasted; a leader has at most ${MOST_SEGMENTS} pieces`

/** A bare number in a column that elsewhere says its unit is meant in that unit. */
function unitsOf(
  body: readonly string[][],
  columns: readonly (Column | undefined)[],
  units: EntryUnits,
): EntryUnits {
  const unitIn = (column: 'diameter' | 'length') => {
    const cells = body.map((row) => row[columns.indexOf(column)] ?? '')
    const readings = cells.map((cell) => parseQuantity(cell, column, units[column]))
    const written = readings.find((r) => r.status === 'read' && !r.quantity.bare)
    return written?.status === 'read' ? written.quantity.unit : units[column]
  }
  return { diameter: unitIn('diameter'), length: unitIn('length') }
}

function headingOf(cells: readonly string[]): (Column | undefined)[] | undefined {
  const names = cells.map((cell) => COLUMNS.find((column) => column === cell.trim().toLowerCase()))
  return names.some((name) => name !== undefined) ? names : undefined
}

/** A new last row like the one before it, tied by a blood knot. */
function appendLike(leader: Leader): Leader {
  const last = leader.segments.at(-1)
  if (!last) return leader
  const { part, material, diameter, length } = last
  const segment = {
    part,
    material,
    diameter,
    length,
    joint: { knot: 'blood' as const },
    attachments: [],
  }
  return insertSegment(leader, leader.segments.length, segment)
}

/** The leader with one cell set from text, or what was wrong with the text. */
function setCell(
  leader: Leader,
  row: number,
  column: Column,
  text: string,
  units: EntryUnits,
): Leader | string {
  switch (column) {
    case 'part': {
      const part = named(PARTS, text, (p) => PART_NAMES[p])
      return part
        ? setSegment(leader, row, { part: part satisfies Part })
        : unknown(text, Object.values(PART_NAMES))
    }
    case 'material': {
      const names = new Map(materialsOf(leader).map((m) => [m.id, m.name]))
      const material = named([...names.keys()], text, (id) => names.get(id) ?? id)
      return material ? setSegment(leader, row, { material }) : unknown(text, [...names.values()])
    }
    case 'knot': {
      const id = named(KNOT_IDS, text, (k) => knot(k).name)
      return id
        ? setJoint(leader, row, { knot: id satisfies KnotId })
        : unknown(
            text,
            KNOT_IDS.map((k) => knot(k).name),
          )
    }
    case 'diameter': {
      const reading = parseQuantity(text, 'diameter', units.diameter)
      return reading.status === 'read' ? setDiameter(leader, row, reading.quantity) : said(reading)
    }
    case 'length': {
      const reading = parseQuantity(text, 'length', units.length)
      return reading.status === 'read'
        ? setSegment(leader, row, { length: reading.quantity })
        : said(reading)
    }
  }
}

/** The one whose id or name the text is, or is part of; undefined where several are. */
function named<T extends string>(
  ids: readonly T[],
  text: string,
  nameOf: (id: T) => string,
): T | undefined {
  const exact = ids.find((id) => same(id, text) || same(nameOf(id), text))
  const like = ids.filter((id) => nameOf(id).toLowerCase().includes(text.toLowerCase()))
  return exact ?? (like.length === 1 ? like[0] : undefined)
}

function same(a: string, b: string): boolean {
  return a.toLowerCase() === b.toLowerCase()
}

function unknown(text: string, known: readonly string[]): string {
  return `"${text}" is not one of ${known.join(', ')}`
}

function said(reading: Exclude<Reading, { status: 'read' }>): string {
  if (reading.status === 'refused') return `${reading.message} It takes ${reading.accepted}`
  return `${reading.question} It could be ${reading.choices.map((c) => c.meaning).join(' or ')}`
}
