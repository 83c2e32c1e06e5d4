import type { Leader, Part, Segment } from '../engine/leader'
import type { KnotId } from '../engine/materials'
import type { Dimension, Quantity } from '../engine/units'
import { parseWithUnit } from '../engine/units'

/** What a new formula begins with: the shortest taper that no check objects to. */
export function startingLeader(name: string): Leader {
  return {
    name,
    purpose: 'streamer',
    outfit: {},
    segments: [
      segment(1, 'butt', '.020 in', '46 in', 'loop-to-loop'),
      segment(2, 'mid-section', '.015 in', '22 in', 'surgeons-triple'),
      segment(3, 'tippet', '.010 in', '22 in', 'surgeons-triple'),
    ],
    tip: { joint: { knot: 'improved-clinch' } },
    materials: [],
  }
}

function segment(key: number, part: Part, diameter: string, length: string, knot: KnotId): Segment {
  const [thick, long] = [figure(diameter, 'diameter'), figure(length, 'length')]
  const common = { joint: { knot }, attachments: [] }
  return { key, part, material: 'nylon-stiff', diameter: thick, length: long, ...common }
}

function figure(text: string, dimension: Dimension): Quantity {
  const reading = parseWithUnit(text, dimension)
  if (reading.status !== 'read') throw new TypeError(`"${text}" does not read as a ${dimension}.`)
  return reading.quantity
}
