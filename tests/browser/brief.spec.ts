import type { Page } from '@playwright/test'
import { expectAccessible } from '../support/axe'
import { diameter, expectSaved, formulaName, handle, length, reload } from '../support/bench-page'
import { expect, test } from '../support/watched'

const PHONE = { width: 390, height: 844 }

const choice = (page: Page, name: string) => page.getByRole('combobox', { name, exact: true })
const figure = (page: Page, name: string) => page.getByRole('button', { name: `${name}: ` })
const made = (page: Page) => page.getByRole('region', { name: 'A leader for it' })

async function openBrief(page: Page): Promise<void> {
  await page.goto('./#brief')
  await expect(page.getByRole('heading', { name: 'What to tie on' })).toBeVisible()
}

/** The tippet and the length that stand on top now. */
async function answer(page: Page) {
  return {
    tippet: await figure(page, 'Tippet').innerText(),
    length: await figure(page, 'Length').innerText(),
  }
}

async function sidewaysRoom(page: Page): Promise<number> {
  return page.evaluate(() => document.documentElement.scrollWidth - window.innerWidth)
}

test('the fly, then wariness and water, then the fish each change what is advised', async ({
  page,
}) => {
  await openBrief(page)
  expect(await answer(page)).toEqual({ tippet: '5X', length: "9'" })

  // The fly first: a larger hook takes a stouter tippet, a bulky one the stouter end of the rule.
  await choice(page, 'Hook').selectOption('12')
  await expect(figure(page, 'Tippet')).toHaveText('4X')
  await choice(page, 'Fly').selectOption({ label: 'Hair-wing or bushy dry' })
  await expect(figure(page, 'Tippet')).toHaveText('3X')
  await expect(page.getByText('Heavy or bulky for its hook')).toBeVisible()
  await choice(page, 'Fly').selectOption({ label: 'Parachute dry' })
  await choice(page, 'Hook').selectOption('14')

  // Then the water and the wariness: longer first, then finer; wind shorter, then stouter.
  await choice(page, 'Water').selectOption({ label: 'Flat, slow and clear' })
  expect(await answer(page)).toEqual({ tippet: '5X', length: "12'" })
  await choice(page, 'Fish are').selectOption({ label: 'Pressured, seen many flies' })
  expect(await answer(page)).toEqual({ tippet: '6X', length: '13\' 6"' })
  // What is said of the cast was thrown: this leader, and a plain one beside it.
  await expect(page.getByText(/power than a plain 12'/)).toBeVisible({ timeout: 60_000 })
  await expect(page.getByText(/of 100 casts come over: it stays as it is/)).toBeVisible()
  await choice(page, 'Wind').selectOption({ label: 'Strong wind' })
  await expect(figure(page, 'Tippet')).toHaveText('5X')
  await expect(figure(page, 'Length')).toHaveText('11\' 6"')
  await choice(page, 'Wind').selectOption({ label: 'Calm' })
  await choice(page, 'Fish are').selectOption({ label: 'As usual' })
  await choice(page, 'Water').selectOption({ label: 'Riffle or run' })

  // Then the fish and the current.
  const fish = page.getByRole('textbox', { name: 'Weight of the fish you expect' })
  await fish.fill('4 lb')
  await fish.press('Enter')
  await expect(figure(page, 'Tippet')).toHaveText('3X')
  await expect(page.getByText(/The fish asks for a strand that holds/)).toBeVisible()
})

test('where the rule is not applied, that is said', async ({ page }) => {
  await openBrief(page)
  await choice(page, 'Fly').selectOption({ label: 'Popper' })
  await expect(page.getByText('Rule by hook: not applied')).toBeVisible()
  await expect(page.getByText('The rule by hook size is not applied: practice')).toBeVisible()
  await choice(page, 'Fly').selectOption({ label: 'Parachute dry' })
  await choice(page, 'Water').selectOption({ label: 'Salt water' })
  await expect(page.getByText('The rule by hook size is not applied in salt water')).toBeVisible()
})

test('from an empty brief six choices and a button lay a leader on the bench, with its brief', async ({
  page,
}) => {
  await openBrief(page)
  await choice(page, 'Fly').selectOption({ label: 'Collar-hackled dry' })
  await choice(page, 'Hook').selectOption('16')
  await choice(page, 'Water').selectOption({ label: 'Flat, slow and clear' })
  await choice(page, 'Fish are').selectOption({ label: 'As usual' })
  await choice(page, 'Line').selectOption({ label: '4-weight' })
  const fish = page.getByRole('textbox', { name: 'Weight of the fish you expect' })
  await fish.fill('3 lb')
  await fish.press('Enter')
  await expect(made(page).getByRole('listitem').first()).toBeVisible()
  const open = made(page).getByRole('button', { name: 'Open on the bench' })
  await expect(open).toBeEnabled({ timeout: 60_000 })
  const tippet = await figure(page, 'Tippet').innerText()
  await open.click()
  await expect(formulaName(page)).toHaveValue(/Collar-hackled dry 16/)

  await expect(page.getByText('The leader keeps to it.')).toBeVisible()
  await expect(page.getByRole('textbox', { name: 'Weight of the fish you expect' })).toHaveValue(
    '3 lb',
  )
  const last = (await page.locator('[data-column="diameter"] input').count()) || 1
  await expect(diameter(page, last)).toHaveValue(tippet)

  // The brief is saved with the leader, and judges what is done to it.
  await expectSaved(page)
  await page.reload()
  await expect(formulaName(page)).toHaveValue(/Collar-hackled dry 16/)
  await length(page, 1).fill('20 in')
  await length(page, 1).press('Enter')
  await expect(page.getByText(/^.*Length .* asked .*$/).first()).toBeVisible()
  await expect(page.getByText('The leader keeps to it.')).toBeHidden()
})

test('a figure tells its band and source on hover, on focus and click, and the brief stays', async ({
  page,
}) => {
  await openBrief(page)
  const band = page.getByText('4X to 5X would do')
  await expect(band).toBeHidden()
  await figure(page, 'Tippet').hover()
  await expect(band).toBeVisible()
  await page.mouse.move(5, 400)
  await expect(band).toBeHidden()
  await figure(page, 'Must hold').focus()
  await page.keyboard.press('Enter')
  await expect(page.getByText(/wet; pull of the fish/)).toBeVisible()
  await page.keyboard.press('Escape')
  await expect(page.getByText(/wet; pull of the fish/)).toBeHidden()
  await choice(page, 'Hook').selectOption('20')
  await reload(page)
  await expect(choice(page, 'Hook')).toHaveValue('20')
})

test('an own fly is weighed, boxed and chosen again', async ({ page }) => {
  await openBrief(page)
  await page.getByText('The fly in figures').click()
  const weighed = page.getByRole('textbox', { name: 'Mass as weighed' })
  await weighed.fill('45 mg')
  await weighed.press('Enter')
  await expect(figure(page, 'Mass, dry')).toHaveText('45 mg')
  await page.getByRole('textbox', { name: 'Name' }).fill('Heavy one')
  await page.getByRole('button', { name: 'Put this fly in the box' }).click()
  await choice(page, 'Fly').selectOption({ label: 'Midge' })
  await expect(figure(page, 'Mass, dry')).not.toHaveText('45 mg')
  await choice(page, 'Fly').selectOption({ label: 'Own: Heavy one' })
  await expect(figure(page, 'Mass, dry')).toHaveText('45 mg')
})

test('a rig is tied, drawn and judged on the bench, and undone', async ({ page }) => {
  await page.goto('./')
  await page.getByRole('button', { name: 'Rig', exact: true }).click()
  const dialog = page.getByRole('dialog')
  await expect(dialog.getByText('One strand, one fly.')).toBeVisible()
  await choice(page, 'Rig').selectOption({ label: 'Two nymphs' })
  await dialog.getByRole('button', { name: 'Tie it' }).click()
  await expect(dialog.getByText(/Dropper: .*on the tag of the knot/)).toBeVisible()
  await expect(dialog.getByText(/held fast: breaks/)).toHaveCount(2)
  await expect(dialog.getByText(/Class tippet at least 15 in inside its knots/)).toBeVisible()
  await expectAccessible(page)
  await page.keyboard.press('Escape')
  await expect(page.locator('.drawing .hanging')).toHaveCount(1)
  await expect(handle(page, 'Length', 8)).toBeVisible()
  await page.getByRole('button', { name: 'Undo' }).click()
  await expect(page.locator('.drawing .hanging')).toHaveCount(0)
})

for (const size of [{ width: 1280, height: 800 }, PHONE]) {
  test(`the brief is accessible and fits ${size.width} px, open as far as it goes`, async ({
    page,
  }) => {
    await page.setViewportSize(size)
    await openBrief(page)
    for (const more of ['The fly in figures', 'Rod and line', 'Reel and backing'])
      await page.getByText(more, { exact: true }).click()
    await expectAccessible(page)
    expect(await sidewaysRoom(page)).toBeLessThanOrEqual(0)
  })
}
