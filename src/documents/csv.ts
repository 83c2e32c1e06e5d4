/** Tables for spreadsheets: RFC 4180, figures in SI columns beside the text as typed. */
import type { Leader } from '../engine/leader'
import { cutList } from '../engine/tying'
import { diameter_m, jointAt, materialOf } from '../engine/leader'
import { knot } from '../engine/materials'

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
  const cut = cutList(leader)
  const rows = leader.segments.map((segment, i) => [
    String(i + 1),
    segment.part,
    materialOf(leader, segment.material).name,
    (segment.measured ?? segment.diameter).text,
    decimal(diameter_m(segment) * 1e3, 4),
    segment.length.text,
    decimal(segment.length.si * 100, 2),
    decimal((cut[i]?.cut_m ?? 0) * 100, 1),
    knot(jointAt(leader, i).knot).name,
    segment.note ?? '',
  ])
  return [COLUMNS, ...rows].map((row) => row.map(cell).join(',')).join('\r\n') + '\r\n'
}

const decimal = (value: number, places: number) => String(Number(value.toFixed(places)))

/** A text that a spreadsheet would take for a formula gets a space before it. */
function cell(text: string): string {
  const plain = /^[=+@\t]/.test(text) ? ` ${text}` : text
  return /[",\r\n]/.test(plain) ? `"${plain.replaceAll('"', '""')}"` : plain
}
