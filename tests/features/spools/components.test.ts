import { describe, expect, it } from 'vitest'
import { flushPromises } from '@vue/test-utils'
import { blankSpool, leftText, onTheShelf, spoolName } from '../../../src/features/spools/spoolForm'
import { spoolOf } from '../../engine/tying/shelf'
import { stand } from '../../support/fixture'
import { fixtures } from './fixtures'

describe('a spool in words', () => {
  it('has what was stated, less what was cut', () => {
    const spool = { ...spoolOf({ id: 'a', size: '5X', left: '30 yd' }), taken_m: 0 }
    expect(leftText(spool)).toBe('30 yd')
    expect(leftText({ ...spool, taken_m: 9.144 })).toBe('20 yd')
    expect(spoolName({ ...spool, label: 'extra' })).toBe('Supple nylon 5X extra')
  })

  it('stands by material, from stout to fine', () => {
    const at = (id: string, size: string) => ({ ...spoolOf({ id, size, left: '1 m' }), taken_m: 0 })
    expect(onTheShelf([at('fine', '5X'), at('stout', '.020 in')]).map(({ id }) => id)).toEqual([
      'stout',
      'fine',
    ])
    expect(blankSpool('new', 'mm').size.unit).toBe('mm')
  })
})

describe('the spool dialog', () => {
  it('keeps what was typed, and an emptied field not at all', async () => {
    const wrapper = stand(fixtures['SpoolDialog.vue']!)
    const note = wrapper.findAll('label').find((label) => label.text() === 'Note')!
    await note.get('input').setValue('by the window')
    const colour = wrapper.findAll('label').find((label) => label.text() === 'Colour')!
    await colour.get('input').setValue('  ')
    await wrapper.get('form').trigger('submit')
    await flushPromises()
    const [kept] = wrapper.emitted('keep')![0] as [Record<string, unknown>]
    expect(kept).toMatchObject({ id: 'old', note: 'by the window' })
    expect(kept).not.toHaveProperty('colour')
    wrapper.unmount()
  })
})
