import { afterEach, describe, expect, it } from 'vitest'
import type { VueWrapper } from '@vue/test-utils'
import { nextTick } from 'vue'
import type { Dimension, Quantity } from '../../src/engine/units'
import { parseQuantity } from '../../src/engine/units'
import { q, size } from '../engine/build'
import { stand } from '../support/fixture'
import { fixtures } from './fixtures'

let field: VueWrapper
afterEach(() => field.unmount())

function fieldOf(props: object = {}): VueWrapper {
  const fixture = fixtures['QuantityField.vue']
  if (!fixture) throw new Error('no fixture')
  field = stand(fixture, props)
  return field
}

const input = () => field.get('input')
const shown = () => input().element.value
const suffixes = () => field.findAll('.suffix').map((one) => one.text())
const message = () => field.find('[role="alert"]')
const buttons = () => field.findAll('.choices button')
const committed = () => (field.emitted('commit') ?? []).map(([quantity]) => quantity as Quantity)

/** Types and leaves the field, as its owner would see it: what is committed comes back as its prop. */
async function type(text: string) {
  await input().setValue(text)
  await input().trigger('blur')
  const last = committed().at(-1)
  if (last) await field.setProps({ quantity: last })
}

async function press(text: string) {
  const button = buttons().find((one) => one.text() === text)
  if (!button)
    throw new Error(
      `no button "${text}" among ${buttons()
        .map((b) => b.text())
        .join()}`,
    )
  await button.trigger('click')
  const last = committed().at(-1)
  if (last) await field.setProps({ quantity: last })
}

function bare(text: string, dimension: Dimension, unit: 'in' | 'mm' | 'X'): Quantity {
  const reading = parseQuantity(text, dimension, unit)
  if (reading.status !== 'read') throw new Error(`"${text}" does not read`)
  return reading.quantity
}

describe('what was typed', () => {
  it.each([
    ['.006', 0.1524e-3],
    ['0.006"', 0.1524e-3],
    ['6 thou', 0.1524e-3],
    ['4X', 0.1778e-3],
    ['0,15 mm', 0.15e-3],
    ['150 µm', 0.15e-3],
  ])('is kept exactly: %s', async (text, si) => {
    fieldOf({ quantity: size('.010 in') })
    await type(text)
    expect(committed()).toEqual([expect.objectContaining({ text })])
    expect(committed()[0]?.si).toBeCloseTo(si, 9)
    expect(shown()).toBe(text)
    expect(message().exists()).toBe(false)
  })

  it('is committed by Enter and by the arrows up and down, once', async () => {
    for (const key of ['Enter', 'ArrowDown', 'ArrowUp']) {
      fieldOf()
      await input().setValue('.008 in')
      await input().trigger('keydown', { key })
      expect(committed().map(({ text }) => text)).toEqual(['.008 in'])
      await field.setProps({ quantity: committed()[0] })
      await input().trigger('blur')
      expect(committed()).toHaveLength(1)
      if (key !== 'ArrowUp') field.unmount()
    }
  })

  it('is not committed while it is being typed', async () => {
    fieldOf()
    await input().setValue('.008 in')
    expect(committed()).toEqual([])
  })

  it('gives way to a figure that comes from outside, such as an undo', async () => {
    fieldOf()
    await input().setValue('.008')
    await field.setProps({ quantity: size('2X') })
    expect(shown()).toBe('2X')
  })
})

describe('a figure that its owner writes otherwise or does not take', () => {
  it('shows what stands, not what was typed', async () => {
    fieldOf({ quantity: q('9 ft'), dimension: 'length', unit: 'in', label: 'Total' })
    await input().setValue('108 in')
    await input().trigger('blur')
    expect(committed()[0]?.si).toBeCloseTo(2.7432, 9)
    expect(shown()).toBe('9 ft')
  })
})

describe('a field that is only visited', () => {
  it('commits nothing', async () => {
    fieldOf()
    await input().trigger('focus')
    await input().trigger('blur')
    await input().trigger('keydown', { key: 'Enter' })
    expect(field.emitted()).not.toHaveProperty('commit')
    expect(field.emitted()).not.toHaveProperty('clear')
  })

  it('selects what it holds, so that typing replaces it', async () => {
    fieldOf()
    await input().trigger('focus')
    expect([input().element.selectionStart, input().element.selectionEnd]).toEqual([0, 2])
  })
})

describe('a bare number', () => {
  it('shows its unit behind it, and only while it stands as committed', async () => {
    fieldOf({ quantity: bare('.006', 'diameter', 'in') })
    expect(suffixes()).toEqual(['in'])
    await input().setValue('.0065')
    expect(suffixes()).toEqual([])
  })

  it('shows no unit behind a text that carries its own', () => {
    fieldOf({ quantity: size('.006 in') })
    expect(suffixes()).toEqual([])
  })

  it('that could as well be meant otherwise is read, and the other meaning offered', async () => {
    fieldOf({ quantity: size('2X'), unit: 'X' })
    await type('6')
    expect(committed()[0]).toMatchObject({ text: '6', unit: 'X', bare: true })
    expect(message().text()).toContain('Read as 6 X. Meant otherwise?')
    expect(input().attributes('aria-invalid')).toBe('false')
    await press('6 thou')
    expect(committed()[1]).toMatchObject({ text: '6', unit: 'thou' })
    expect(suffixes()).toEqual(['thou'])
    expect(message().exists()).toBe(false)
  })

  it('stays as it was read when the hint is waved away', async () => {
    fieldOf({ quantity: size('2X'), unit: 'X' })
    await type('6')
    await press('Keep')
    expect(message().exists()).toBe(false)
    expect(committed()).toHaveLength(1)
    expect(shown()).toBe('6')
  })
})

describe('a text with several meanings', () => {
  it('is asked about and not committed until one is chosen', async () => {
    fieldOf()
    await type('6')
    expect(committed()).toEqual([])
    expect(message().text()).toContain('What does "6" mean here?')
    expect(input().attributes('aria-invalid')).toBe('true')
    expect(input().attributes('aria-describedby')).toBe(message().attributes('id'))
    expect(buttons().map((one) => one.text())).toEqual(['6 thou', '6X (.005 in)'])
    await press('6X (.005 in)')
    expect(committed()[0]).toMatchObject({ text: '6', unit: 'X', bare: true })
    expect(suffixes()).toEqual(['X'])
    expect(message().exists()).toBe(false)
    expect(document.activeElement).toBe(input().element)
  })

  it('that is a strength offers its range, and the choice is marked as an estimate', async () => {
    fieldOf({ quantity: size('.010 in') })
    await type('20 lb')
    expect(committed()).toEqual([])
    expect(message().text()).toContain('is a strength, not a diameter')
    expect(buttons()).toHaveLength(3)
    await press('.0175 in (estimate)')
    expect(committed()[0]).toMatchObject({ text: '.0175 in', estimatedFrom: '20 lb' })
    expect(shown()).toBe('.0175 in')
  })

  it.each(['Enter', 'ArrowDown', 'ArrowUp'])('keeps %s from leaving it', async (key) => {
    fieldOf()
    const heard: string[] = []
    const hear = (event: KeyboardEvent) => heard.push(event.key)
    document.body.addEventListener('keydown', hear)
    await input().setValue('6')
    await input().trigger('keydown', { key })
    await input().setValue('.006')
    await input().trigger('keydown', { key })
    document.body.removeEventListener('keydown', hear)
    expect(heard).toEqual([key])
  })
})

describe('a text without meaning', () => {
  it('is told what would be read, and stays to be mended', async () => {
    fieldOf()
    await type('thick')
    expect(committed()).toEqual([])
    expect(message().text()).toContain('"thick"')
    expect(message().text()).toMatch(/This field takes 5X, \.006 in, 6 thou or 0\.15 mm/)
    expect(shown()).toBe('thick')
    expect(input().attributes('aria-invalid')).toBe('true')
    await type('.007')
    expect(message().exists()).toBe(false)
    expect(committed()).toHaveLength(1)
  })

  it('is refused when it is empty, where a figure must be', async () => {
    fieldOf()
    await type('')
    expect(message().text()).toContain('Nothing is written here.')
    expect(field.emitted()).not.toHaveProperty('clear')
  })
})

describe('Escape', () => {
  it.each(['.009', 'thick', '6'])('brings back what stood there: after %s', async (text) => {
    fieldOf()
    await input().setValue(text)
    await input().trigger('keydown', { key: 'Escape' })
    await input().trigger('blur')
    expect(shown()).toBe('5X')
    expect(committed()).toEqual([])
    expect(message().exists()).toBe(false)
  })

  it('closes a question', async () => {
    fieldOf()
    await type('6')
    await input().trigger('keydown', { key: 'Escape' })
    expect(message().exists()).toBe(false)
    expect(shown()).toBe('5X')
    expect(input().attributes('aria-invalid')).toBe('false')
  })

  it('goes on to a dialog once a figure is committed', async () => {
    fieldOf()
    await type('.009 in')
    const event = new KeyboardEvent('keydown', { key: 'Escape', bubbles: true, cancelable: true })
    input().element.dispatchEvent(event)
    expect(event.defaultPrevented).toBe(false)
  })

  it('stays in the field while there is something to take back, and goes on where there is not', async () => {
    fieldOf()
    const heard: string[] = []
    const hear = (event: KeyboardEvent) => heard.push(event.key)
    document.body.addEventListener('keydown', hear)
    await input().setValue('.009')
    await input().trigger('keydown', { key: 'Escape' })
    expect(heard).toEqual([])
    await input().trigger('keydown', { key: 'Escape' })
    expect(heard).toEqual(['Escape'])
    document.body.removeEventListener('keydown', hear)
  })
})

describe('an optional field', () => {
  const optional = { optional: true, dimension: 'length', unit: 'ft', label: 'Rod length' }

  it('is empty without a figure and takes one', async () => {
    fieldOf({ ...optional, quantity: undefined })
    expect(shown()).toBe('')
    await type('9')
    expect(committed()[0]).toMatchObject({ text: '9', unit: 'ft', bare: true })
  })

  it('is cleared by being emptied, once', async () => {
    fieldOf({ ...optional, quantity: q('9 ft') })
    await type('  ')
    expect(field.emitted('clear')).toHaveLength(1)
    await field.setProps({ quantity: undefined })
    await input().trigger('blur')
    expect(shown()).toBe('')
    expect(field.emitted('clear')).toHaveLength(1)
    expect(committed()).toEqual([])
  })
})

describe('a view in another unit', () => {
  it('shows the figure in it and back as typed, and commits nothing', async () => {
    fieldOf({ quantity: bare('.006', 'diameter', 'in') })
    await field.setProps({ view: 'mm' })
    expect(shown()).toBe('0.152 mm')
    expect(suffixes()).toEqual([])
    await input().trigger('focus')
    await input().trigger('blur')
    await field.setProps({ view: 'typed' })
    expect(shown()).toBe('.006')
    expect(suffixes()).toEqual(['in'])
    expect(committed()).toEqual([])
  })

  it('leaves a figure that was typed in that very unit as it was typed', () => {
    fieldOf({ quantity: size('0,15 mm'), view: 'mm' })
    expect(shown()).toBe('0,15 mm')
  })

  it('reads a bare number typed into it in the unit of the view', async () => {
    fieldOf({ quantity: size('5X'), view: 'mm', unit: 'mm' })
    await type('0.2')
    expect(committed()[0]).toMatchObject({ text: '0.2', unit: 'mm', bare: true })
    expect(suffixes()).toEqual(['mm'])
  })
})

describe('for those who do not see it', () => {
  it('has a name, and its message is an alert that the field points at', async () => {
    fieldOf()
    expect(input().attributes('aria-label')).toBe('Diameter')
    expect(input().attributes('aria-describedby')).toBeUndefined()
    await type('thick')
    await nextTick()
    expect(document.getElementById(input().attributes('aria-describedby') ?? '')).toBe(
      message().element,
    )
  })
})
