// @vitest-environment happy-dom
import { afterEach, describe, expect, it } from 'vitest'
import { speak } from '../../src/wording/language'
import { leaderInUse } from '../../src/wording/rooms/leaderInUse'
import { stand } from '../support/fixture'
import { marked } from '../support/marked'
import { fixtures } from '../features/leaderInUse/fixtures'

const wrappers: { unmount: () => void }[] = []
afterEach(() => {
  for (const wrapper of wrappers.splice(0)) wrapper.unmount()
  speak(undefined)
})

/** What stands in the panel outside the marks, texts and named attributes, word by word. */
function unmarked(root: Element): string[] {
  const attributes = ['title', 'aria-label', 'placeholder', 'alt', 'label']
  const named = [...root.querySelectorAll('*')].flatMap((each) =>
    attributes.map((name) => each.getAttribute(name) ?? ''),
  )
  for (const option of root.querySelectorAll('option')) option.remove()
  const bare = [root.textContent ?? '', ...named].map((text) => text.replace(/⟦[^⟦⟧]*⟧/g, ' '))
  return bare.flatMap((text) => text.match(/[A-Za-z]{2,}/g) ?? [])
}

describe('the words of a leader in use', () => {
  it.each(['AddTippet.vue', 'StartPanel.vue', 'RebuildPanel.vue'])(
    '%s shows none but those of the spoken language',
    (name) => {
      const fixture = fixtures[name]
      if (!fixture) throw new Error(`no fixture for ${name}`)
      speak(marked({ leaderInUse: { ...english } }))
      const wrapper = stand(fixture)
      wrappers.push(wrapper)
      expect(document.body.textContent).toContain('⟦')
      expect(unmarked(document.body)).toEqual([])
    },
  )
})

/** The room as it is written, read before another language is spoken. */
const english = {
  ...Object.fromEntries(
    Object.keys(leaderInUse).map((key) => [key, leaderInUse[key as keyof typeof leaderInUse]]),
  ),
}
