import { readFile } from 'node:fs/promises'
import type { Page } from '@playwright/test'
import {
  diameter,
  expectSaved,
  formulaName,
  notice,
  openBench,
  openLibrary,
  reload,
  typeInto,
} from '../support/bench-page'
import { expect, test } from '../support/watched'

test.beforeEach(({ page }) => openBench(page))

const count = (page: Page) => page.locator('.count')
const importing = (page: Page) => page.getByLabel('Formula files to import')
const file = (name: string, content: unknown) => ({
  name,
  mimeType: 'application/json',
  buffer: Buffer.from(typeof content === 'string' ? content : JSON.stringify(content)),
})

const sound = (name: string) => ({
  format: 'taperwright-leader',
  version: 1,
  name,
  purpose: 'nymph',
  segments: [{ part: 'tippet', material: 'nylon-supple', diameter: '5X', length: '24 in' }],
})

test('a shipped formula stays as it was: the first change makes an own copy', async ({ page }) => {
  await typeInto(diameter(page, 1), '.022 in')
  await expect(formulaName(page)).toHaveValue('Middle Sallow riffles 9 ft 5X (mine)')
  await expect(notice(page)).toContainText('This is your own copy now')
  await expectSaved(page)
  await openLibrary(page)
  await page.getByRole('searchbox').fill('riffles')
  await expect(count(page)).toHaveText(/^2 of/)
  await page.getByRole('button', { name: 'Middle Sallow riffles 9 ft 5X General' }).click()
  await expect(diameter(page, 1)).toHaveValue('.021 in')
  await expect(page.getByText('Shipped: a change makes your own copy')).toBeVisible()
})

test('damaged files are told what is wrong and where, all at once, and nothing of them is kept', async ({
  page,
}) => {
  await openLibrary(page)
  const before = await count(page).innerText()
  const wrong = sound('Wrong')
  const twice = {
    ...wrong,
    purpose: 'dreaming',
    segments: [{ ...wrong.segments[0], diameter: 'thick' }],
  }
  await importing(page).setInputFiles([
    file('torn.json', '{ "format": "taperwr'),
    file('twice-wrong.json', twice),
    file('shopping.json', ['milk']),
  ])
  const problems = page.locator('.problems')
  await expect(problems).toContainText('torn.json: ')
  await expect(problems).toContainText(/twice-wrong\.json: .*purpose.*dreaming/)
  await expect(problems).toContainText(/twice-wrong\.json: .*segments.*diameter.*thick/)
  await expect(problems).toContainText('shopping.json: ')
  await expect(count(page)).toHaveText(before)
  await page.reload()
  await expect(count(page)).toHaveText(before)
})

test('good files among damaged ones are taken', async ({ page }) => {
  await openLibrary(page)
  await importing(page).setInputFiles([file('torn.json', '{'), file('good.json', sound('Good'))])
  await expect(page.locator('.problems')).toContainText('torn.json')
  await expect(page.getByRole('button', { name: /^Good Nymph/ })).toBeVisible()
  await expect(notice(page)).toContainText('1 formula from good.json.')
})

test('all own formulas go out in one file, and come back from it', async ({ page }) => {
  await openLibrary(page)
  const exportAll = page.getByRole('button', { name: 'Export all own' })
  await expect(exportAll).toBeDisabled()
  await importing(page).setInputFiles(
    ['One', 'Two', 'Three'].map((n) => file(`${n}.json`, sound(n))),
  )
  await page.getByLabel('Whose').selectOption('own')
  await expect(count(page)).toHaveText(/^3 of/)
  const download = page.waitForEvent('download')
  await exportAll.click()
  const path = await (await download).path()
  const text = await readFile(path, 'utf8')
  for (const name of ['One', 'Two', 'Three']) expect(text).toContain(`"name": "${name}"`)
  await importing(page).setInputFiles(file('all.json', text))
  await expect(notice(page)).toContainText('3 formulas of it are here already, unchanged.')
  await expect(count(page)).toHaveText(/^3 of/)
  await page.getByRole('checkbox', { name: 'Choose Two' }).check()
  await page.getByRole('button', { name: 'Delete 1 own' }).click()
  await expect(count(page)).toHaveText(/^2 of/)
  await importing(page).setInputFiles(file('all.json', text))
  await expect(count(page)).toHaveText(/^3 of/)
})

test('what was deleted is brought back, as it was', async ({ page }) => {
  await openLibrary(page)
  await importing(page).setInputFiles(file('one.json', sound('Only one')))
  await page.getByRole('checkbox', { name: 'Choose Only one' }).check()
  await page.getByRole('button', { name: 'Delete 1 own' }).click()
  await expect(page.getByRole('button', { name: /^Only one/ })).toHaveCount(0)
  await page.getByRole('button', { name: 'Bring back' }).click()
  await expect(page.getByRole('button', { name: /^Only one Nymph/ })).toBeVisible()
  await reload(page)
  await expect(page.getByRole('button', { name: /^Only one Nymph/ })).toBeVisible()
})

test('filters by purpose, material, length and tippet narrow the list', async ({ page }) => {
  await openLibrary(page)
  const found = async () => Number.parseInt(await count(page).innerText(), 10)
  const all = await found()
  await page.getByLabel('Purpose').selectOption('streamer')
  const streamers = await found()
  expect(streamers).toBeGreaterThan(0)
  expect(streamers).toBeLessThan(all)
  await page.getByLabel('Purpose').selectOption('')
  await typeInto(page.getByLabel('Longest total length'), '5')
  await expect.poll(found).toBeLessThan(all)
  await typeInto(page.getByLabel('Longest total length'), '')
  await typeInto(page.getByLabel('Tippet diameter'), '7X')
  await expect.poll(found).toBe(1)
})

test('Ctrl K opens the formulas, and going back in the browser shows the bench again', async ({
  page,
}) => {
  await page.keyboard.press('Control+k')
  await expect(page.getByRole('searchbox')).toBeFocused()
  await page.goBack()
  await expect(diameter(page, 1)).toBeVisible()
})

test('a leader started from scratch is on the bench and is kept', async ({ page }) => {
  await openLibrary(page)
  await page.getByRole('button', { name: 'Start from scratch' }).click()
  await expect(formulaName(page)).toHaveValue('New leader')
  await typeInto(diameter(page, 1), '.021 in')
  await expectSaved(page)
  await page.reload()
  await expect(formulaName(page)).toHaveValue('New leader')
  await expect(diameter(page, 1)).toHaveValue('.021 in')
})
