import type { Page } from '@playwright/test'
import { expectAccessible } from '../support/axe'
import { diameter, openBench, reload } from '../support/bench-page'
import { guideShed } from '../support/guide-shed'
import { expect, test } from '../support/watched'

test.setTimeout(120_000)

async function withShelf(page: Page) {
  await page.goto('./#backup')
  await page.getByLabel('Backup file').setInputFiles({
    name: 'shed.json',
    mimeType: 'application/json',
    buffer: Buffer.from(guideShed()),
  })
  await page.getByRole('button', { name: 'Restore' }).click()
  await expect(page.getByText(/^Restored/)).toBeVisible()
}

test('a spool is described by hand, measured, kept and found again', async ({ page }) => {
  await page.goto('./#spools')
  await page.getByRole('button', { name: 'Add a spool' }).click()
  const dialog = page.getByRole('dialog')
  await dialog.getByLabel('Size on the label').fill('5X')
  await dialog.getByLabel('Length left now').fill('25 yd')
  for (const reading of ['.0062', '.0064', '.0063']) {
    await dialog.getByLabel('Add a reading').fill(reading)
    await dialog.getByLabel('Add a reading').press('Enter')
  }
  await expect(dialog.getByText(/mean \.0063 in/)).toBeVisible()
  await dialog.getByLabel('Add a pull test').fill('4.6 lb')
  await dialog.getByLabel('Add a pull test').press('Enter')
  await dialog.getByRole('button', { name: 'Keep' }).click()
  const row = page.getByRole('row', { name: /Supple nylon 5X/ })
  await expect(row).toContainText('.0063 in, 3 readings within .0002 in')
  await expect(row).toContainText('4.6 lb')
  await reload(page)
  await expect(row).toContainText('25 yd')
})

test('an invented shelf can be tried and cleared again, by key too', async ({ page }) => {
  await page.goto('./#spools')
  await page.getByRole('button', { name: 'try it with an invented shelf' }).click()
  await expect(page.getByRole('row')).toHaveCount(16)
  await page.keyboard.press('Control+z')
  await expect(page.getByText('Nothing is on the shelf yet')).toBeVisible()
  await page.keyboard.press('Control+Shift+z')
  await expect(page.getByRole('row')).toHaveCount(16)
})

test('what the shelf lacks is replaced on one click, in a copy', async ({ page }) => {
  await withShelf(page)
  await page.goto('./#spools')
  await page.getByRole('button', { name: /Upper Sallow rising fish/ }).click()
  const copy = page.getByRole('button', { name: /^Copy with/ }).first()
  await expect(copy).toBeVisible()
  await copy.click()
  await expect(page.getByLabel('Name of the formula')).toHaveValue(/from my shelf/)
})

test('the micrometer of the shelf goes into a copy, and the bench shows it', async ({ page }) => {
  await withShelf(page)
  await page.goto('./#spools')
  await page.getByRole('button', { name: /Middle Sallow riffles/ }).click()
  await expect(page.getByText(/piece 7.*diameter .006 in to .0062 in/)).toBeVisible()
  await page.getByRole('button', { name: 'Copy with the measured diameters' }).click()
  await expect(page.getByLabel('Name of the formula')).toHaveValue(/from my shelf/)
  await expect(diameter(page, 7)).toHaveValue('5X')
})

test('a batch is planned, cut, tied, put away, taken out, undone, and survives a reload', async ({
  page,
}) => {
  await withShelf(page)
  await page.goto('./#tying')
  await page.getByRole('button', { name: 'Plan a batch' }).click()
  await page.getByLabel('Middle Sallow riffles 9 ft 5X').fill('2')
  await expect(page.getByText(/14 pieces/)).toBeVisible()
  await expect(page.getByText('To buy')).toHaveCount(0)
  await page.getByLabel('Name', { exact: true }).fill('Winter evening')
  await page.getByRole('button', { name: 'Begin 2 leaders' }).click()

  // The begun spools are finished first: two butts come off the 4.2 m, not off the full spool.
  const begun = page.locator('details').filter({ hasText: 'Stiff nylon .021 in begun' })
  await expect(begun.getByRole('checkbox')).toHaveCount(2)
  const boxes = page.locator('.cuts').getByRole('checkbox')
  await expect(boxes).toHaveCount(14)
  for (let i = 0; i < 14; i++) {
    // A list that is done folds up: the next open box is the one to tick.
    await page.locator('.cuts input:not(:checked)').first().check()
  }
  await expect(page.getByText('Cut 14 of 14')).toBeVisible()
  await page.getByRole('button', { name: 'Undo' }).click()
  await expect(page.getByText('Cut 13 of 14')).toBeVisible()
  await page.getByRole('button', { name: 'Redo' }).click()
  await expect(page.getByText('Cut 14 of 14')).toBeVisible()

  await reload(page)
  await page.getByRole('button', { name: /Winter evening/ }).click()
  await expect(page.getByText('Cut 14 of 14')).toBeVisible()
  await page.getByRole('button', { name: 'Tie', exact: true }).click()
  await page.getByText('no. 1').click()
  await page
    .getByLabel(/Nail knot, at the line/)
    .first()
    .check()
  await expect(page.getByText('Tied 1 of 14')).toBeVisible()
  await page.getByLabel('Finished leaders go to').fill('Boat 1')
  await page.getByRole('button', { name: 'Finished: into the wallet' }).first().click()
  await expect(page.getByText('Finished 1 of 2')).toBeVisible()
  const wallet = page.getByRole('region', { name: 'Wallets' })
  await expect(wallet.getByRole('listitem')).toContainText(/^1\s*Middle Sallow riffles/)
  await wallet.getByRole('button', { name: /^Take one/ }).click()
  await expect(wallet.getByRole('listitem')).toContainText(/^0/)
  await page.getByRole('button', { name: 'Undo' }).click()
  await expect(wallet.getByRole('listitem')).toContainText(/^1/)

  // The spool that two butts of about 45 in came off holds so much less.
  await page.goto('./#spools')
  await expect(page.getByRole('row', { name: /Stiff nylon .021 in begun/ })).toContainText('1.8')
})

test('a link is made, arrives, is looked at first and kept on request', async ({
  page,
  context,
}) => {
  await openBench(page)
  await page.getByRole('link', { name: 'Share' }).click()
  const link = page.getByLabel('Link to this formula')
  await expect(link).toHaveValue(/#s\/[\w-]+$/)
  const address = await link.inputValue()
  const other = await context.newPage()
  await other.goto(address)
  await expect(other.getByRole('heading', { name: 'A link has brought this' })).toBeVisible()
  await expect(other.getByRole('table')).toContainText('.021 in')
  await other.goto('./#library')
  await expect(other.getByText('21 of 21 formulas')).toBeVisible()
  await other.goto(address)
  await other.getByRole('button', { name: 'Keep among my formulas' }).click()
  await expect(other.getByLabel('Name of the formula')).toHaveValue('Middle Sallow riffles 9 ft 5X')
  await other.goto('./#library')
  await expect(other.getByText('22 of 22 formulas')).toBeVisible()
})

for (const [name, spoil] of [
  ['cut off', (link: string) => link.slice(0, -9)],
  [
    'changed',
    (link: string) =>
      `${link.slice(0, -20)}A${link.slice(-19)}`.replace(/A(.{19})$/, (_, r: string) => `-${r}`),
  ],
  ['hostile', (link: string) => link.replace(/#.*/, '#s/AQE%3Cscript%3Ealert(1)%3C/script%3E')],
  ['far too long', (link: string) => link + 'A'.repeat(120_000)],
] as const)
  test(`a link that is ${name} is told, and nothing stored changes`, async ({ page }) => {
    await openBench(page)
    await page.getByRole('link', { name: 'Share' }).click()
    await expect(page.getByLabel('Link to this formula')).toHaveValue(/#s\/[\w-]+$/)
    const link = await page.getByLabel('Link to this formula').inputValue()
    await page.goto(spoil(link))
    await expect(page.getByRole('alert')).toContainText('cannot be read, and nothing was changed')
    await expect(page.getByRole('button', { name: 'Keep among my formulas' })).toHaveCount(0)
    await page.getByRole('button', { name: 'To the bench' }).click()
    await page.goto('./#library')
    await expect(page.getByText('21 of 21 formulas')).toBeVisible()
  })

test('a pasted recipe is read line by line and opened on the bench', async ({ page }) => {
  await page.goto('./#paste')
  await page
    .getByRole('textbox')
    .fill('Evening 9 ft 5X\n36 in .019 hard\n20@17\nsome more\n24 in 5X tippet')
  await expect(page.getByRole('row', { name: /some more/ })).toContainText('not understood')
  await expectAccessible(page)
  await page.getByRole('button', { name: 'Keep it and open it on the bench' }).click()
  await expect(page.getByLabel('Name of the formula')).toHaveValue('Evening 9 ft 5X')
  await expect(diameter(page, 2)).toHaveValue('17')
})

test('files, tables, pictures: each is handed out', async ({ page }) => {
  await page.goto('./#share')
  for (const [button, ending] of [
    ['Formula file', /\.json$/],
    ['Table as CSV', /\.csv$/],
    ['Drawing as SVG', /drawing\.svg$/],
    ['Bending stiffness as PNG', /stiffness\.png$/],
  ] as const) {
    const download = page.waitForEvent('download')
    await page.getByRole('button', { name: button }).click()
    expect((await download).suggestedFilename()).toMatch(ending)
  }
})

test('a backup brings everything back into an empty browser', async ({
  page,
  browser,
  baseURL,
}) => {
  await withShelf(page)
  await openBench(page)
  await diameter(page, 1).fill('.022 in')
  await diameter(page, 1).press('Enter')
  await expect(page.getByText('Saved here')).toBeVisible()
  await page.goto('./#backup')
  const download = page.waitForEvent('download')
  await page.getByRole('button', { name: 'Back up everything' }).click()
  const path = await (await download).path()
  const empty = await browser.newContext({ ...(baseURL ? { baseURL } : {}) })
  const other = await empty.newPage()
  await other.goto('./#backup')
  await other.getByLabel('Backup file').setInputFiles(path)
  await other.getByRole('button', { name: 'Restore' }).click()
  await expect(other.getByText('Restored 1 formula and')).toBeVisible()
  await other.goto('./#library')
  await expect(other.getByRole('button', { name: /riffles.*mine/ })).toBeVisible()
  // Once more changes nothing.
  await other.goto('./#backup')
  await other.getByLabel('Backup file').setInputFiles(path)
  await other.getByRole('button', { name: 'Restore' }).click()
  await expect(other.getByText('Restored 0 formulas and 0 entries')).toBeVisible()
  await empty.close()
})

for (const width of [1440, 390])
  test(`spools, tying, sharing and backup are accessible at ${width} px`, async ({ page }) => {
    await page.setViewportSize({ width, height: 844 })
    await withShelf(page)
    for (const place of ['backup', 'spools', 'tying', 'share', 'versions', 'paste']) {
      await page.goto(`./#${place}`)
      if (place === 'tying') {
        await page.getByRole('button', { name: 'Plan a batch' }).click()
        await page.getByLabel('Middle Sallow riffles 9 ft 5X').fill('1')
        await page.getByRole('button', { name: 'Begin 1 leader' }).click()
      }
      await expect(page.getByRole('heading', { level: 2 })).toBeVisible()
      await expectAccessible(page)
      expect(await page.evaluate(() => document.scrollingElement!.scrollWidth), place).toBe(width)
    }
    await page.goto('./#spools')
    await page
      .getByRole('button', { name: /^Change/ })
      .first()
      .click()
    await expectAccessible(page)
  })
