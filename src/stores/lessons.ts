import { computed } from 'vue'
import { defineStore } from 'pinia'
import type { Lesson, LessonResult } from '../documents/lesson'
import type { Posed } from '../engine/explore'
import { readLesson, readLessonText } from '../documents/lesson'
import { lesson as LESSON } from '../documents/kinds/lesson'
import { poseLesson } from '../documents/lessonLeaders'
import { shippedId } from './entry'
import { newId, useItems } from './items'
import { draftOf, keepOrSay, valuesOf } from './kept'
import { useLibrary } from './library'

/** A lesson with what it is known by. */
export interface LessonEntry {
  readonly id: string
  readonly lesson: Lesson
  readonly isOwn: boolean
}

const FILES = import.meta.glob<unknown>('../../formulas/lessons/*.json', {
  eager: true,
  import: 'default',
})

function shippedLessons(): LessonEntry[] {
  return Object.entries(FILES).flatMap(([path, file]) => {
    const read = readLesson(file)
    const id = path.replace(/^.*\/|\.json$/g, '')
    return read.ok ? [{ id, lesson: read.lesson, isOwn: false }] : []
  })
}

/** The lessons of a class: those that come with the app, and one's own, kept in this browser. */
export const useLessons = defineStore('lessons', () => {
  const [library, items] = [useLibrary(), useItems()]
  const shipped = shippedLessons()

  const own = computed(() =>
    [...valuesOf(items, LESSON)].map(([id, lesson]): LessonEntry => ({ id, lesson, isOwn: true })),
  )
  const entries = computed(() => [...own.value, ...shipped])

  const byId = (id: string): LessonEntry | undefined =>
    entries.value.find((entry) => entry.id === id)

  /** Keeps a lesson under its id, or under a new one; returns the id. */
  function keep(lesson: Lesson, id: string = newId()): string {
    keepOrSay(items, () => [draftOf(items, { kind: LESSON, id, value: lesson })])
    return id
  }

  /** Takes an own lesson out; the function given back puts it where it was. */
  function remove(id: string): () => void {
    const lesson = valuesOf(items, LESSON).get(id)
    if (!lesson) return () => undefined
    void items.act(() => [{ kind: LESSON.id, id, file: undefined }])
    return () => void keep(lesson, id)
  }

  /** Reads a lesson file and keeps what reads. */
  function importText(text: string): LessonResult {
    const read = readLessonText(text)
    if (read.ok) keep(read.lesson)
    return read
  }

  /** The leaders of a lesson as they are cast; undefined in the place of one that has not come. */
  const posedOf = (lesson: Lesson): (Posed | undefined)[] =>
    poseLesson(lesson, (name) => library.leaderOf(shippedId(name)))

  return {
    entries,
    storageProblem: computed(() => items.problem.value),
    byId,
    keep,
    remove,
    importText,
    posedOf,
  }
})
