import { mount } from '@vue/test-utils'
import { describe, expect, it } from 'vitest'
import { h } from 'vue'
import { SpokenText } from '../../src/ui/SpokenText'

describe('a message with elements inside', () => {
  it('draws each named part by its slot, in the order of the message', () => {
    const message = ({ left, size }: { left: string; size: string }) => `${left} of ${size} left.`
    const slots = { left: () => h('strong', '18 in'), size: () => '5X' }
    const paragraph = mount(() => h('p', h(SpokenText, { message }, slots)))
    expect(paragraph.text()).toBe('18 in of 5X left.')
    expect(paragraph.find('strong').text()).toBe('18 in')
  })
})
