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
  copied: (value, _id, named) => ({ ...value, title: named(value.title) }),
  nameOf: ({ title }) => title,
}
