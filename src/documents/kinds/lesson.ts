import type { Kind } from '../kind'
import type { Lesson } from '../lesson'
import { LESSON_VERSION, readLesson, writeLesson } from '../lesson'

export const lesson: Kind<Lesson> = {
  id: 'lesson',
  version: LESSON_VERSION,
  read: (json) => {
    const result = readLesson(json)
    return result.ok ? { ok: true, value: result.lesson } : result
  },
  write: writeLesson,
  nameOf: ({ title }) => title,
}
