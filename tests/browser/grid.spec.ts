import type { Page } from '@playwright/test'
import {
  diameter,
  diameters,
  expectSaved,
  findings,
  length,
  lengths,
  notice,
  openBench,
  typeInto,
} from '../support/bench-page'
import { expect, test } from '../support/watched'

test.beforeEach(({ page }) => openBench(page))

const SIZES = ['.021 in', '.019 in', '.0165 in', '.0135 in', '.011 in', '.0085 in', '5X']

async function paste(page: Page, text: string) {
  await page.locator(':focus').evaluate((field, clip) => {
    const clipboardData = new DataTransfer()
    clipboardData.setData('text/plain', clip)
    field.dispatchEvent(
      new ClipboardEvent('paste', { clipboardData, bubbles: true, cancelable: true }),
    )
  }, text)
}

test('Enter, Shift Enter, arrows and Tab go from cell to cell', async ({ page }) => {
  const press = (key: string) => page.keyboard.press(key)
  await diameter(page, 2).focus()
  await press('Enter')
  await expect(diameter(page, 3)).toBeFocused()
  await press('Shift+Enter')
  await press('ArrowUp')
  await expect(diameter(page, 1)).toBeFocused()
  await press('ArrowDown')
  await press('ArrowRight')
  await expect(length(page, 2)).toBeFocused()
  await press('ArrowRight')
  await expect(page.getByLabel('Knot above piece 2')).toBeFocused()
  await press('Shift+Tab')
  await press('Shift+Tab')
  await expect(diameter(page, 2)).toBeFocused()
  await press('ArrowLeft')
  await press('ArrowLeft')
  await expect(page.getByLabel('Part of piece 2')).toBeFocused()
  expect(await diameters(page)).toEqual(SIZES)
})

test('Alt with Enter, Delete, arrows, D, S and J changes rows, and undo takes each back', async ({
  page,
}) => {
  const undo = page.getByRole('button', { name: 'Undo' })
  const sizesAfter = async (key: string) => {
    await diameter(page, 3).focus()
    await page.keyboard.press(key)
    const sizes = await diameters(page)
    await undo.click()
    await expect.poll(() => diameters(page)).toEqual(SIZES)
    return sizes
  }
  const added = await sizesAfter('Alt+Enter')
  expect(added).toHaveLength(8)
  expect(added.toSpliced(3, 1)).toEqual(SIZES)
  expect(await sizesAfter('Alt+Delete')).toEqual(SIZES.toSpliced(2, 1))
  expect((await sizesAfter('Alt+ArrowUp')).slice(1, 3)).toEqual(['.0165 in', '.019 in'])
  expect((await sizesAfter('Alt+ArrowDown')).slice(2, 4)).toEqual(['.0135 in', '.0165 in'])
  expect((await sizesAfter('Alt+d')).slice(2, 4)).toEqual(['.0165 in', '.0165 in'])
  expect(await sizesAfter('Alt+s')).toHaveLength(8)
  expect(await sizesAfter('Alt+j')).toEqual(SIZES.toSpliced(3, 1))
})

test('focus follows the row that was moved, added or duplicated', async ({ page }) => {
  await diameter(page, 3).focus()
  await page.keyboard.press('Alt+ArrowDown')
  await expect(diameter(page, 4)).toBeFocused()
  await page.keyboard.press('Alt+Enter')
  await expect(diameter(page, 5)).toBeFocused()
  await page.keyboard.press('Alt+d')
  await expect(diameter(page, 6)).toBeFocused()
  await page.keyboard.press('Alt+Delete')
  await expect(diameter(page, 6)).toBeFocused()
})

test('three rows from a spreadsheet go in with their heading, and a bad cell is named', async ({
  page,
}) => {
  await diameter(page, 6).focus()
  await paste(page, 'diameter\tlength\n.009 in\t7 in\n6X\tlong\n7X\t20 in\n')
  await expect.poll(() => diameters(page)).toEqual([...SIZES.slice(0, 5), '.009 in', '6X', '7X'])
  expect((await lengths(page)).slice(5)).toEqual(['7 in', '26 in', '20 in'])
  await expect(notice(page)).toContainText('Line 3, length: "long"')
  await page.getByRole('button', { name: 'Undo' }).click()
  await expect.poll(() => diameters(page)).toEqual(SIZES)
})

test('a single figure is pasted as text, and the table stays', async ({ page }) => {
  await diameter(page, 6).focus()
  await paste(page, '.009 in')
  expect(await diameters(page)).toEqual(SIZES)
})

test('rows are copied as a spreadsheet takes them: the selected ones, or all', async ({ page }) => {
  const copied = () =>
    page.locator(':focus').evaluate((field) => {
      const clipboardData = new DataTransfer()
      field.dispatchEvent(
        new ClipboardEvent('copy', { clipboardData, bubbles: true, cancelable: true }),
      )
      return clipboardData.getData('text/plain')
    })
  const select = (piece: number) =>
    page.getByRole('button', { name: `Select piece ${piece}; drag to move it` })
  await select(2).click()
  await select(3).click({ modifiers: ['Shift'] })
  await expect(select(2)).toHaveAttribute('aria-pressed', 'true')
  expect((await copied()).split('\n')).toEqual([
    'part\tmaterial\tdiameter\tlength\tknot',
    'Butt\tStiff nylon\t.019 in\t14 in\tBlood knot',
    'Mid-section\tStiff nylon\t.0165 in\t9 in\tBlood knot',
  ])
})

test('the button copies all rows to the clipboard and says so', async ({ page, context }) => {
  await context.grantPermissions(['clipboard-read', 'clipboard-write'])
  await page.getByRole('button', { name: 'Copy rows' }).click()
  await expect(notice(page)).toContainText('Rows copied.')
  const text = await page.evaluate(() => navigator.clipboard.readText())
  expect(text.split('\n')).toHaveLength(8)
  await notice(page).getByRole('button', { name: 'Dismiss' }).click()
  await expect(notice(page)).toBeHidden()
})

test('a row is dragged to another place with the mouse', async ({ page }) => {
  await page.getByRole('button', { name: 'Select piece 2; drag' }).dragTo(diameter(page, 5))
  await expect
    .poll(() => diameters(page))
    .toEqual(['.021 in', '.0165 in', '.0135 in', '.011 in', '.019 in', '.0085 in', '5X'])
})

test('a measured diameter and an own pull test win over the label', async ({ page }) => {
  const holds = page.locator('[data-row="6"] [data-name="Holds"]')
  const step = page.locator('[data-row="6"] [data-name="Step"]')
  const [heldBefore, stepBefore] = [await holds.innerText(), await step.innerText()]
  await page.getByRole('button', { name: 'More about piece 7' }).click()
  const dialog = page.getByRole('dialog')
  await typeInto(dialog.getByLabel('Measured diameter'), '.0075 in')
  await expect(step).not.toHaveText(stepBefore)
  // .0075 of .0085 in.
  await expect(step).toHaveText('88 %')
  await typeInto(dialog.getByLabel('Own pull test'), '10 lb')
  await page.keyboard.press('Escape')
  await expect(dialog).toBeHidden()
  // Supple nylon keeps 85 % of its strength when wet.
  await expect(holds).toHaveText('8.5 lb')
  expect(heldBefore).not.toBe('8.5 lb')
  await expect(diameter(page, 7)).toHaveValue('5X')
  await expectSaved(page)
  await page.reload()
  await expect(holds).toHaveText('8.5 lb')
})

test('a finding leads to its place in the table', async ({ page }) => {
  await typeInto(length(page, 4), '0.5 in')
  await findings(page)
    .getByRole('button', { name: /Too short to tie/ })
    .click()
  await expect(diameter(page, 4)).toBeFocused()
  await expect(page.locator('[data-row="3"]')).toHaveClass(/current/)
})
