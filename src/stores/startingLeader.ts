import type { Leader, Part, Segment } from '../engine/leader'
import type { KnotId } from '../engine/materials'
import type { Dimension, Quantity } from '../engine/units'
import { parseWithUnit } from '../engine/units'

/** What a new formula begins with: a plain taper that no check objects to. */
export function startingLeader(name: string): Leader {
  return {
    name,
    purpose: 'general-dry',
    outfit: {},
    segments: [
      segment(1, 'butt', '.020 in', '42 in', 'loop-to-loop'),
      segment(2, 'butt', '.017 in', '14 in', 'blood'),
      segment(3, 'mid-section', '.0145 in', '9 in', 'blood'),
      segment(4, 'mid-section', '.0115 in', '9 in', 'blood'),
      segment(5, 'mid-section', '.009 in', '8 in', 'blood'),
      segment(6, 'tippet', '4X', '26 in', 'surgeons-triple'),
    ],
    tip: { joint: { knot: 'improved-clinch' } },
    materials: [],
  }
}

function segment(key: number, part: Part, diameter: string, length: string, knot: KnotId): Segment {
  const [thick, long] = [figure(diameter, 'diameter'), figure(length, 'length')]
  const common = { joint: { knot }, attachments: [] }
  const material = thick.si > 0.25e-3 ? 'nylon-stiff' : 'nylon-supple'
  return { key, part, material, diameter: thick, length: long, ...common }
}

function figure(text: string, dimension: Dimension): Quantity {
  const reading = parseWithUnit(text, dimension)
  if (reading.status !== 'read') throw new TypeError(`"${text}" does not read as a ${dimension}.`)
  return reading.quantity
}
