import { choose, diameter, expectSaved, openBench, typeInto } from '../support/bench-page'
import { expect, test } from '../support/watched'

test.beforeEach(({ page }) => openBench(page))

const TYPED = ['.006', '5X', '0,15 mm', '6 thou', '0.006"']

test('what is typed as a diameter stays as typed, through other units and a reload', async ({
  page,
}) => {
  for (const [i, text] of TYPED.entries()) await typeInto(diameter(page, i + 1), text)
  await choose(page, 'Diameters', 'mm')
  await expect(diameter(page, 1)).toHaveValue('0.152 mm')
  await expect(diameter(page, 2)).toHaveValue('0.152 mm')
  // Typed in that unit, it is nobody's business to write it otherwise.
  await expect(diameter(page, 3)).toHaveValue('0,15 mm')
  await choose(page, 'Diameters', 'X')
  await expect(diameter(page, 1)).toHaveValue('5X')
  await choose(page, 'Diameters', 'typed')
  for (const [i, text] of TYPED.entries()) await expect(diameter(page, i + 1)).toHaveValue(text)
  await expectSaved(page)
  await page.reload()
  for (const [i, text] of TYPED.entries()) await expect(diameter(page, i + 1)).toHaveValue(text)
})

test('a bare 6 is asked about, and the field is not left before it is answered', async ({
  page,
}) => {
  await typeInto(diameter(page, 7), '6')
  const question = page.getByRole('alert').filter({ hasText: 'What does "6" mean here?' })
  await expect(question).toBeVisible()
  await expect(diameter(page, 7)).toBeFocused()
  await question.getByRole('button', { name: '6 thou' }).click()
  await expect(question).toBeHidden()
  await expect(diameter(page, 7)).toHaveValue('6')
  await expect(page.locator('[data-row="6"] [data-column="diameter"] .suffix')).toHaveText('thou')
})

test('a bare 6 among X sizes is read as one, with the other meaning offered', async ({ page }) => {
  await choose(page, 'Diameters', 'X')
  await typeInto(diameter(page, 7), '6')
  await expect(page.getByRole('alert').filter({ hasText: 'Read as 6 X' })).toBeVisible()
  await page.getByRole('button', { name: 'Keep' }).click()
  await expect(diameter(page, 7)).toHaveValue('6')
  await expectSaved(page)
})

test('a strength is no diameter: the range is offered and the choice marked as an estimate', async ({
  page,
}) => {
  await typeInto(diameter(page, 2), '20 lb')
  const question = page.getByRole('alert').filter({ hasText: 'is a strength, not a diameter' })
  await question.getByRole('button', { name: '.0175 in (estimate)' }).click()
  await expect(diameter(page, 2)).toHaveValue('.0175 in')
  const mark = page
    .locator('[data-row="1"] [data-column="diameter"]')
    .getByText('estimated from 20 lb')
  await expect(mark).toBeVisible()
  await expectSaved(page)
  await page.reload()
  await expect(mark).toBeVisible()
  await expect(diameter(page, 2)).toHaveValue('.0175 in')
})

test('the message of a field is seen whole, on the last row too, and Escape takes the text back', async ({
  page,
}) => {
  await typeInto(diameter(page, 7), 'thick')
  const message = page.getByRole('alert').filter({ hasText: 'This field takes 5X' })
  await expect(message).toBeInViewport({ ratio: 1 })
  await page.keyboard.press('Escape')
  await expect(message).toBeHidden()
  await expect(diameter(page, 7)).toHaveValue('5X')
})

test('lengths and strengths follow the view too, in table, charts and figures', async ({
  page,
}) => {
  await choose(page, 'Lengths', 'cm')
  await choose(page, 'Strengths', 'kg')
  await expect(page.getByRole('textbox', { name: 'Length of piece 1' })).toHaveValue('91.4 cm')
  await expect(page.locator('.band .figure').first()).toHaveText('2.743 m')
  await expect(page.locator('figcaption').filter({ hasText: 'Strength' })).toContainText('kg')
  await expect(page.locator('[data-row="0"] [data-name="Holds"]')).toContainText('kg')
})
