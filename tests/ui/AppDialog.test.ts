import { afterEach, describe, expect, it } from 'vitest'
import type { VueWrapper } from '@vue/test-utils'
import { stand } from '../support/fixture'
import { fixtures } from './fixtures'

let dialog: VueWrapper
afterEach(() => dialog.unmount())

function open(props: object = {}) {
  const fixture = fixtures['AppDialog.vue']
  if (!fixture) throw new Error('no fixture')
  dialog = stand(fixture, props)
  return dialog
}

describe('AppDialog', () => {
  it('is open and modal as soon as it stands, and is named by its title', () => {
    open()
    const { element } = dialog.get('dialog')
    expect(element.open).toBe(true)
    const titleId = dialog.get('dialog').attributes('aria-labelledby') ?? ''
    expect(document.getElementById(titleId)?.textContent).toBe('Knots')
  })

  it('tells once that it was closed by its button', async () => {
    open()
    await dialog.get('button').trigger('click')
    expect(dialog.emitted('close')).toHaveLength(1)
  })

  it('closes on the backdrop, which is the dialog itself, but not on what lies in it', async () => {
    open()
    await dialog.get('p').trigger('click')
    expect(dialog.emitted()).not.toHaveProperty('close')
    await dialog.get('dialog').trigger('click')
    expect(dialog.emitted('close')).toHaveLength(1)
  })

  it('has a close button that says what it closes', () => {
    open()
    expect(dialog.get('button').text()).toBe('Close Knots')
  })
})
