import { expect, test } from '@playwright/test'
import { killTabs } from '../support/kill-tab.mjs'

test('a tab killed in the middle of writing, 50 times, loses nothing and leaves nothing half-written', async () => {
  test.setTimeout(300_000)
  const { faults, writes, acknowledged } = await killTabs(50)
  expect(faults).toEqual([])
  // The deaths must come while there is something to lose.
  expect(writes).toBeGreaterThan(100)
  expect(acknowledged).toBeGreaterThan(50)
})
