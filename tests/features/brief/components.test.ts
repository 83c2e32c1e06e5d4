import { afterEach, describe, expect, it } from 'vitest'
import type { VueWrapper } from '@vue/test-utils'
import { flushPromises } from '@vue/test-utils'
import { q } from '../../engine/build'
import { stand } from '../../support/fixture'
import { fixtures } from './fixtures'

const standing: VueWrapper[] = []
afterEach(() => {
  for (const wrapper of standing.splice(0)) wrapper.unmount()
})

function show(file: string, patch: object = {}): VueWrapper {
  const fixture = fixtures[file]
  if (!fixture) throw new Error(`no fixture for ${file}`)
  const wrapper = stand(fixture, patch)
  standing.push(wrapper)
  return wrapper
}

const choice = (wrapper: VueWrapper, label: string) => {
  const found = wrapper.findAll('label').find((one) => one.text().startsWith(label))
  if (!found) throw new Error(`no field "${label}"`)
  return found.get('input, select')
}
const button = (wrapper: VueWrapper, text: string) => {
  const found = wrapper.findAll('button').find((one) => one.text().startsWith(text))
  if (!found) throw new Error(`no button "${text}"`)
  return found
}

describe('BriefForm', () => {
  it('tells each choice', async () => {
    const form = show('BriefForm.vue')
    await choice(form, 'Fly').setValue('midge')
    await choice(form, 'Hook').setValue('22')
    await choice(form, 'Water').setValue('flat')
    await choice(form, 'Fish are').setValue('pressured')
    await choice(form, 'Wind').setValue('strong')
    expect(form.emitted('fly')?.flat()).toEqual([
      { fly: { style: 'midge', hook: 14 } },
      { fly: { style: 'parachute', hook: 22 } },
    ])
    expect(form.emitted('conditions')?.flat()).toEqual([
      { water: 'flat' },
      { wariness: 'pressured' },
      { wind: 'strong' },
    ])
  })

  it('a line of another weight is written in the trade’s way', async () => {
    const form = show('BriefForm.vue')
    await choice(form, 'Line').setValue('4')
    expect(form.emitted('outfit')?.[0]?.[0]).toMatchObject({
      line: { designation: 'WF4F', weight: 4 },
    })
  })

  it('offers the flies of the box', async () => {
    const own = { id: 'x', name: 'Small dark', fly: { fly: { style: 'midge', hook: 24 } } }
    const form = show('BriefForm.vue', { flies: [own] })
    await choice(form, 'Fly').setValue('own:x')
    expect(form.emitted('fly')?.[0]).toEqual([own.fly])
  })
})

describe('FlyPanel', () => {
  it('takes a timed drop, and refuses one faster than a stone', async () => {
    const panel = show('FlyPanel.vue')
    const [height, drop] = [
      panel.get('input[aria-label="Height of the drop"]'),
      panel
        .findAll('label')
        .filter((l) => l.text().startsWith('in seconds'))[0]!
        .get('input'),
    ]
    await height.setValue('2 m')
    await height.trigger('blur')
    await drop.setValue('0.3')
    await button(panel, 'Take the drop').trigger('click')
    expect(panel.get('[role=alert]').text()).toContain('longer than a stone takes')
    await drop.setValue('0.9')
    await button(panel, 'Take the drop').trigger('click')
    const [fly] = panel.emitted('set')?.at(-1) as [{ fly: { dragArea_m2: number } }]
    expect(fly.fly.dragArea_m2).toBeGreaterThan(1e-6)
    expect(panel.get('[role=alert]').text()).toBe('')
  })

  it('names a bead, and takes it off', async () => {
    const panel = show('FlyPanel.vue')
    await choice(panel, 'Bead').setValue('tungsten')
    expect(panel.emitted('set')?.[0]?.[0]).toMatchObject({ fly: { bead: { metal: 'tungsten' } } })
    await choice(panel, 'Bead').setValue('')
    expect(panel.emitted('set')?.[1]).toEqual([{ fly: { style: 'parachute', hook: 14 } }])
  })

  it('puts the fly in the box under a name, its own where none is given', async () => {
    const panel = show('FlyPanel.vue')
    await panel.get('form').trigger('submit')
    expect(panel.emitted('put')?.[0]?.[0]).toBe('Parachute dry 14')
  })
})

describe('OutfitPanel', () => {
  it.each([
    [4, 'heavier than the rod'],
    [6, 'lighter than the rod'],
    [5, 'Of the rod’s class'],
  ])('a 5-weight line on a %i-weight rod: %s', (rodClass, words) => {
    const { outfit } = fixtures['OutfitPanel.vue']!.props as { outfit: object }
    expect(show('OutfitPanel.vue', { outfit: { ...outfit, rodClass } }).text()).toContain(words)
  })

  it('changes taper, density and sink class', async () => {
    const panel = show('OutfitPanel.vue')
    await choice(panel, 'Taper').setValue('DT')
    await choice(panel, 'Density').setValue('S')
    const [dt, sinking] = (panel.emitted('outfit') ?? []).flat() as {
      line: { designation: string }
    }[]
    expect([dt?.line.designation, sinking?.line.designation]).toEqual(['DT5F', 'WF5S'])
  })
})

describe('LineShapePanel', () => {
  it('puts a measured taper in place of the usual one, and takes it back', async () => {
    const panel = show('LineShapePanel.vue')
    const field = panel.get('input[aria-label="Front taper of the line, measured"]')
    await field.setValue('3 m')
    await field.trigger('blur')
    const [patch] = panel.emitted('outfit')?.at(-1) as [{ line: { shape: object } }]
    expect(patch.line.shape).toEqual({ frontTaper_m: 3 })
    await panel.setProps({
      outfit: { ...fixtures['LineShapePanel.vue']!.props!['outfit']!, ...patch },
    })
    await field.setValue('')
    await field.trigger('blur')
    const [bare] = panel.emitted('outfit')?.at(-1) as [{ line: { shape?: object } }]
    expect(bare.line.shape).toBeUndefined()
  })
})

describe('ReelPanel', () => {
  const line = fixtures['ReelPanel.vue']!.props!['line']
  it('computes from what is written on the reel', () => {
    const reel = { backing: 'braid-20', holdsLine: 'WF6F', holdsBacking: '80 m' }
    const panel = show('ReelPanel.vue', { reel, line })
    expect(panel.text()).toContain('Backing that fits')
    expect(panel.text()).not.toContain('A turn takes in')
  })

  it('says what is wrong or wanting', () => {
    expect(show('ReelPanel.vue', { reel: { backing: 'braid-20' } }).text()).toContain(
      'Nothing is computed yet',
    )
    const inside = { backing: 'braid-20', arbor: q('9 cm'), width: q('2 cm'), rim: q('8 cm') }
    expect(show('ReelPanel.vue', { reel: inside }).get('[role=alert]').text()).toContain(
      'wider than the rim',
    )
    const short = { backing: 'braid-20', holdsBacking: 'some' }
    expect(show('ReelPanel.vue', { reel: short }).get('[role=alert]').text()).toContain(
      '80 m or 100 yd',
    )
    const odd = { backing: 'braid-20', holdsLine: 'six' }
    expect(show('ReelPanel.vue', { reel: odd }).get('[role=alert]').text()).toContain(
      'such as WF5F',
    )
  })
})

describe('the place', () => {
  it('follows each choice at once', async () => {
    const view = show('View.vue')
    await flushPromises()
    const tippet = () => view.get('button[aria-label^="Tippet: "]').attributes('aria-label')
    expect(tippet()).toBe('Tippet: 5X')
    await choice(view, 'Hook').setValue('12')
    expect(tippet()).toBe('Tippet: 4X')
    await choice(view, 'Wind').setValue('strong')
    expect(tippet()).toBe('Tippet: 3X')
    expect(view.text()).toContain('shorter first, then one size stouter')
  })
})
