import { afterEach, describe, expect, it } from 'vitest'
import type { VueWrapper } from '@vue/test-utils'
import { flushPromises } from '@vue/test-utils'
import { useStatus } from '../../../src/engine/advice'
import { soundLeader } from '../../engine/build'
import { stand } from '../../support/fixture'
import { fixtures, usual } from './fixtures'

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

const button = (wrapper: VueWrapper, text: string) => {
  const found = wrapper.findAll('button').find((one) => one.text().startsWith(text))
  if (!found) throw new Error(`no button "${text}"`)
  return found
}

describe('Keeper', () => {
  it('tells each thumb press', async () => {
    const keeper = show('Keeper.vue')
    await button(keeper, 'Changed fly').trigger('click')
    await button(keeper, 'Broke off').trigger('click')
    await button(keeper, 'New tippet').trigger('click')
    expect(keeper.emitted('changed')).toHaveLength(1)
    expect(keeper.emitted('broke')).toHaveLength(1)
    expect(keeper.emitted('add')?.[0]?.[1]).toBe(true)
    expect(button(keeper, 'Undo').attributes('disabled')).toBeDefined()
  })

  it('too short, it says what to add and does it at a press', async () => {
    const events = [{ kind: 'break' as const, lost_m: 0.3 }]
    const status = useStatus(soundLeader(), events)
    const { inUse } = fixtures['Keeper.vue']!.props as { inUse: object }
    const keeper = show('Keeper.vue', { status, inUse: { ...inUse, events } })
    expect(keeper.get('[role=status]').text()).toContain('Too short')
    expect(keeper.text()).toContain('Tie on')
    expect(keeper.text()).toContain('holds')
    await button(keeper, 'Done: tied on').trigger('click')
    expect(keeper.emitted('add')?.[0]).toEqual([status.advice!.pieces, false])
  })

  it('in the taper it says what size the end is', () => {
    const status = useStatus(soundLeader(), [{ kind: 'break', lost_m: 0.85 }])
    const keeper = show('Keeper.vue', { status })
    expect(keeper.get('[role=status]').text()).toContain('now 1X (.010 in)')
  })
})

describe('AddTippet', () => {
  it('adds what was tied on', async () => {
    const panel = show('AddTippet.vue')
    await panel.findAll('select')[1]!.setValue('blood')
    await button(panel, 'Added this').trigger('click')
    expect(panel.emitted('add')?.[0]).toEqual([{ ...usual, knot: 'blood' }])
  })
})

describe('RebuildPanel', () => {
  it('follows what is in the hand and the spools, and starts with the result', async () => {
    const panel = show('RebuildPanel.vue')
    expect(panel.text()).toContain('keep old piece 1')
    await button(panel, 'Another piece').trigger('click')
    expect(panel.text()).toContain('Old piece 2')
    await button(panel, 'Done').trigger('click')
    const [leader] = panel.emitted('start')?.[0] as [{ statedTotal?: unknown }]
    expect(leader.statedTotal).toBeUndefined()
  })
})

describe('the place', () => {
  it('starts with the leader on the bench, keeps it, and undoes', async () => {
    const view = show('View.vue')
    await flushPromises()
    await button(view, 'Start with').trigger('click')
    const status = () => view.get('.state').text()
    expect(status()).toContain('26 in')
    await button(view, 'Changed fly').trigger('click')
    expect(status()).toContain('23 in')
    await button(view, 'Undo').trigger('click')
    expect(status()).toContain('26 in')
    await button(view, 'Another leader').trigger('click')
    expect(view.text()).toContain('Take a leader to the water')
  })
})
