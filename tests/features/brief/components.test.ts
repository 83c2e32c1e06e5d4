import { afterEach, describe, expect, it } from 'vitest'
import type { VueWrapper } from '@vue/test-utils'
import { flushPromises } from '@vue/test-utils'
import type { Advice } from '../../../src/engine/advice'
import type { Judgement } from '../../../src/engine/delivery'
import type { Chosen } from '../../../src/features/brief/chosen'
import { chosenOf } from '../../../src/engine/advice'
import { smallerHooks } from '../../../src/features/brief/words'
import { adviceFor } from '../../engine/advice/briefs'
import { q } from '../../engine/build'
import { judgedAs } from '../../engine/delivery/made'
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

/** The leaders of an advice thrown: each comes over in such a share of casts, or is still in the air. */
function chosenWith(advice: Advice, ...rooms: (number | undefined)[]): Chosen {
  const judged = advice.tries.map((_, i): Judgement => {
    const room = rooms[i]
    return room === undefined
      ? { kind: 'checking' }
      : judgedAs(stateOf(room), room, room < 0.5 ? null : 8)
  })
  const choice = chosenOf(advice.tries, judged)
  const judgement = judged[choice.taken]!
  return { choice, made: advice.tries[choice.taken]!, judgement, plain: judgedAs('easily', 0.9, 6) }
}
const stateOf = (room: number) =>
  room >= 0.6 ? 'surely enough' : room >= 0.3 ? 'only just' : 'falls short'

const bushy = adviceFor({ fly: { style: 'bushy', hook: 10 } })
const inVain = bushy.tries.map(() => 0.1)

describe('AdvicePanel', () => {
  const shown = (chosen: Chosen) => show('AdvicePanel.vue', { advice: bushy, chosen })

  it('says how the leader goes over, why it is taken, and what it costs against a plain one', () => {
    const text = shown(chosenWith(bushy, 0.7)).text()
    expect(text).toContain('Goes over surely enough')
    expect(text).toContain('Thrown by this caster, 70 of 100 casts come over')
    expect(text).toContain('It asks for more power than a plain 9.0 ft 3X: 8 m/s against 6 m/s.')
    expect(text).not.toContain('Thrown so far')
  })

  it('does not compare a plain leader with itself', () => {
    const plain = adviceFor()
    const panel = show('AdvicePanel.vue', { advice: plain, chosen: chosenWith(plain, 0.7) })
    expect(panel.text()).toContain('Goes over surely enough')
    expect(panel.text()).not.toContain('power than a plain')
  })

  it('while others are thrown it says so, and claims nothing yet', () => {
    const text = shown(chosenWith(bushy, 0.2)).text()
    expect(text).toContain(`Thrown so far: 1 of ${bushy.tries.length}`)
    expect(text).not.toContain('come over;')
    expect(shown(chosenWith(bushy)).text()).toContain('Checking')
  })

  it('names what was changed for the sake of the cast', () => {
    const text = shown(chosenWith(bushy, 0.2, 0.7)).text()
    expect(text).toMatch(/rules have it, 20 of 100 casts come over; with .* of tippet instead of/)
  })

  it('is not headed as something to tie on where nothing goes over', () => {
    const text = shown(chosenWith(bushy, ...inVain)).text()
    expect(text).toContain('The best that practice has')
    expect(text).not.toContain('What to tie on')
  })
})

describe('MadeLeader', () => {
  it('says its pieces in the units of the page, whatever the formula is written in', () => {
    // Made from a leader that is written in centimetres and millimetres.
    const { tries } = adviceFor({ fly: { hook: 12 } })
    expect(tries[0]!.leader.segments[0]!.length.unit).toBe('cm')
    const rows = show('MadeLeader.vue', { made: tries[0] }).findAll('tbody tr')
    const texts = rows.map((row) => row.text())
    expect(texts.filter((text) => /cm|mm/.test(text))).toEqual([])
    expect(texts.at(-1)).toContain('4X')
  })
})

describe('SmallerFly', () => {
  const smaller = (hook: number, ...rooms: (number | undefined)[]) => {
    const advice = adviceFor({ fly: { style: 'bushy', hook } })
    return { hook, chosen: chosenWith(advice, ...rooms) }
  }

  it('offers only what was thrown and comes over', async () => {
    const none = smaller(
      12,
      ...adviceFor({ fly: { style: 'bushy', hook: 12 } }).tries.map(() => 0.1),
    )
    const fly = show('SmallerFly.vue', { smaller: [none, smaller(14, 0.7)] })
    expect(fly.findAll('button').map((one) => one.text())).toEqual(['A size 14 instead'])
    expect(fly.text()).toContain('Goes over surely enough: 70 of 100 casts')
    await button(fly, 'A size 14').trigger('click')
    expect(fly.emitted('take')).toEqual([[14]])
  })

  it('offers nothing that is still in the air', () => {
    const fly = show('SmallerFly.vue', { smaller: [smaller(12, 0.1), smaller(14)] })
    expect(fly.findAll('button')).toHaveLength(0)
    expect(fly.text()).toContain('being thrown')
  })

  it('says where no smaller one does either', () => {
    const { tries } = adviceFor({ fly: { style: 'bushy', hook: 12 } })
    const fly = show('SmallerFly.vue', { smaller: [smaller(12, ...tries.map(() => 0.1))] })
    expect(fly.text()).toContain('Nor does a size 12 of it.')
  })
})

describe('hooks that are smaller', () => {
  it.each([
    [10, [12, 14]],
    [-2, [-1, 0]],
    [3, [4, 6]],
    [24, [26]],
    [26, []],
  ])('than a %i, as they are sold', (hook, smaller) => {
    expect(smallerHooks(hook)).toEqual(smaller)
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
