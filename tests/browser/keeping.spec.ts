import type { Page } from '@playwright/test'
import {
  choose,
  diameter,
  expectSaved,
  findings,
  formulaName,
  length,
  openBench,
  openLibrary,
  reload,
  typeInto,
} from '../support/bench-page'
import { expect, test } from '../support/watched'

const own = (page: Page) => page.getByRole('button', { name: /Middle Sallow riffles.*mine/ })

/** A tab beside one whose first piece is .022 in: another page begins with a shipped formula, and then opens that one. */
async function anotherTab(page: Page): Promise<Page> {
  const other = await page.context().newPage()
  await other.goto('./')
  await expect(diameter(other, 1)).toHaveValue('.022 in')
  return other
}

test('two tabs change one formula: both texts survive, and the second is told', async ({
  page,
}) => {
  await openBench(page)
  await typeInto(diameter(page, 1), '.022 in')
  await expectSaved(page)
  const other = await anotherTab(page)

  // Both change it before either hears of the other: news between tabs is held back.
  await other.evaluate(() => {
    BroadcastChannel.prototype.postMessage = () => undefined
  })
  await typeInto(diameter(other, 1), '.023 in')
  await expectSaved(other)
  await typeInto(diameter(page, 2), '.018 in')
  const told = page.getByRole('alert').filter({ hasText: 'Another tab has saved this formula too' })
  await expect(told).toBeVisible()
  await told.getByRole('button', { name: 'Keep mine as well' }).click()
  await expect(told).toBeHidden()
  await expect(diameter(page, 1)).toHaveValue('.022 in')
  await expect(diameter(page, 2)).toHaveValue('.018 in')

  await page.reload()
  await openLibrary(page)
  await page.getByRole('searchbox').fill('riffles mine')
  await expect(own(page)).toHaveCount(2)
  const seen = new Set<string>()
  for (const i of [0, 1]) {
    await own(page).nth(i).click()
    seen.add(`${await diameter(page, 1).inputValue()}, ${await diameter(page, 2).inputValue()}`)
    await openLibrary(page)
    await page.getByRole('searchbox').fill('riffles mine')
  }
  expect([...seen].sort()).toEqual(['.022 in, .018 in', '.023 in, .019 in'])
})

test('of two tabs the other’s text can be taken, and ours is still under Undo', async ({
  page,
}) => {
  await openBench(page)
  await typeInto(diameter(page, 1), '.022 in')
  await expectSaved(page)
  const other = await anotherTab(page)
  await other.evaluate(() => {
    BroadcastChannel.prototype.postMessage = () => undefined
  })
  await typeInto(diameter(other, 1), '.023 in')
  await expectSaved(other)
  await typeInto(diameter(page, 2), '.018 in')
  await page.getByRole('button', { name: 'Take the other' }).click()
  await expect(diameter(page, 1)).toHaveValue('.023 in')
  await expect(diameter(page, 2)).toHaveValue('.019 in')
  await page.getByRole('button', { name: 'Undo' }).click()
  await expect(diameter(page, 2)).toHaveValue('.018 in')
})

test('a change in another tab is shown here, and said', async ({ page }) => {
  await openBench(page)
  await typeInto(diameter(page, 1), '.022 in')
  await expectSaved(page)
  const other = await anotherTab(page)
  await typeInto(diameter(other, 1), '.023 in')
  await expect(diameter(page, 1)).toHaveValue('.023 in')
  await expect(page.getByText('Another tab changed this formula.')).toBeVisible()
})

/** Counts the writes that the app has begun. */
async function countWrites(page: Page): Promise<() => Promise<number>> {
  await page.addInitScript(() => {
    const { value: begin } = Object.getOwnPropertyDescriptor(
      IDBDatabase.prototype,
      'transaction',
    ) as { value: IDBDatabase['transaction'] }
    const counts = { writes: 0 }
    IDBDatabase.prototype.transaction = function (stores, mode, options) {
      if (mode === 'readwrite' && [stores].flat().includes('items')) counts.writes++
      return begin.call(this, stores, mode, options)
    }
    Object.assign(window, { counts })
  })
  return () =>
    page.evaluate(() => (window as unknown as { counts: { writes: number } }).counts.writes)
}

/** Keeps the disk busy for all that is begun from now on; gives back the way to let it through. */
async function holdDisk(page: Page): Promise<() => Promise<void>> {
  const free = await page.evaluateHandle(async () => {
    const db = await new Promise<IDBDatabase>((resolve) => {
      const opening = indexedDB.open('taperwright')
      opening.onsuccess = () => resolve(opening.result)
    })
    // Every write counts its revision there; reading back what was written does not.
    const settings = db.transaction('settings', 'readwrite').objectStore('settings')
    let isHeld = true
    const stay = () => {
      if (isHeld) settings.get('revision').onsuccess = stay
      else db.close()
    }
    stay()
    return () => void (isHeld = false)
  })
  return () => free.evaluate((go) => go())
}

test('nothing is said to be saved while a newer change waits for the disk', async ({ page }) => {
  const writes = await countWrites(page)
  await openBench(page)
  await typeInto(diameter(page, 1), '.022 in')
  await typeInto(diameter(page, 2), '.0185 in')
  await expectSaved(page)

  const [before, letUndo] = [await writes(), await holdDisk(page)]
  await page.getByRole('button', { name: 'Undo' }).click()
  await expect(diameter(page, 2)).toHaveValue('.019 in')
  await expect.poll(writes).toBe(before + 1)
  const letRedo = await holdDisk(page)
  await page.getByRole('button', { name: 'Redo' }).click()
  await expect(diameter(page, 2)).toHaveValue('.0185 in')
  await letUndo()
  // What was undone is on the disk and read back, and what was redone waits before it.
  await expect.poll(writes).toBe(before + 2)
  await expect(page.getByText('Saving', { exact: true })).toBeVisible()
  await expect(page.getByText('Saved here')).toHaveCount(0)

  await letRedo()
  await expectSaved(page)
  await page.reload()
  await expect(diameter(page, 1)).toHaveValue('.022 in')
  await expect(diameter(page, 2)).toHaveValue('.0185 in')
})

const shortTippet = (page: Page) =>
  findings(page).getByRole('listitem').filter({ hasText: 'Short tippet' })

test('an own limit changes what is found, says whose it is, and stays', async ({ page }) => {
  await openBench(page)
  await expect(shortTippet(page)).toHaveCount(0)
  await findings(page).getByRole('button', { name: 'Limits' }).click()
  await typeInto(page.getByRole('dialog').getByLabel('Shortest tippet'), '30 in')
  await expect(page.getByRole('dialog').getByText('your own limit', { exact: true })).toBeVisible()
  await page.keyboard.press('Escape')
  await expect(shortTippet(page)).toContainText('30 in')
  await shortTippet(page).getByText('Source', { exact: true }).click()
  await expect(shortTippet(page)).toContainText(/your own limit/i)
  await reload(page)
  await expect(shortTippet(page)).toBeVisible()
  await findings(page).getByRole('button', { name: 'Limits' }).click()
  await page.getByRole('dialog').getByRole('button', { name: 'Back to usual' }).click()
  await page.keyboard.press('Escape')
  await expect(shortTippet(page)).toHaveCount(0)
})

test('what was chosen under View stays after a reload', async ({ page }) => {
  await openBench(page)
  await choose(page, 'Look', 'dark')
  await choose(page, 'Lengths', 'cm')
  await expect(length(page, 1)).toHaveValue('91.4 cm')
  await reload(page)
  await expect(length(page, 1)).toHaveValue('91.4 cm')
  await expect(page.locator('html')).toHaveAttribute('data-theme', 'dark')
})

test('without storage the bench works and says that nothing is kept', async ({ page }) => {
  await page.addInitScript(() => {
    IDBFactory.prototype.open = () => {
      throw new DOMException('refused', 'SecurityError')
    }
  })
  await openBench(page)
  await expect(page.getByRole('alert').first()).toContainText('This browser keeps nothing')
  await typeInto(diameter(page, 1), '.022 in')
  await expect(page.getByText('Not kept: export it')).toBeVisible()
  await expect(formulaName(page)).toHaveValue(/mine/)
  await openLibrary(page)
  await expect(own(page)).toBeVisible()
  const download = page.waitForEvent('download')
  await page.getByRole('button', { name: 'Export all own' }).click()
  expect((await download).suggestedFilename()).toMatch(/\.json$/)
})
