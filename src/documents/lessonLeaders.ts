import type { Posed } from '../engine/explore'
import type { Leader } from '../engine/leader'
import type { Lesson, LessonLeader } from './lesson'
import { changed } from '../engine/explore'

/**
 * The leaders of a lesson as they are cast: with the lesson's fly, line, change and cast.
 * Undefined in the place of one whose formula is not found.
 */
export function poseLesson(
  lesson: Lesson,
  shippedLeader: (name: string) => Leader | undefined,
): (Posed | undefined)[] {
  const choices = choicesOf(lesson)
  return lesson.leaders.map((seat) => {
    const { formula, change } = seat
    const leader = typeof formula === 'string' ? shippedLeader(formula) : formula
    if (!leader) return undefined
    const posed = { leader: dressed(leader, seat), choices }
    return change ? changed(posed, change.what, change.value) : posed
  })
}

function choicesOf({ cast: { wind_m_s, lineOut_m, ...cast } }: Lesson): Posed['choices'] {
  return {
    cast,
    ...(wind_m_s === undefined ? {} : { wind_m_s }),
    ...(lineOut_m === undefined ? {} : { lineOut_m }),
    mesh: 'usual',
  }
}

/** A leader with the fly, line and name that the lesson gives it. */
export function dressed(leader: Leader, { fly, line, label }: LessonLeader): Leader {
  return {
    ...leader,
    name: label,
    ...(fly ? { tip: { ...leader.tip, fly: { fly } } } : {}),
    ...(line ? { outfit: { ...leader.outfit, line } } : {}),
  }
}
