import { describe, expect, it } from 'vitest'
import type { Lesson } from '../../src/documents/lesson'
import {
  readLesson,
  readLessonText,
  writeLesson,
  writeLessonText,
} from '../../src/documents/lesson'
import { readLessonLink, writeLessonLink } from '../../src/documents/lessonLink'
import { writeLink } from '../../src/documents'
import { pageDeflate } from '../../src/stores/deflate'
import { poseLesson } from '../../src/documents/lessonLeaders'
import { bearsOut } from '../../src/engine/explore'
import { diameter_m } from '../../src/engine/leader'
import { soundLeader } from '../engine/build'

const files = Object.values(
  import.meta.glob<Record<string, unknown>>('../../formulas/lessons/*.json', {
    eager: true,
    import: 'default',
  }),
)
const [file] = files

function read(json: unknown): Lesson {
  const result = readLesson(json)
  if (!result.ok) throw new Error(JSON.stringify(result.problems))
  return result.lesson
}
const pathsIn = (patch: object) => {
  const result = readLesson({ ...file, ...patch })
  return result.ok ? [] : result.problems.map(({ path }) => path)
}

describe('a lesson file', () => {
  it.each(files.map((each) => [String(each['title']), each] as const))(
    '"%s" comes back from its text as it was',
    (_, each) => {
      const lesson = read(each)
      const back = readLessonText(`\uFEFF${writeLessonText(lesson)}`)
      expect(back).toEqual({ ok: true, lesson })
    },
  )

  it('carries a formula of one’s own in full', () => {
    const lesson = read(file)
    const [first, ...others] = lesson.leaders
    const own = { ...lesson, leaders: [{ ...first!, formula: soundLeader() }, ...others] }
    const back = read(JSON.parse(JSON.stringify(writeLesson(own))))
    expect(back.leaders[0]?.formula as (typeof own.leaders)[0]['formula'] & object).toMatchObject({
      name: soundLeader().name,
    })
  })

  it.each([
    [{ format: 'other' }, ['format']],
    [{ version: 2 }, ['version']],
    [{ title: 7, look: undefined }, ['title', 'look']],
    [{ leaders: [] }, ['leaders']],
    [{ shows: 3 }, ['shows']],
    [
      { leaders: [{ label: 'A', formula: { name: 3 } }] },
      expect.arrayContaining(['leaders[0].formula.format']),
    ],
    [{ leaders: [{ label: 'A', formula: 'x', line: 'thick' }] }, ['leaders[0].line']],
    [
      { leaders: [{ label: 'A', formula: 'x', fly: { style: 'parachute', hook: 99 } }] },
      ['leaders[0].fly.hook'],
    ],
    [
      { claims: [{ measure: 'extension', of: 5, against: 0, direction: 'less', by: 0 }] },
      ['claims[0].of'],
    ],
    [{ cast: { wind_m_s: 90 } }, ['cast.wind_m_s']],
    [{ change: { id: 'colour' } }, ['change.id']],
  ])('with %o is refused, and where is said', (patch, paths) => {
    expect(pathsIn(patch)).toEqual(paths)
  })

  it('that is no JSON is refused in words', () => {
    expect(readLessonText('hello')).toMatchObject({ ok: false, problems: [{ path: 'file' }] })
  })
})

describe('a lesson as a link', () => {
  const roughly = (text: string) => readLessonLink(text, pageDeflate)

  it('comes back as it was', async () => {
    const lesson = read(files[5])
    const code = await writeLessonLink(lesson, pageDeflate)
    expect(await roughly(code)).toEqual({ ok: true, lesson })
    expect(code.length).toBeLessThan(4000)
  })

  it('cut short, changed or foreign is refused in words', async () => {
    const code = await writeLessonLink(read(file), pageDeflate)
    const swapped = code.slice(0, 40) + (code[40] === 'A' ? 'B' : 'A') + code.slice(41)
    for (const wrong of ['', 'hello', code.slice(0, -9), swapped])
      expect(await roughly(wrong)).toMatchObject({ ok: false, problems: [{ path: 'link' }] })
    const formula = await writeLink([soundLeader()], pageDeflate)
    expect((await roughly(formula)).ok).toBe(false)
  })
})

describe('the leaders of a lesson', () => {
  it('have the fly, line, change and cast of the lesson', () => {
    const lesson = read({
      ...file,
      cast: { lineSpeed_m_s: 9, wind_m_s: -2 },
      leaders: [
        {
          label: 'A',
          formula: 'one',
          fly: { style: 'midge', hook: '22' },
          line: 'DT4F',
          change: { id: 'tippet-size', value: 2e-4 },
        },
        { label: 'B', formula: 'not there' },
      ],
    })
    const [a, b] = poseLesson(lesson, (name) => (name === 'one' ? soundLeader() : undefined))
    expect(b).toBeUndefined()
    expect(a?.leader).toMatchObject({
      name: 'A',
      tip: { fly: { fly: { style: 'midge', hook: 22 } } },
      outfit: { line: { designation: 'DT4F' } },
    })
    expect(diameter_m(a!.leader.segments.at(-1)!)).toBeCloseTo(2e-4, 5)
    expect(a?.choices).toMatchObject({ cast: { lineSpeed_m_s: 9 }, wind_m_s: -2 })
  })
})

describe('a claim', () => {
  const claim = { measure: 'extension', of: 1, against: 0, by: 0.1 } as const
  it.each([
    ['less', 0.9, 0.7, true],
    ['less', 0.9, 0.85, false],
    ['less', 0.7, 0.9, false],
    ['more', 0.7, 0.9, true],
    ['same', 0.9, 0.85, true],
    ['same', 0.9, 0.7, false],
  ] as const)('of %s: %d against %d is borne out: %s', (direction, a, b, held) => {
    expect(bearsOut({ ...claim, direction }, [{ extension: a }, { extension: b }])).toBe(held)
  })

  it('cannot be judged where a figure is missing; no speed at all is the most there is', () => {
    const full = { ...claim, direction: 'more' } as const
    expect(bearsOut(full, [{ extension: 1 }])).toBeUndefined()
    const speeds = [{ leastSpeed_m_s: 12 }, { leastSpeed_m_s: null }]
    expect(bearsOut({ ...full, measure: 'leastSpeed_m_s', by: 20 }, speeds)).toBe(true)
  })
})
