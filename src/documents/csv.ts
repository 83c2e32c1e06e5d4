/** Tables for spreadsheets: RFC 4180, figures in SI columns beside the text as typed. */
import type { Leader } from '../engine/leader'
import { piecesOf } from '../engine/pieces'
import { knot } from '../engine/materials'
import { csvRow } from './spreadsheet'

const COLUMNS = [
  'piece',
  'part',
  'material',
  'diameter',
  'diameter_mm',
  'length',
  'length_cm',
  'cut_cm',
  'knot_at_butt_end',
  'note',
]

export function writeCsv(leader: Leader): string {
  const rows = piecesOf(leader).pieces.map(({ segment, profile, cut, above }, i) => [
    String(i + 1),
    segment.part,
    profile.material.name,
    (segment.measured ?? segment.diameter).text,
    decimal(profile.diameter_m * 1e3, 4),
    segment.length.text,
    decimal(segment.length.si * 100, 2),
    decimal(cut.cut_m * 100, 1),
    knot(above.joint.knot).name,
    segment.note ?? '',
  ])
  return `${[COLUMNS, ...rows].map(csvRow).join('\r\n')}\r\n`
}

const decimal = (value: number, places: number) => Number(value.toFixed(places))
