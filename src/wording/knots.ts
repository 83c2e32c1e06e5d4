import type { Joint } from '../engine/leader'
import type { KnotId } from '../engine/materials'
import { knot } from '../engine/materials'

const TIED = ['wet', 'draw', 'seat', 'trim'] as const
const LOOPED = ['pass', 'draw', 'seat'] as const

/** What the hands do at a joint once its turns lie, a word each (common practice). */
export function knotSteps(id: KnotId): readonly string[] {
  return id === 'loop-to-loop' ? LOOPED : TIED
}

/** `5 + 7 turns`: those of the formula, else the knot's usual ones. */
export function turnsText({ knot: id, turns }: Joint): string {
  if (id === 'loop-to-loop') return 'loops'
  const { turns: usual, places } = knot(id)
  if (turns) return turns[0] === turns[1] ? `${turns[0]} turns` : `${turns[0]} + ${turns[1]} turns`
  const isTwoSided = id === 'blood' || id === 'uni-to-uni' || id === 'ring'
  if (id.startsWith('surgeons')) return `${usual} passes`
  return isTwoSided && places.includes('between') ? `${usual} + ${usual} turns` : `${usual} turns`
}
