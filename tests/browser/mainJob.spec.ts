import { readFile } from 'node:fs/promises'
import type { Page } from '@playwright/test'
import { goTo } from '../support/bench-page'
import { expect, test } from '../support/watched'

const cell = (page: Page, name: string) => page.getByRole('textbox', { name, exact: true })
const findings = (page: Page) => page.getByRole('region', { name: 'Findings' })

test('the main job: a shipped formula is changed by keyboard, warned about, mended, kept, found, taken out and in', async ({
  page,
}) => {
  await page.goto('./')
  await expect(page.getByLabel('Name of the formula')).toHaveValue('Middle Sallow riffles 9 ft 5X')
  await expect(findings(page)).toContainText('Nothing wrong was found')

  // Three pieces by keyboard alone: type, Enter to go down, arrows to go across.
  await cell(page, 'Diameter of piece 3').focus()
  await page.keyboard.type('.016')
  await page.keyboard.press('Enter')
  await expect(cell(page, 'Diameter of piece 4')).toBeFocused()
  await page.keyboard.type('8 thou')
  await page.keyboard.press('Enter')
  await page.keyboard.press('ArrowRight')
  await expect(cell(page, 'Length of piece 5')).toBeFocused()
  await page.keyboard.type('9')
  await page.keyboard.press('Enter')
  await expect(cell(page, 'Diameter of piece 3')).toHaveValue('.016')
  await expect(cell(page, 'Diameter of piece 4')).toHaveValue('8 thou')
  await expect(page.getByLabel('Name of the formula')).toHaveValue(/mine/)

  // The step from .016 to .008 trips a warning; its remedy puts a piece in between.
  await expect(findings(page)).toContainText('Step too big for its place')
  await findings(page)
    .getByRole('button', { name: /^Put .* in between$/ })
    .first()
    .click()
  await expect(cell(page, 'Diameter of piece 8')).toBeVisible()
  const mended = await cell(page, 'Diameter of piece 4').inputValue()
  await page.getByRole('button', { name: 'Undo' }).click()
  await expect(cell(page, 'Diameter of piece 8')).toHaveCount(0)
  await page.getByRole('button', { name: 'Redo' }).click()
  await expect(cell(page, 'Diameter of piece 4')).toHaveValue(mended)
  await expect(page.getByText('Saved here')).toBeVisible()

  await page.reload()
  await expect(cell(page, 'Diameter of piece 4')).toHaveValue(mended)

  // Found again among the formulas, taken out as a file, removed, and brought back from the file.
  await goTo(page, 'Formulas')
  await page.getByLabel('Whose').selectOption('own')
  await page.getByRole('searchbox').fill('riffles mine')
  await expect(page.getByRole('status').filter({ hasText: 'of' })).toContainText(/^1 of/)
  await page.getByRole('checkbox').check()
  const download = page.waitForEvent('download')
  await page.getByRole('button', { name: 'Export', exact: true }).click()
  const file = await (await download).path()
  expect(JSON.parse(await readFile(file, 'utf8'))).toMatchObject({
    format: 'taperwright-leader',
    version: 1,
  })
  await page.getByRole('button', { name: 'Delete 1 own' }).click()
  await expect(page.getByText(/^0 of/)).toBeVisible()
  await page.getByLabel('Formula files to import').setInputFiles(file)
  await expect(page.getByText(/^1 of/)).toBeVisible()
  await page.getByRole('button', { name: /Middle Sallow riffles/ }).click()
  await expect(cell(page, 'Diameter of piece 4')).toHaveValue(mended)
  await expect(cell(page, 'Diameter of piece 3')).toHaveValue('.016')
})
