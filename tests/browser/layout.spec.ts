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
import { atEachSize, expect, onOnePage, SIZES } from '../support/watched'

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

atEachSize('the bench with findings and a notice', benchWithFindings, [
  ['is accessible', expectAccessible],
])

async function benchWithFindings(page: Page) {
  await openBench(page)
  await typeInto(length(page, 4), '0.5 in')
  await expect(findings(page).getByRole('listitem').first()).toBeVisible()
}

atEachSize(
  'a field that asks back',
  async (page) => {
    await openBench(page)
    await typeInto(diameter(page, 7), '6')
    await expect(page.getByRole('alert').filter({ hasText: 'mean here?' })).toBeVisible()
  },
  [['is accessible', expectAccessible]],
)

atEachSize(
  'the formulas, with some chosen and a file refused',
  async (page) => {
    await openBench(page)
    await openLibrary(page)
    await page.getByRole('checkbox').first().check()
    await page.getByLabel('Formula files to import').setInputFiles({
      name: 'torn.json',
      mimeType: 'application/json',
      buffer: Buffer.from('{'),
    })
    await expect(page.getByRole('alert')).toContainText('torn.json')
  },
  [['are accessible', expectAccessible]],
)

async function dialogFits(page: Page, dialog: string, width: number) {
  await openDialog(page, dialog)
  await expectAccessible(page)
  const box = await page.getByRole('dialog').boundingBox()
  expect(box?.x).toBeGreaterThanOrEqual(0)
  expect((box?.x ?? 0) + (box?.width ?? Infinity)).toBeLessThanOrEqual(width)
  await closeDialog(page)
}

atEachSize('over the bench', openBench, [
  ...DIALOGS.map(
    (dialog) =>
      [
        `the dialog of "${dialog}" is accessible and fits`,
        (page: Page, width: number) => dialogFits(page, dialog, width),
      ] as const,
  ),
  [
    'the menu of units and look is accessible and in sight',
    async (page) => {
      await page.getByRole('button', { name: 'View' }).click()
      await expect(viewPanel(page)).toBeInViewport({ ratio: 1 })
      await expectAccessible(page)
      await page.keyboard.press('Escape')
      await expect(viewPanel(page)).toBeHidden()
    },
  ],
])

atEachSize('the bench with findings, and the formulas', benchWithFindings, [
  [
    'are no wider than the page',
    async (page, width) => {
      // A page that was just resized has its charts drawn anew a frame or two later.
      const widthOf = async () => (await sizeOf(page)).scrollWidth
      await expect.poll(widthOf).toBeLessThanOrEqual(width)
      await openLibrary(page)
      await expect.poll(widthOf).toBeLessThanOrEqual(width)
      await page.goBack()
      await expect(findings(page)).toBeVisible()
    },
  ],
])

async function openEachFormula(page: Page, look: (name: string) => Promise<void>) {
  for (const { text } of SHIPPED) {
    const { name } = JSON.parse(text) as { name: string }
    await openLibrary(page)
    await page.getByRole('searchbox').fill(name)
    await page.locator('.list button').filter({ hasText: name }).first().click()
    await expect(formulaName(page)).toHaveValue(name)
    await look(name)
  }
}

onOnePage('every shipped formula', openBench, (test, page) => {
  test('at 1440 × 900 stands on one screen, drawing, charts and the first finding in sight', async () => {
    await page().setViewportSize(SIZES[0])
    await openEachFormula(page(), async (name) => {
      expect((await sizeOf(page())).scrollHeight, name).toBeLessThanOrEqual(900)
      expect((await sizeOf(page())).scrollWidth, name).toBeLessThanOrEqual(1440)
      await expect(page().locator('figure canvas').last(), name).toBeInViewport({ ratio: 1 })
      await expect(page().locator('.findings .scroll > :visible').first(), name).toBeInViewport()
    })
  })

  test('at 390 × 844 scrolls down but never sideways', async () => {
    await page().setViewportSize(SIZES[1])
    await openEachFormula(page(), async (name) => {
      await expect
        .poll(async () => (await sizeOf(page())).scrollWidth, { message: name })
        .toBeLessThanOrEqual(390)
    })
  })
})
