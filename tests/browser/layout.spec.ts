import type { Page } from '@playwright/test'
import { expectAccessible } from '../support/axe'
import {
  diameter,
  findings,
  formulaName,
  length,
  openBench,
  openLibrary,
  typeInto,
  viewPanel,
} from '../support/bench-page'
import { SHIPPED } from '../support/formulas'
import { expect, test } from '../support/watched'

const SIZES = [
  { width: 1440, height: 900 },
  { width: 390, height: 844 },
] as const

const sizeOf = (page: Page) =>
  page.evaluate(() => {
    const { scrollWidth, scrollHeight } = document.scrollingElement!
    return { scrollWidth, scrollHeight }
  })

/** A dialog is fetched when it is first opened. */
async function openDialog(page: Page, button: string) {
  await page.getByRole('button', { name: button, exact: true }).click()
  await expect(page.getByRole('dialog')).toBeVisible()
}

async function closeDialog(page: Page) {
  await page.keyboard.press('Escape')
  await expect(page.getByRole('dialog')).toBeHidden()
}

const DIALOGS = ['Help', 'Limits', 'All figures', 'More about piece 3']

for (const viewport of SIZES) {
  test.describe(`at ${viewport.width} × ${viewport.height}`, () => {
    test.use({ viewport })
    test.beforeEach(({ page }) => openBench(page))

    test('the bench with findings and a notice is accessible', async ({ page }) => {
      await typeInto(length(page, 4), '0.5 in')
      await expect(findings(page).getByRole('listitem').first()).toBeVisible()
      await expectAccessible(page)
    })

    test('a field that asks back is accessible', async ({ page }) => {
      await typeInto(diameter(page, 7), '6')
      await expect(page.getByRole('alert').filter({ hasText: 'mean here?' })).toBeVisible()
      await expectAccessible(page)
    })

    test('the formulas, with some chosen and a file refused, are accessible', async ({ page }) => {
      await openLibrary(page)
      await page.getByRole('checkbox').first().check()
      await page.getByLabel('Formula files to import').setInputFiles({
        name: 'torn.json',
        mimeType: 'application/json',
        buffer: Buffer.from('{'),
      })
      await expect(page.getByRole('alert')).toContainText('torn.json')
      await expectAccessible(page)
    })

    for (const dialog of DIALOGS) {
      test(`the dialog of "${dialog}" is accessible and fits`, async ({ page }) => {
        await openDialog(page, dialog)
        await expectAccessible(page)
        const box = await page.getByRole('dialog').boundingBox()
        expect(box?.x).toBeGreaterThanOrEqual(0)
        expect((box?.x ?? 0) + (box?.width ?? Infinity)).toBeLessThanOrEqual(viewport.width)
        await closeDialog(page)
      })
    }

    test('the menu of units and look is accessible and in sight', async ({ page }) => {
      await page.getByRole('button', { name: 'View' }).click()
      await expect(viewPanel(page)).toBeInViewport({ ratio: 1 })
      await expectAccessible(page)
    })

    test('nothing is wider than the page', async ({ page }) => {
      await typeInto(length(page, 4), '0.5 in')
      expect((await sizeOf(page)).scrollWidth).toBeLessThanOrEqual(viewport.width)
      await openLibrary(page)
      expect((await sizeOf(page)).scrollWidth).toBeLessThanOrEqual(viewport.width)
    })
  })
}

test.describe('every shipped formula at 1440 × 900', () => {
  test.use({ viewport: SIZES[0] })

  test('stands on one screen, drawing, charts and the first finding in sight', async ({ page }) => {
    await openBench(page)
    for (const { text } of SHIPPED) {
      const { name } = JSON.parse(text) as { name: string }
      await openLibrary(page)
      await page.getByRole('searchbox').fill(name)
      await page.locator('.list button').filter({ hasText: name }).first().click()
      await expect(formulaName(page)).toHaveValue(name)
      expect((await sizeOf(page)).scrollHeight, name).toBeLessThanOrEqual(900)
      expect((await sizeOf(page)).scrollWidth, name).toBeLessThanOrEqual(1440)
      await expect(page.locator('figure canvas').last(), name).toBeInViewport({ ratio: 1 })
      await expect(page.locator('.findings .scroll > :visible').first(), name).toBeInViewport()
    }
  })
})

test.describe('every shipped formula at 390 × 844', () => {
  test.use({ viewport: SIZES[1] })

  test('scrolls down but never sideways', async ({ page }) => {
    await openBench(page)
    for (const { text } of SHIPPED) {
      const { name } = JSON.parse(text) as { name: string }
      await openLibrary(page)
      await page.getByRole('searchbox').fill(name)
      await page.locator('.list button').filter({ hasText: name }).first().click()
      await expect(formulaName(page)).toHaveValue(name)
      expect((await sizeOf(page)).scrollWidth, name).toBeLessThanOrEqual(390)
    }
  })
})
