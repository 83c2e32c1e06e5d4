// @vitest-environment node
import 'fake-indexeddb/auto'
import { IDBFactory } from 'fake-indexeddb'
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest'
import { settingsFrom } from '../../src/stores/settingsFields'
import { closeTabs, openTab, openTabWithoutStorage } from './tab'

beforeEach(() => {
  vi.stubGlobal('indexedDB', new IDBFactory())
})

afterEach(async () => {
  vi.restoreAllMocks()
  await closeTabs()
  vi.unstubAllGlobals()
})

const OURS = settingsFrom(undefined)

describe('reading settings', () => {
  it.each([undefined, null, 'text', 7, []])('takes ours where the record is %j', (record) => {
    expect(settingsFrom(record)).toEqual({
      diameterUnit: 'typed',
      lengthUnit: 'typed',
      forceUnit: 'lb',
      speedUnit: 'm/s',
      yardstick: undefined,
      theme: 'auto',
      limits: {},
      lastOpened: undefined,
      linkBase: undefined,
      paper: 'a4',
      backedUpAt: undefined,
      backedUpRevision: 0,
      knowsDelivery: false,
    })
  })

  it('lets a damaged field take no other with it', () => {
    const limits = { stepSize: 1e-4, rodsHigh: 'two', tippetLongest: -1, unknown: 3 }
    const record = {
      diameterUnit: 'furlong',
      lengthUnit: 'cm',
      yardstick: 5,
      limits,
      lastOpened: 7,
    }
    expect(settingsFrom(record)).toEqual({ ...OURS, lengthUnit: 'cm', limits: { stepSize: 1e-4 } })
  })
})

describe('settings', () => {
  it('are there again after a reload', async () => {
    const { settings, storage } = await openTab()
    settings.change({ theme: 'dark', diameterUnit: 'mm' })
    settings.setLimit('stepSize', 1e-4)
    expect(settings.isWriting).toBe(true)
    await vi.waitFor(() => expect(settings.isWriting).toBe(false))
    expect(await storage.readSettings()).toMatchObject({ limits: { stepSize: 1e-4 } })
    const later = (await openTab()).settings
    expect(later.theme).toBe('dark')
    expect(later.diameterUnit).toBe('mm')
    expect(later.limits).toEqual({ stepSize: 1e-4 })
  })

  it('put our limit back', async () => {
    const { settings } = await openTab()
    settings.setLimit('stepSize', 1e-4)
    settings.setLimit('rodsHigh', 3)
    settings.setLimit('stepSize', undefined)
    expect(settings.limits).toEqual({ rodsHigh: 3 })
  })

  it('follow another tab', async () => {
    const [one, two] = [await openTab(), await openTab()]
    one.settings.change({ forceUnit: 'kg' })
    await vi.waitFor(() => expect(two.settings.forceUnit).toBe('kg'))
  })

  it('keep what a newer version has added', async () => {
    const { settings, storage } = await openTab()
    await storage.writeSettings(() => ({ tomorrow: 'kept' }))
    settings.change({ theme: 'dark' })
    await vi.waitFor(async () =>
      expect(await storage.readSettings()).toMatchObject({ tomorrow: 'kept', theme: 'dark' }),
    )
  })

  it('hold without storage, and say that they are not kept', async () => {
    const { settings } = await openTabWithoutStorage()
    settings.change({ theme: 'dark' })
    expect(settings.theme).toBe('dark')
    expect(settings.storageProblem).toContain('keeps nothing')
    await vi.waitFor(() => expect(settings.isWriting).toBe(false))
  })
})
