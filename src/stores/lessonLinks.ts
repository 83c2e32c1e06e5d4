import type { Lesson, LessonResult } from '../documents/lesson'
import { readLessonLink, writeLessonLink } from '../documents/lessonLink'
import { pageDeflate } from './deflate'

const PLACE = '#class/link/'

export async function lessonLinkTo(lesson: Lesson, base: string): Promise<string> {
  return `${base}${PLACE}${await writeLessonLink(lesson, pageDeflate)}`
}

export const openLessonLink = (code: string): Promise<LessonResult> =>
  readLessonLink(code, pageDeflate)
