/** Cells of a table that goes into a spreadsheet, as a file or by the clipboard. */

/**
 * A text as a spreadsheet may have it. What it would take for a formula and run (`=`, `+`, `-`, `@`, or such behind a
 * tab or a line end; OWASP, CSV Injection) gets a space before it.
 */
const harmless = (text: string): string =>
  /^[\s]*[=+\-@]|^[\t\r\n]/.test(text) ? ` ${text}` : text

/** A row of a CSV file (RFC 4180): texts made harmless and quoted where they must be, figures as they are. */
export const csvRow = (cells: readonly (string | number)[]): string => cells.map(csvCell).join(',')

function csvCell(value: string | number): string {
  if (typeof value === 'number') return String(value)
  const text = harmless(value)
  return /[",\r\n]/.test(text) ? `"${text.replaceAll('"', '""')}"` : text
}

/** A row for the clipboard: tabs part its cells, so that a cell can hold neither tab nor line end. */
export const clipboardRow = (cells: readonly string[]): string =>
  cells.map((text) => harmless(text.replace(/[\t\r\n]+/g, ' '))).join('\t')
