import type { Leader } from '../../engine/leader'
import type { Lesson, LessonLeader } from '../../documents/lesson'
import type { Seat } from '../../stores/classroom'
import { dressed } from '../../documents/lessonLeaders'
import { isShippedId, shippedId } from '../../stores/entry'

/** A leader of a lesson as it is chosen in the form: its name there, and the seat it is chosen in. */
export interface DraftLeader {
  readonly label: string
  readonly seat: Seat
}

/** A lesson to begin from; every text says what belongs there. */
export const EMPTY_LESSON: Lesson = {
  title: 'A new lesson',
  question: 'What happens when …?',
  predictions: ['It turns over', 'It falls short', 'No difference'],
  shows: 0,
  leaders: [
    { label: 'Even taper', formula: 'saturday-class-even-taper' },
    { label: 'Level', formula: 'saturday-class-level-line' },
  ],
  cast: {},
  look: 'What to look for while the loop runs.',
  seen: 'What was seen.',
  why: ['Because …'],
  exercise: 'What to try on the grass, with a yarn tuft.',
  claims: [],
}

/** The seat of a lesson's leader; one with a fly or line of the lesson's own goes in as a leader. */
export function seatOf(
  leader: LessonLeader,
  shippedLeader: (name: string) => Leader | undefined,
): DraftLeader {
  const { label, formula, fly, line, change } = leader
  const more = change ? { change } : {}
  if (typeof formula === 'string' && !fly && !line)
    return { label, seat: { source: shippedId(formula), ...more } }
  const base = typeof formula === 'string' ? shippedLeader(formula) : formula
  const given = base && { leader: dressed(base, leader) }
  return { label, seat: { source: 'given', ...given, ...more } }
}

/** Back again: a shipped formula by its name, any other in full; undefined while it has not come. */
export function lessonLeaderOf(
  { label, seat }: DraftLeader,
  leader: Leader | undefined,
): LessonLeader | undefined {
  const { source, change } = seat
  const more = change ? { change } : {}
  if (isShippedId(source)) return { label, formula: source.slice(shippedId('').length), ...more }
  return leader && { label, formula: leader, ...more }
}

/** Lines of a text area, without the empty ones. */
export function linesOf(text: string): string[] {
  return text
    .split('\n')
    .map((line) => line.trim())
    .filter((line) => line !== '')
}
