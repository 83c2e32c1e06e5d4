/** Label sheets by their dimensions in mm. Sold under many names; the figures are what counts. */
export interface LabelSheet {
  readonly id: string
  readonly name: string
  readonly paper: 'a4' | 'letter'
  readonly columns: number
  readonly rows: number
  readonly width: number
  readonly height: number
  /** From the paper's edge to the first label, and from one label's edge to the next one's. */
  readonly left: number
  readonly top: number
  readonly pitchX: number
  readonly pitchY: number
}

const sheet = (
  id: string,
  name: string,
  paper: 'a4' | 'letter',
  [columns, rows]: readonly [number, number],
  [width, height]: readonly [number, number],
  [left, top]: readonly [number, number],
  [pitchX, pitchY]: readonly [number, number],
): LabelSheet => ({ id, name, paper, columns, rows, width, height, left, top, pitchX, pitchY })

/** Widespread cuts of A4 and Letter (dimensions from memory: check them against the packet). */
export const LABEL_SHEETS: readonly LabelSheet[] = [
  sheet('a4-21', '63.5 × 38.1 mm, 21 on A4', 'a4', [3, 7], [63.5, 38.1], [7.2, 15.1], [66, 38.1]),
  sheet('a4-8', '99.1 × 67.7 mm, 8 on A4', 'a4', [2, 4], [99.1, 67.7], [4.7, 13.1], [101.6, 67.7]),
  sheet(
    'letter-10',
    '4 × 2 in, 10 on Letter',
    'letter',
    [2, 5],
    [101.6, 50.8],
    [4, 12.7],
    [106.4, 50.8],
  ),
  sheet(
    'letter-30',
    '2 5/8 × 1 in, 30 on Letter',
    'letter',
    [3, 10],
    [66.7, 25.4],
    [4.8, 12.7],
    [69.9, 25.4],
  ),
]

const PAPER_MM = { a4: [210, 297], letter: [215.9, 279.4] } as const

/** What is wrong with dimensions that the user has given; undefined where they fit the paper. */
export function sheetProblem(s: LabelSheet): string | undefined {
  const [paperWidth, paperHeight] = PAPER_MM[s.paper]
  if (s.pitchX < s.width || s.pitchY < s.height)
    return 'The labels overlap: the step is smaller than the label.'
  const right = s.left + (s.columns - 1) * s.pitchX + s.width
  const bottom = s.top + (s.rows - 1) * s.pitchY + s.height
  if (right > paperWidth + 0.5 || bottom > paperHeight + 0.5)
    return `The labels reach ${right.toFixed(1)} × ${bottom.toFixed(1)} mm, beyond the paper of ${paperWidth} × ${paperHeight} mm.`
  return undefined
}

/** Where label i lies on its page, mm from the paper's corner. */
export function placeOfLabel(s: LabelSheet, i: number) {
  const [column, row] = [i % s.columns, Math.floor(i / s.columns)]
  return { left: s.left + column * s.pitchX, top: s.top + row * s.pitchY }
}

/** Labels page by page; the first page begins at the first label that is still on the sheet (from 1). */
export function labelPages<T>(s: LabelSheet, labels: readonly T[], first: number): (T | null)[][] {
  const perPage = s.columns * s.rows
  const skipped = Math.min(perPage - 1, Math.max(0, Math.round(first) - 1))
  const all: (T | null)[] = [...Array.from({ length: skipped }, () => null), ...labels]
  const pages: (T | null)[][] = []
  for (let i = 0; i < all.length; i += perPage) pages.push(all.slice(i, i + perPage))
  return pages
}

/** Largest square (mm) that a code gets on the label, and how wide a module of it is then. */
export function codeOn(s: LabelSheet, modules: number) {
  const side = Math.min(s.height - 4, s.width * 0.48)
  return { side, module: side / (modules + 8) }
}

/** Finer modules are not read by every phone (common practice). */
export const FINEST_MODULE_MM = 0.38
