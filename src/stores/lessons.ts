import { computed } from 'vue'
import { defineStore } from 'pinia'
import type { Lesson, LessonResult } from '../documents/lesson'
import type { Posed } from '../engine/explore'
import { readLesson, readLessonText, writeLesson } from '../documents/lesson'
import { poseLesson } from '../documents/lessonLeaders'
import { shippedId } from './entry'
import { useLibrary } from './library'
import { useSettings } from './settings'
import { newId } from './shelf'

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
  const [library, settings] = [useLibrary(), useSettings()]
  const shipped = shippedLessons()

  /** Own lessons as they lie; one that does not read stays where it is. */
  const files = computed((): Readonly<Record<string, unknown>> => {
    const kept = settings.kept('lessons')
    return typeof kept === 'object' && kept !== null ? { ...kept } : {}
  })
  const own = computed(() =>
    Object.entries(files.value).flatMap(([id, file]): LessonEntry[] => {
      const read = readLesson(file)
      return read.ok ? [{ id, lesson: read.lesson, isOwn: true }] : []
    }),
  )
  const entries = computed(() => [...own.value, ...shipped])

  const byId = (id: string): LessonEntry | undefined =>
    entries.value.find((entry) => entry.id === id)

  /** Keeps a lesson under its id, or under a new one; returns the id. */
  function keep(lesson: Lesson, id: string = newId()): string {
    settings.change({ lessons: { ...files.value, [id]: writeLesson(lesson) } })
    return id
  }

  /** Takes an own lesson out; the function given back puts it where it was. */
  function remove(id: string): () => void {
    const { [id]: file, ...others } = files.value
    settings.change({ lessons: others })
    return () => settings.change({ lessons: { ...files.value, [id]: file } })
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
    storageProblem: computed(() => settings.storageProblem),
    byId,
    keep,
    remove,
    importText,
    posedOf,
  }
})
