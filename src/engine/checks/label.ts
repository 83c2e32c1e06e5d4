import type { Segment } from '../leader'
import type { Check, FindingOf } from './finding'
import { THOU_M, formatX, parseQuantity } from '../units'

const HALF_SIZE_M = 0.6 * THOU_M // labels are in whole and half sizes (common practice), a tenth to spare: estimate

type Label = FindingOf<
  'label',
  'contradicts',
  { label: string; diameter_m: number },
  { label: string; diameter_m: number }
>

/** A spool's X label that says another size than the diameter does. */
export const label: Check<Label, 'no-label'> = {
  id: 'label',
  oneFor: 'place',
  bounds: [],
  limits: {},
  run: ({ leader }) => {
    const labelled = leader.segments.map(sizeOnLabel)
    if (labelled.every((size) => size === undefined)) return 'no-label'
    return leader.segments.flatMap((segment, i) => judge(segment, i, labelled[i]))
  },
}

/** The diameter that a label states, where it states one. */
function sizeOnLabel({ label: text }: Segment): number | undefined {
  const reading = text === undefined ? undefined : parseQuantity(text, 'diameter', 'X')
  return reading?.status === 'read' ? reading.quantity.si : undefined
}

function judge(segment: Segment, i: number, size: number | undefined): Label[] {
  const nominal = segment.diameter
  if (size === undefined || Math.abs(size - nominal.si) < HALF_SIZE_M) return []
  const right = formatX(nominal.si)
  return [
    {
      id: 'label',
      variant: 'contradicts',
      severity: 'caution',
      place: { kind: 'segment', index: i },
      measured: { label: segment.label ?? '', diameter_m: nominal.si },
      limit: { label: right, diameter_m: size },
      source: 'rule of eleven: thousandths = 11 - X (common practice)',
      remedies: [
        {
          id: 'relabel',
          edit: { kind: 'label', at: i, label: right },
        },
        {
          id: 'set-diameter',
          edit: {
            kind: 'diameter',
            at: i,
            diameter: { si: size, text: (segment.label ?? '').trim(), unit: 'X' },
          },
        },
      ],
    },
  ]
}
