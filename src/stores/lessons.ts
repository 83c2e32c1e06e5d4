import { computed, shallowRef } from 'vue'
import { defineStore } from 'pinia'
import type { Lesson } from '../documents/lesson'
import type { Posed } from '../engine/explore'
import { readLesson } from '../documents/lesson'
import { poseLesson } from '../documents/lessonLeaders'
import { shippedId } from './entry'
import { useLibrary } from './library'

/** A lesson with what it is known by. */
export interface LessonEntry {
  readonly id: string
  readonly lesson: Lesson
}

const FILES = import.meta.glob<unknown>('../../formulas/lessons/*.json', {
  eager: true,
  import: 'default',
})

/** The lessons of a class: those that come with the app. */
export const useLessons = defineStore('lessons', () => {
  const library = useLibrary()
  const shipped = shallowRef(
    Object.entries(FILES).flatMap(([path, file]): LessonEntry[] => {
      const read = readLesson(file)
      const id = path.replace(/^.*\/|\.json$/g, '')
      return read.ok ? [{ id, lesson: read.lesson }] : []
    }),
  )
  const entries = computed(() => shipped.value)

  const byId = (id: string): LessonEntry | undefined =>
    entries.value.find((entry) => entry.id === id)

  /** The leaders of a lesson as they are cast; undefined in the place of one that has not come. */
  const posedOf = (lesson: Lesson): (Posed | undefined)[] =>
    poseLesson(lesson, (name) => library.leaderOf(shippedId(name)))

  return { entries, byId, posedOf }
})
