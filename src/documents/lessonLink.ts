import type { Lesson, LessonResult } from './lesson'
import type { Deflate } from './link'
import { readLesson, writeLesson } from './lesson'
import { packCode, unpackCode } from './link'

/** A whole lesson as the code of a link, its own formulas in it; see link.ts. */
export function writeLessonLink(lesson: Lesson, deflate: Deflate): Promise<string> {
  return packCode(writeLesson(lesson), deflate)
}

/** Reads such a code; never throws, and tells what is wrong with what cannot be read. */
export async function readLessonLink(code: string, deflate: Deflate): Promise<LessonResult> {
  const unpacked = await unpackCode(code, deflate)
  return 'problem' in unpacked
    ? { ok: false, problems: [unpacked.problem] }
    : readLesson(unpacked.value)
}
