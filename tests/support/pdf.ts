/** Reads a printed PDF back: page sizes, text and strokes, in points from the lower left corner. */
import { getDocument, OPS } from 'pdfjs-dist/legacy/build/pdf.mjs'

interface PdfPage {
  /** Points: 1/72 in (ISO 32000-1). */
  readonly width: number
  readonly height: number
  readonly text: string
  /** Widths of all parts of painted paths, points. */
  readonly pathWidths: readonly number[]
}

export async function readPdf(bytes: Uint8Array): Promise<PdfPage[]> {
  const document = await getDocument({
    data: new Uint8Array(bytes),
    useSystemFonts: false,
    verbosity: 0,
  }).promise
  const pages: PdfPage[] = []
  for (let n = 1; n <= document.numPages; n++) {
    const page = await document.getPage(n)
    const { width, height } = page.getViewport({ scale: 1 })
    const content = await page.getTextContent()
    const text = content.items.map((item) => ('str' in item ? item.str : '')).join('')
    pages.push({ width, height, text, pathWidths: await pathWidths(page) })
  }
  await document.destroy()
  return pages
}

type Matrix = [number, number, number, number, number, number]
interface Operators {
  readonly fnArray: number[]
  readonly argsArray: unknown[][]
}

/** The current transformation decides how long a path is on paper. */
async function pathWidths(page: { getOperatorList(): Promise<Operators> }): Promise<number[]> {
  const { fnArray, argsArray } = await page.getOperatorList()
  const widths: number[] = []
  const kept: Matrix[] = []
  let now: Matrix = [1, 0, 0, 1, 0, 0]
  for (const [i, fn] of fnArray.entries()) {
    const args = argsArray[i] ?? []
    if (fn === OPS.save || fn === OPS.paintFormXObjectBegin) kept.push(now)
    if (fn === OPS.restore || fn === OPS.paintFormXObjectEnd) now = kept.pop() ?? now
    if (fn === OPS.transform) now = times(now, args as unknown as Matrix)
    if (fn === OPS.paintFormXObjectBegin && args[0]) now = times(now, args[0] as Matrix)
    if (fn === OPS.constructPath) widths.push(...widthsOf(args, now))
  }
  return widths
}

function times(a: Matrix, b: Matrix): Matrix {
  return [
    a[0] * b[0] + a[2] * b[1],
    a[1] * b[0] + a[3] * b[1],
    a[0] * b[2] + a[2] * b[3],
    a[1] * b[2] + a[3] * b[3],
    a[0] * b[4] + a[2] * b[5] + a[4],
    a[1] * b[4] + a[3] * b[5] + a[5],
  ]
}

/** Points that each step of a path takes from the list of coordinates. */
const POINTS: Readonly<Record<number, number>> = {
  [OPS.moveTo]: 1,
  [OPS.lineTo]: 1,
  [OPS.curveTo]: 3,
  [OPS.curveTo2]: 2,
  [OPS.curveTo3]: 2,
}

/** Width of the box of each part of a path, drawn as it is transformed. */
function widthsOf(args: readonly unknown[], [a, , c, , e]: Matrix): number[] {
  const [steps, coordinates] = args as [number[], number[]]
  const widths: number[] = []
  let xs: number[] = []
  let at = 0
  const at_x = () => a * (coordinates[at] ?? 0) + c * (coordinates[at + 1] ?? 0) + e
  const end = () => {
    if (xs.length > 1) widths.push(Math.max(...xs) - Math.min(...xs))
    xs = []
  }
  for (const step of steps) {
    if (step === OPS.moveTo) end()
    if (step === OPS.rectangle) {
      widths.push(Math.abs(a * (coordinates[at + 2] ?? 0)))
      at += 4
    }
    for (let k = 0; k < (POINTS[step] ?? 0); k++) {
      xs.push(at_x())
      at += 2
    }
  }
  end()
  return widths
}
