export const LINE_TAPERS = ['WF', 'DT', 'ST', 'L', 'SH'] as const
export type LineTaper = (typeof LINE_TAPERS)[number]
export const LINE_BUOYANCIES = ['F', 'I', 'S', 'F/S'] as const
export type LineBuoyancy = (typeof LINE_BUOYANCIES)[number]

export const HEAVIEST_LINE = 15
/** Sink classes of the trade, I to VI; what each means is no standard (common practice). */
export const FASTEST_SINK_CLASS = 6

/** A fly line as designated by the trade (`WF5F`, `DT4F`, `WF7S3`, `WF6F/S`). */
export interface Designation {
  readonly designation: string
  readonly taper: LineTaper
  readonly weight: number
  readonly buoyancy: LineBuoyancy
  /** 1 to 6, of what sinks; absent where the designation does not say. */
  readonly sinkClass?: number
}

const ROMAN = ['I', 'II', 'III', 'IV', 'V', 'VI']
const GRAMMAR =
  /^(WF|DT|ST|SH|L) ?-?(\d{1,2}) ?-?(?:(F|I)|(F\/S|S)(?:[ -]?(?:TYPE )?([1-6]|IV|VI?|I{1,3}))?)?$/

/** Reads `WF5F`, `DT 4 F`, `wf7f/s`, `WF7S III`; undefined when it is no designation of a 1- to 15-weight. */
export function parseDesignation(text: string): Designation | undefined {
  const match = GRAMMAR.exec(text.trim().toUpperCase())
  const weight = Number(match?.[2])
  if (!match || !(weight >= 1 && weight <= HEAVIEST_LINE)) return undefined
  const sinkClass = classOf(match[5])
  return {
    designation: text.trim(),
    taper: match[1] as LineTaper,
    weight,
    buoyancy: (match[3] ?? match[4] ?? 'F') as LineBuoyancy,
    ...(sinkClass === undefined ? {} : { sinkClass }),
  }
}

function classOf(text: string | undefined): number | undefined {
  if (text === undefined) return undefined
  return ROMAN.includes(text) ? ROMAN.indexOf(text) + 1 : Number(text)
}

/** The designation as the trade writes it: taper, weight, density, and the sink class of what sinks. */
export function formatDesignation({
  taper,
  weight,
  buoyancy,
  sinkClass,
}: Omit<Designation, 'designation'>): string {
  return `${taper}${weight}${buoyancy}${buoyancy.endsWith('S') ? (sinkClass ?? '') : ''}`
}
