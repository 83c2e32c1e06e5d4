import { describe, expect, it } from 'vitest'
import type { Lesson } from '../../src/documents/lesson'
import { readFormula } from '../../src/documents'
import { readLesson } from '../../src/documents/lesson'
import { poseLesson } from '../../src/documents/lessonLeaders'
import { bearsOut } from '../../src/engine/explore'
import { foundOf } from '../support/found'

const lessons = import.meta.glob<unknown>('../../formulas/lessons/*.json', {
  eager: true,
  import: 'default',
})
const formulas = import.meta.glob<unknown>('../../formulas/*.json', {
  eager: true,
  import: 'default',
})
const names = Object.keys(lessons).map((path) => path.replace(/^.*\//, ''))

function shippedLeader(name: string) {
  const read = readFormula(formulas[`../../formulas/${name}.json`])
  return read.ok ? read.leader : undefined
}

function lessonOf(name: string): Lesson {
  const read = readLesson(lessons[`../../formulas/lessons/${name}`])
  if (!read.ok) throw new Error(JSON.stringify(read.problems))
  return read.lesson
}

it('there are lessons enough for a season of Saturdays', () => {
  expect(names.length).toBeGreaterThanOrEqual(10)
})

// What each lesson says of its casts; where the trade says the same it is common practice, and where it
// says otherwise the lesson says so.
describe.each(names)('the lesson %s', (name) => {
  const lesson = lessonOf(name)
  const posed = poseLesson(lesson, shippedLeader)

  it('asks, tells three reasons, and offers a prediction that is right among others', () => {
    expect(lesson.question).toMatch(/\?/)
    expect(lesson.why).toHaveLength(3)
    expect(lesson.predictions.length).toBeGreaterThanOrEqual(3)
    expect(lesson.claims.length).toBeGreaterThan(0)
    expect(posed.every((each) => each !== undefined)).toBe(true)
  })

  it('claims what the engine finds', () => {
    const found = posed.map((each) => each && foundOf(each))
    for (const claim of lesson.claims) {
      const values = found.map((each) => each?.[claim.measure])
      expect(
        bearsOut(claim, found as never),
        `${JSON.stringify(claim)}: ${values.join(', ')}`,
      ).toBe(true)
    }
  })
})
