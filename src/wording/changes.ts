import type { Joint, Leader, Segment } from '../engine/leader'
import type { Quantity } from '../engine/units'
import { jointAt, materialOf } from '../engine/leader'
import { knot } from '../engine/materials'
import { SYMBOL } from '../engine/units'
import { FLY_NAMES, PART_NAMES, PURPOSE_NAMES } from './names'

const written = (quantity: Quantity | undefined) =>
  quantity ? (quantity.bare ? `${quantity.text} ${SYMBOL[quantity.unit]}` : quantity.text) : 'none'

/** What makes one version of a formula differ from another, a line a difference, in the order of the bench. */
export function differenceTexts(before: Leader, after: Leader): string[] {
  return [
    ...differs('name', before.name, after.name),
    ...differs('purpose', PURPOSE_NAMES[before.purpose], PURPOSE_NAMES[after.purpose]),
    ...(before.notes === after.notes ? [] : ['notes changed']),
    ...differs('stated total', written(before.statedTotal), written(after.statedTotal)),
    ...outfitDifferences(before, after),
    ...pieceDifferences(before, after),
    ...differs('fly', flyText(before), flyText(after)),
  ]
}

function differs(what: string, before: string, after: string): string[] {
  return before === after ? [] : [`${what} ${before}, now ${after}`]
}

function outfitDifferences({ outfit: a }: Leader, { outfit: b }: Leader): string[] {
  return [
    ...differs('rod', written(a.rod), written(b.rod)),
    ...differs('line', a.line?.designation ?? 'none', b.line?.designation ?? 'none'),
    ...differs('fish', written(a.fish), written(b.fish)),
    ...differs('caster', a.caster ?? 'none', b.caster ?? 'none'),
  ]
}

function flyText({ tip }: Leader): string {
  const fly = tip.fly?.fly
  return fly ? `${FLY_NAMES[fly.style]} ${fly.hook}` : 'none'
}

/** Pieces are matched from both ends, so that one put in or taken out is one line and not ten. */
function pieceDifferences(before: Leader, after: Leader): string[] {
  const [a, b] = [before.segments, after.segments]
  const shorter = Math.min(a.length, b.length)
  let head = 0
  while (head < shorter && isAlike(before, after, head, head)) head++
  let tail = 0
  while (tail < shorter - head && isAlike(before, after, a.length - 1 - tail, b.length - 1 - tail))
    tail++
  const [gone, come] = [a.length - head - tail, b.length - head - tail]
  const both = Math.min(gone, come)
  const changed = Array.from({ length: both }, (_, k) => pieceLines(before, after, head + k)).flat()
  const extra = (segments: readonly Segment[], from: number, count: number, what: string) =>
    segments
      .slice(from, from + count)
      .map(
        (s, k) => `piece ${from + k + 1} ${what}: ${written(s.length)} of ${written(s.diameter)}`,
      )
  return [
    ...changed,
    ...extra(a, head + both, gone - both, 'taken out'),
    ...extra(b, head + both, come - both, 'put in'),
    ...differs('knot at the fly', jointText(before.tip.joint), jointText(after.tip.joint)),
  ]
}

function isAlike(before: Leader, after: Leader, i: number, k: number): boolean {
  return textOf(before, i) === textOf(after, k)
}

function textOf(leader: Leader, i: number): string {
  const segment = leader.segments[i]
  if (!segment) return ''
  const { key: _, ...facts } = segment
  return JSON.stringify(facts)
}

function jointText({ knot: id, turns }: Joint): string {
  return turns ? `${knot(id).name}, ${turns.join(' and ')} turns` : knot(id).name
}

function pieceLines(before: Leader, after: Leader, i: number): string[] {
  const [a, b] = [before.segments[i], after.segments[i]]
  if (!a || !b) return []
  const lines = [
    ...differs('part', PART_NAMES[a.part], PART_NAMES[b.part]),
    ...differs('material', materialOf(before, a.material).name, materialOf(after, b.material).name),
    ...differs('diameter', written(a.diameter), written(b.diameter)),
    ...differs('measured', written(a.measured), written(b.measured)),
    ...differs('length', written(a.length), written(b.length)),
    ...differs('label', a.label ?? 'none', b.label ?? 'none'),
    ...differs('strength', written(a.strength), written(b.strength)),
    ...differs('pull test', written(a.pullTest), written(b.pullTest)),
    ...differs('colour', a.colour ?? 'none', b.colour ?? 'none'),
    ...(a.note === b.note ? [] : ['note changed']),
    ...differs('knot above', jointText(jointAt(before, i)), jointText(jointAt(after, i))),
    ...(a.attachments.length === b.attachments.length &&
    JSON.stringify(a.attachments) === JSON.stringify(b.attachments)
      ? []
      : ['what hangs from it changed']),
  ]
  return lines.map((text) => `piece ${i + 1}, ${text}`)
}
