import { expectAccessible } from '../support/axe'
import { expect, test } from '../support/watched'

test('the built page opens and shows its name', async ({ page }) => {
  await page.goto('./')
  await expect(page).toHaveTitle(/Taperwright/)
  await expect(page.getByRole('heading', { level: 1 })).toBeVisible()
})

test('the first screen is accessible in light and dark', async ({ page }) => {
  await page.goto('./')
  await expect(page.locator('#app > *').first()).toBeVisible()
  await expectAccessible(page)
})
