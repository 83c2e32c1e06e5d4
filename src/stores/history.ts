/** Undo and redo of one leader. Pure: every step returns a new history. */
import type { Leader } from '../engine/leader'
import { writeFormulaText } from '../documents'

interface Step {
  readonly label: string
  /** What stood here before the step (past) or after it (future). */
  readonly leader: Leader
}

export interface History {
  readonly present: Leader
  /** Steps that led here, the latest last. */
  readonly past: readonly Step[]
  /** Steps taken back, the next to redo last. */
  readonly future: readonly Step[]
  /** Edits under this key still merge into the latest step. */
  readonly mergeKey?: string
}

export const historyOf = (present: Leader): History => ({ present, past: [], future: [] })

/**
 * Adds a step, or widens the latest one where it goes by the same merge key. What changes nothing adds
 * no step, and a step widened until it changes nothing is taken out: undo always does something.
 */
export function record(history: History, label: string, next: Leader, mergeKey?: string): History {
  const { present, past } = history
  if (isSame(present, next)) return history
  const merges = mergeKey !== undefined && mergeKey === history.mergeKey
  const steps = merges ? past : [...past, { label, leader: present }]
  const start = steps.at(-1)?.leader
  if (start && isSame(start, next)) return { present: start, past: steps.slice(0, -1), future: [] }
  return { present: next, past: steps, future: [], ...(mergeKey === undefined ? {} : { mergeKey }) }
}

/** Whether two leaders are written alike; the keys of their segments may differ. */
export function isSame(a: Leader, b: Leader): boolean {
  return a === b || writeFormulaText(a) === writeFormulaText(b)
}

export function endMerge({ present, past, future }: History): History {
  return { present, past, future }
}

export function undo(history: History): History {
  const { present, past, future } = history
  const step = past.at(-1)
  if (!step) return history
  return {
    present: step.leader,
    past: past.slice(0, -1),
    future: [...future, { label: step.label, leader: present }],
  }
}

export function redo(history: History): History {
  const { present, past, future } = history
  const step = future.at(-1)
  if (!step) return history
  return {
    present: step.leader,
    past: [...past, { label: step.label, leader: present }],
    future: future.slice(0, -1),
  }
}

/** Gives every state that goes by one name another, so that undo does not bring the old name back. */
export function renamed(history: History, from: string, to: string): History {
  const rename = (leader: Leader) => (leader.name === from ? { ...leader, name: to } : leader)
  const steps = (list: readonly Step[]) =>
    list.map(({ label, leader }) => ({ label, leader: rename(leader) }))
  return {
    ...history,
    present: rename(history.present),
    past: steps(history.past),
    future: steps(history.future),
  }
}
