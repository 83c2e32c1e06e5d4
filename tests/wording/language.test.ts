import { afterEach, describe, expect, it } from 'vitest'
import { figure, fixed, list, plural, rounded } from '../../src/wording/figures'
import { languageTag, room, speak } from '../../src/wording/language'
import type { Language } from '../../src/wording/languages'
import { app } from '../../src/wording/rooms/app'
import { leaderInUse } from '../../src/wording/rooms/leaderInUse'
import { spools } from '../../src/wording/rooms/spools'
import { tying } from '../../src/wording/rooms/tying'
import { ui } from '../../src/wording/rooms/ui'
import { marked } from '../support/marked'

afterEach(() => speak(undefined))

describe('a language', () => {
  const english = {
    title: 'Help',
    left: ({ count }: { count: number }) => `${plural(count, { one: 'piece', other: 'pieces' })}`,
    keys: [['Enter', 'down']],
  }
  const own = room('own', english)

  it('is English unless another is spoken, and is asked for when a message is read', () => {
    expect([own.title, own.left({ count: 1 }), languageTag()]).toEqual(['Help', 'piece', 'en-GB'])
    speak(marked({ own: english }))
    expect([own.title, own.left({ count: 2 }), own.keys[0]]).toEqual([
      '⟦Help⟧',
      '⟦pieces⟧',
      ['⟦Enter⟧', '⟦down⟧'],
    ])
  })

  it('writes numbers, figures and lists its own way', () => {
    const said = () => [
      fixed(0.4, 2),
      rounded(12.04, 1),
      rounded(12345.5, 1),
      figure(0.0001524, 'diameter', 'in'),
      figure(2.286, 'length', 'ft-in'),
      list(['a', 'b', 'c']),
    ]
    expect(said()).toEqual(['0.40', '12', '12345.5', '.006 in', `7' 6"`, 'a, b and c'])
    speak(marked({}))
    expect(said()).toEqual(['0,40', '12', '12345,5', ',006 in', `7' 6"`, 'a, b und c'])
  })

  it('is one object of all rooms, whose gaps are type errors', () => {
    const whole: Language = { tag: 'en', rooms: { app, leaderInUse, spools, tying, ui } }
    // @ts-expect-error: a room is missing.
    const gap: Language['rooms'] = { app, leaderInUse, spools, tying }
    expect(Object.keys(whole.rooms)).toHaveLength(Object.keys(gap).length + 1)
  })
})
