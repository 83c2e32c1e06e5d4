/**
 * A leader as the trade writes it, one piece a line from butt to tippet: `36 in .019  stiff nylon`. Written so
 * that it reads back, and read from what people paste: `36" of .019`, `20@17`, `5X 24 in`, `24 in 20 lb`.
 */
import type { Leader, Part, Segment } from '../engine/leader'
import type { KnotId } from '../engine/materials'
import type { Dimension, Quantity, Unit } from '../engine/units'
import { materialOf, PARTS, totalLength_m, isMetric } from '../engine/leader'
import { BUILT_IN_MATERIALS, knot, KNOT_IDS } from '../engine/materials'
import { formatSi, parseQuantity, SYMBOL } from '../engine/units'

export function writeRecipe(leader: Leader): string {
  const lines = leader.segments.map((segment, i) => writePiece(leader, segment, i))
  const total = formatSi(totalLength_m(leader), 'length', isMetric(leader) ? 'm' : 'ft-in')
  return [leader.name, ...lines, `total ${total}`, ''].join('\n')
}

function writePiece(leader: Leader, segment: Segment, i: number): string {
  const { length, diameter, part, material, joint, strength } = segment
  const words = [
    part,
    materialOf(leader, material).name.toLowerCase(),
    i === 0 && joint.knot === 'loop-to-loop' ? '' : knot(joint.knot).name.toLowerCase(),
    strength ? withUnit(strength) : '',
  ].filter((word) => word !== '')
  return `${withUnit(length)} ${withUnit(segment.measured ?? diameter)}  ${words.join(', ')}`
}

const withUnit = ({ text, unit, bare }: Quantity) => (bare ? `${text} ${SYMBOL[unit]}` : text)

/** What became of one line. */
export interface RecipeLine {
  readonly text: string
  readonly as: 'name' | 'piece' | 'total' | 'empty' | 'not-understood'
  /** What was made of it beyond the plain reading, or what would be right. */
  readonly remarks: readonly string[]
}

export interface Recipe {
  readonly lines: readonly RecipeLine[]
  /** null where no line is a piece. */
  readonly leader: Leader | null
}

const MOST_LINES = 400
const LONGEST_LINE = 400
const MOST_PIECES = 200
const USUAL_NAME = 'Pasted recipe'

/** Reads pasted text line by line; never throws. */
export function readRecipe(text: string): Recipe {
  const lines: RecipeLine[] = []
  const pieces: Piece[] = []
  let [name, total] = [undefined as string | undefined, undefined as Quantity | undefined]
  for (const line of text.split(/\r?\n/).slice(0, MOST_LINES)) {
    const read = readLine(line, name === undefined && pieces.length === 0)
    lines.push({ text: line, as: read.as, remarks: read.remarks })
    pieces.push(...(read.pieces ?? []))
    name ??= read.name
    total ??= read.total
  }
  const left = text.split(/\r?\n/).slice(MOST_LINES).join('\n').trim()
  if (left !== '') lines.push(leftOut(left, `only the first ${MOST_LINES} lines are read`))
  const over = pieces.length - MOST_PIECES
  if (over > 0)
    lines.push(
      leftOut(`${over} pieces`, `a leader has at most ${MOST_PIECES}; the last are left out`),
    )
  const leader = pieces.length > 0 ? leaderOf(pieces.slice(0, MOST_PIECES), name, total) : null
  return { lines, leader }
}

const leftOut = (text: string, remark: string): RecipeLine => ({
  text: text.slice(0, LONGEST_LINE),
  as: 'not-understood',
  remarks: [remark],
})

interface Piece {
  readonly length: Quantity
  readonly diameter: Quantity
  readonly strength?: Quantity
  readonly part?: Part
  readonly material?: string
  readonly knot?: KnotId
  readonly note?: string
}

interface LineRead {
  readonly as: RecipeLine['as']
  readonly remarks: readonly string[]
  readonly pieces?: readonly Piece[]
  readonly name?: string
  readonly total?: Quantity
}

const REFUSED = 'A piece is a length and a size, such as 36 in .019 or 24 in 5X.'

function readLine(line: string, mayBeName: boolean): LineRead {
  const clean = line
    .slice(0, LONGEST_LINE)
    .replace(/[“”″]/g, '"')
    .replace(/[‘’′]/g, "'")
    .replace(/^\s*(?:[-*•]|\d+[.)])\s+(?=\S*\d)/, '')
    .trim()
  if (clean === '') return { as: 'empty', remarks: [] }
  const total = totalIn(clean)
  if (total) return { as: 'total', remarks: [], total }
  // A heading may hold figures ("Upper beat 9 ft 5X"), but it begins with a word of its own.
  if (mayBeName && /^\p{L}/u.test(clean) && !startsLikePiece(clean))
    return { as: 'name', remarks: [], name: clean }
  const several = readSeveral(clean)
  if (several) return several
  const one = readPiece(clean)
  if (typeof one === 'string') return { as: 'not-understood', remarks: [one] }
  return { as: 'piece', remarks: one.remarks, pieces: [one.piece] }
}

function totalIn(clean: string): Quantity | undefined {
  const [, rest] = /^(?:total|length|=)\s*[:=]?\s*(.+)$/i.exec(clean) ?? []
  return rest === undefined ? undefined : quantityIn(rest.replace(/\s+total$/i, ''), 'length', 'in')
}

/** `10@17, 20@15, 20@13` in one line: every part of it must be a piece. */
function readSeveral(clean: string): LineRead | undefined {
  const parts = clean.split(/\s*(?:;|,\s|,(?=\d+\s*@))\s*/).filter((part) => part !== '')
  const read = parts.map(readPiece)
  const pieces = read.flatMap((one) => (typeof one === 'string' ? [] : [one]))
  if (parts.length < 2 || pieces.length < parts.length) return undefined
  return {
    as: 'piece',
    remarks: [`${pieces.length} pieces`, ...pieces.flatMap(({ remarks }) => remarks)],
    pieces: pieces.map(({ piece }) => piece),
  }
}

const NUMBER = String.raw`\d+\s+\d+\/\d+|\d+\/\d+|\d*[.,]?\d+`
const RANGE = String.raw`(?:\s*(?:-|–|to)\s*(${NUMBER}))?`
const FEET = String.raw`\d+\s*(?:'|ft|feet)\s*\d+(?:\s+\d+\/\d+|\.\d+)?\s*(?:"|inches|inch|ins|in\b)`
const UNIT = String.raw`"|'|#|inches|inch|ins|in|feet|foot|ft|mm|cm|m|µm|um|thou|mil|x|lbs|lb|pounds|pound|kg`
const FIGURE = new RegExp(
  String.raw`(?<![\p{L}\d.])(?:(${FEET})|(${NUMBER})${RANGE}\s*(${UNIT})?(?![\p{L}\d]))`,
  'giu',
)

interface Figure {
  readonly text: string
  readonly unit: string
  readonly value: number
  readonly range?: string
}

function figuresIn(clean: string): { figures: Figure[]; words: string } {
  const figures: Figure[] = []
  const words = clean.replace(
    FIGURE,
    (whole, feet?: string, first?: string, last?: string, u?: string) => {
      const unit = (feet === undefined ? (u ?? '') : 'ft').toLowerCase()
      const text = feet ?? `${first ?? ''}${u ? (/^["'x#]$/i.test(u) ? u : ` ${u}`) : ''}`
      const range = last === undefined ? {} : { range: whole.trim() }
      figures.push({ text, unit, value: Number((first ?? '1').replace(',', '.')), ...range })
      return ' | '
    },
  )
  return { figures, words }
}

const LENGTH_UNITS = /^(?:'|feet|foot|ft|cm|m)$/
const SIZE_UNITS = /^(?:x|thou|mil|um|µm)$/
const FORCE_UNITS = /^(?:lbs?|pounds?|kg|#)$/
const INCHES = /^(?:"|inches|inch|ins|in)$/

/** By its unit, and by its size where the unit says nothing: leaders are no hawsers. */
function kindOf({ unit, value }: Figure): 'length' | 'size' | 'force' | 'bare' {
  if (FORCE_UNITS.test(unit)) return 'force'
  if (SIZE_UNITS.test(unit)) return 'size'
  if (LENGTH_UNITS.test(unit)) return 'length'
  if (INCHES.test(unit)) return value < 0.1 ? 'size' : 'length'
  if (unit === 'mm') return value < 3 ? 'size' : 'length'
  return value < 0.1 ? 'size' : 'bare'
}

/** The piece that a text is, or what is missing. */
function readPiece(clean: string): { piece: Piece; remarks: string[] } | string {
  const { figures, words } = figuresIn(clean)
  const roles = rolesOf(figures)
  if (!roles) return REFUSED
  const { long, size, force } = roles
  const remarks: string[] = []
  const metric = size?.unit === 'mm' || size?.unit === 'um' || size?.unit === 'µm'
  const length = quantityIn(long.text, 'length', metric ? 'cm' : 'in')
  if (!length) return `"${long.text}" is no length of a piece. ${REFUSED}`
  if (long.range !== undefined) remarks.push(`Of ${long.range} the lower was taken.`)
  const strength = force && quantityIn(force.text, 'force', 'lb')
  const diameter = size ? sizeIn(size) : strength && estimated(force.text, remarks)
  if (!diameter) return `"${(size ?? force)?.text}" is no size of a strand. ${REFUSED}`
  const said = wordsIn(words, remarks)
  return { piece: { length, diameter, ...(strength ? { strength } : {}), ...said }, remarks }
}

interface Roles {
  readonly long: Figure
  readonly size?: Figure
  readonly force?: Figure
}

function rolesOf(figures: readonly Figure[]): Roles | undefined {
  const of = (kind: string) => figures.find((figure) => kindOf(figure) === kind)
  const [bare, second] = figures.filter((figure) => kindOf(figure) === 'bare')
  const force = of('force')
  const long = of('length') ?? bare
  // "36@17" and "36 in 17": the second bare figure is in thousandths.
  const size = of('size') ?? (of('length') ? bare : second)
  if (!long || !(size ?? force) || long === size) return undefined
  return { long, ...(size ? { size } : {}), ...(force ? { force } : {}) }
}

function sizeIn(figure: Figure): Quantity | undefined {
  const isThou = figure.unit === '' && figure.value >= 2
  return quantityIn(figure.text, 'diameter', isThou ? 'thou' : figure.value > 0.08 ? 'mm' : 'in')
}

function quantityIn(text: string, dimension: Dimension, unit: Unit): Quantity | undefined {
  const reading = parseQuantity(text, dimension, unit)
  return reading.status === 'read' ? reading.quantity : undefined
}

/** A strength is no diameter: the middle of what published tables give, marked as an estimate. */
function estimated(text: string, remarks: string[]): Quantity | undefined {
  const reading = parseQuantity(text, 'diameter', 'in')
  const middle = reading.status === 'ask' ? reading.choices[1]?.quantity : undefined
  if (middle)
    remarks.push(`${text} is a strength: its diameter was estimated as ${middle.text}. Measure it.`)
  return middle
}

const PART_WORDS: readonly (readonly [RegExp, Part])[] = [
  [/\bbutt\b/i, 'butt'],
  [/\b(?:mid-section|mid|middle|taper|transition)\b/i, 'mid-section'],
  [/\b(?:sighter|indicator)\b/i, 'sighter'],
  [/\b(?:bite|wire bite)\b/i, 'bite'],
  [/\bshock\b/i, 'shock'],
  [/\b(?:tippet|tip|point)\b/i, 'tippet'],
]

const MATERIAL_WORDS: readonly (readonly [RegExp, string])[] = [
  ...BUILT_IN_MATERIALS.map(({ id, name }) => [new RegExp(`\\b${name}\\b`, 'i'), id] as const),
  [/\bfluoro\w*\b/i, 'fluorocarbon'],
  [/\bcopoly\w*\b/i, 'copolymer'],
  [/\b(?:stiff|hard)(?: (?:nylon|mono\w*))?\b/i, 'nylon-stiff'],
  [/\b(?:supple|soft|limp)(?: (?:nylon|mono\w*))?\b/i, 'nylon-supple'],
]

const KNOT_WORDS: readonly (readonly [RegExp, KnotId])[] = KNOT_IDS.map((id) => knot(id))
  .sort((a, b) => b.name.length - a.name.length)
  .map(({ id, name }) => [new RegExp(`(?<!\\p{L})${name}(?!\\p{L})`, 'iu'), id] as const)

/** "Butt: 36 in .019" and "hard mono 36 in .019", but not "Middle beat 9 ft". */
const startsLikePiece = (clean: string) =>
  [...PART_WORDS, ...MATERIAL_WORDS].some(([word]) => {
    const found = word.exec(clean)
    return found?.index === 0 && /^\s*[:=,-]?\s*[\d.]/.test(clean.slice(found[0].length))
  })

/** Part, material and knot among the words; what is left is kept as a note and told. */
function wordsIn(words: string, remarks: string[]) {
  let rest = words
  const take = <T>(list: readonly (readonly [RegExp, T])[]): T | undefined => {
    const found = list.find(([word]) => word.test(rest))
    if (found) rest = rest.replace(found[0], ' ')
    return found?.[1]
  }
  const knotId = take(KNOT_WORDS)
  const material = take(MATERIAL_WORDS)
  const part = take(PART_WORDS)
  const note = rest
    .replace(
      /\b(?:of|at|nylon|mono\w*|knot|dia\w*)\b|[^\p{L}\p{N}\s'-]|(?<!\p{L})[x'-](?!\p{L})/giu,
      ' ',
    )
    .replace(/\s+/g, ' ')
    .trim()
  if (note !== '') remarks.push(`Kept as a note: ${note}`)
  return {
    ...(knotId === undefined ? {} : { knot: knotId }),
    ...(material === undefined ? {} : { material }),
    ...(part === undefined ? {} : { part }),
    ...(note === '' ? {} : { note }),
  }
}

/** Where a recipe names no parts: as long as it keeps three quarters of the butt it is butt, the last piece tippet. */
const STILL_BUTT = 0.75
/** Stiff nylon down to about .013 in, supple below (common practice). */
const STIFF_FROM_M = 0.32e-3

function leaderOf(
  pieces: readonly Piece[],
  name: string | undefined,
  total: Quantity | undefined,
): Leader {
  const isNamed = pieces.some(({ part }) => part !== undefined)
  return {
    name: name ?? USUAL_NAME,
    purpose: 'general-dry',
    ...(total ? { statedTotal: total } : {}),
    outfit: {},
    segments: pieces.map((piece, i) =>
      segmentOf(piece, i, isNamed ? lastNamed(pieces, i) : guessed(pieces, i)),
    ),
    tip: { joint: { knot: 'improved-clinch' } },
    materials: [],
  }
}

function segmentOf(piece: Piece, i: number, part: Part): Segment {
  const { length, diameter, strength, note } = piece
  return {
    key: i + 1,
    part,
    material: piece.material ?? (diameter.si >= STIFF_FROM_M ? 'nylon-stiff' : 'nylon-supple'),
    diameter,
    length,
    ...(strength ? { strength } : {}),
    ...(note === undefined ? {} : { note }),
    joint: { knot: piece.knot ?? (i === 0 ? 'loop-to-loop' : 'blood') },
    attachments: [],
  }
}

/** Its own part, or that of the nearest named piece above it. */
function lastNamed(pieces: readonly Piece[], i: number): Part {
  const named = pieces
    .slice(0, i + 1)
    .filter(({ part }) => part !== undefined)
    .at(-1)
  return named?.part ?? PARTS[0]
}

function guessed(pieces: readonly Piece[], i: number): Part {
  if (i === pieces.length - 1 && pieces.length > 1) return 'tippet'
  const kept = (pieces[i]?.diameter.si ?? 0) / (pieces[0]?.diameter.si ?? 1)
  return kept >= STILL_BUTT ? 'butt' : 'mid-section'
}
