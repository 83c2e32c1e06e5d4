import type { Locator, Page } from '@playwright/test'
import { expect } from '@playwright/test'

/** The bench as a person finds it, for the browser tests. */

const cell = (page: Page, name: string): Locator => page.getByRole('textbox', { name, exact: true })
export const diameter = (page: Page, piece: number) => cell(page, `Diameter of piece ${piece}`)
export const length = (page: Page, piece: number) => cell(page, `Length of piece ${piece}`)
export const handle = (page: Page, what: 'Diameter' | 'Length', piece: number) =>
  page.getByRole('slider', { name: `${what} of piece ${piece}, in the drawing` })
export const findings = (page: Page) => page.getByRole('region', { name: 'Findings' })
export const notice = (page: Page) => page.locator('.told')
export const formulaName = (page: Page) => page.getByLabel('Name of the formula')

export async function openBench(page: Page): Promise<void> {
  await page.goto('./')
  await expect(formulaName(page)).toHaveValue('Middle Sallow riffles 9 ft 5X')
}

/** To a place of the app by its name in the row of places, or behind the button of places on a phone. */
export async function goTo(page: Page, name: string): Promise<void> {
  const places = page.getByRole('button', { name: 'Places' })
  if (await places.isVisible()) await places.click()
  await page.getByRole('link', { name, exact: true }).click()
}

export async function openLibrary(page: Page): Promise<void> {
  await goTo(page, 'Formulas')
  await expect(page.getByRole('searchbox')).toBeVisible()
}

/** Types over a cell and goes down, as at a spreadsheet. */
export async function typeInto(field: Locator, text: string): Promise<void> {
  await field.fill(text)
  await field.press('Enter')
}

/** Every diameter of the table, from butt to tippet. */
export function diameters(page: Page): Promise<string[]> {
  return columnOf(page, 'diameter')
}

export function lengths(page: Page): Promise<string[]> {
  return columnOf(page, 'length')
}

function columnOf(page: Page, column: string): Promise<string[]> {
  return page
    .locator(`[data-column="${column}"] input`)
    .evaluateAll((fields) => fields.map((field) => (field as HTMLInputElement).value))
}

export async function expectSaved(page: Page): Promise<void> {
  await expect(page.getByText('Saved here')).toBeVisible()
}

/** Loads the page anew once it would let a person go without asking: nothing is being written any more. */
export async function reload(page: Page): Promise<void> {
  const letsGo = () =>
    page.evaluate(() => window.dispatchEvent(new Event('beforeunload', { cancelable: true })))
  await expect.poll(letsGo).toBe(true)
  await page.reload()
}

export const viewPanel = (page: Page) => page.getByRole('group', { name: 'View', exact: true })

/** Chooses units or look under View, and leaves its panel open. */
export async function choose(page: Page, what: string, value: string): Promise<void> {
  const panel = viewPanel(page)
  if (!(await panel.isVisible())) await page.getByRole('button', { name: 'View' }).click()
  await panel.getByLabel(what).selectOption(value)
}
