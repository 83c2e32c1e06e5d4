import type { Page } from '@playwright/test'
import { expectAccessible } from '../support/axe'
import { expectSaved, formulaName, reload } from '../support/bench-page'
import { expect, test } from '../support/watched'

const PHONE = { width: 390, height: 844 }
const left = (page: Page) => page.locator('.state .left')
const press = (page: Page, name: string) => page.getByRole('button', { name, exact: true }).click()

async function startOnWater(page: Page): Promise<void> {
  await page.setViewportSize(PHONE)
  await page.goto('./#water')
  await page.getByRole('button', { name: /^Start with Middle Sallow/ }).click()
  await expect(left(page)).toContainText('26 in')
}

test('the tippet keeper works on a phone with the network gone, and keeps what it was told', async ({
  page,
  context,
}) => {
  await startOnWater(page)
  await page.waitForLoadState('networkidle')
  await context.setOffline(true)

  for (const inches of [23, 20, 17, 14]) {
    await press(page, 'Changed fly')
    await expect(left(page)).toContainText(`${inches} in`)
  }
  await expect(page.getByText('Too short: below 18 in.')).toBeVisible()
  await expect(page.getByText(/Tie on 12 in of 5X .* by/)).toBeVisible()
  await expect(page.getByText(/holds .* wet at its weakest place\./)).toBeVisible()
  await expect(page.getByText(/^With it: /)).toBeVisible()
  await press(page, 'Done: tied on')
  await expect(left(page)).toContainText('26 in')
  await press(page, 'Undo the last')
  await expect(left(page)).toContainText('14 in')

  // Three breaks more and the end is in the taper.
  for (let i = 0; i < 3; i++) await press(page, 'Broke off')
  await expect(
    page.getByText(/The tippet is gone: the end is in the taper and is now/),
  ).toBeVisible()
  await expect(page.getByText(/^With it: /)).toBeVisible()
  await press(page, 'Done: tied on')
  await expect(page.getByText(/Good for/)).toBeVisible()
  await press(page, 'Changed fly')
  const kept = (await left(page).textContent()) ?? ''

  await context.setOffline(false)
  await reload(page)
  await expect(left(page)).toHaveText(kept)
})

test('its buttons are under the thumb and large, and nothing scrolls sideways', async ({
  page,
}) => {
  await startOnWater(page)
  for (const name of ['Changed fly', 'Broke off', 'New tippet']) {
    const box = await page.getByRole('button', { name, exact: true }).boundingBox()
    expect(box?.height, name).toBeGreaterThanOrEqual(56)
    expect(box?.width, name).toBeGreaterThanOrEqual(90)
    // In the lower half, where the thumb is.
    expect(box?.y, name).toBeGreaterThan(PHONE.height / 2)
  }
  await page.getByText('More', { exact: true }).click()
  const room = await page.evaluate(() => document.documentElement.scrollWidth - window.innerWidth)
  expect(room).toBeLessThanOrEqual(0)
})

test('what is in use can be laid on the bench as it is now', async ({ page }) => {
  await startOnWater(page)
  await press(page, 'Changed fly')
  await page.getByText('More', { exact: true }).click()
  await press(page, 'Lay it on the bench as it is now')
  await expect(formulaName(page)).toHaveValue(/in use/)
  await expectSaved(page)
  await expect(page.getByRole('textbox', { name: 'Length of piece 7' })).toHaveValue('23 in')
})

test('an old leader is rebuilt from what is left in the hand', async ({ page }) => {
  await page.setViewportSize(PHONE)
  await page.goto('./#water')
  await page.getByRole('button', { name: 'Rebuild it from what is left in my hand' }).click()
  await expect(page.getByText(/Piece 1: keep old piece 1/)).toBeVisible()
  const old = page.getByRole('textbox', { name: 'Length of old piece 1' })
  await old.fill('40 in')
  await old.press('Enter')
  await expect(page.getByText(/keep old piece 1, 36 in; cut 4 in off/)).toBeVisible()
  await expect(page.getByText(/Piece 2: tie in \d+ in/)).toBeVisible()
  await expectAccessible(page)
  await page.getByRole('button', { name: 'Done: take it to the water' }).click()
  await expect(left(page)).toContainText('26 in')
})

for (const size of [{ width: 1280, height: 800 }, PHONE]) {
  test(`on the water is accessible at ${size.width} px, at the start and in use`, async ({
    page,
  }) => {
    await startOnWater(page)
    await page.setViewportSize(size)
    for (let i = 0; i < 3; i++) await press(page, 'Broke off')
    await page.getByText('More', { exact: true }).click()
    await expectAccessible(page)
    await press(page, 'Another leader')
    await expectAccessible(page)
  })
}
