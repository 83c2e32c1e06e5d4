import { readFile } from 'node:fs/promises'
import type { Page } from '@playwright/test'
import { expectAccessibleWithin } from '../support/axe'
import { goTo, openBench } from '../support/bench-page'
import { atEachSize, expect, test } from '../support/watched'

const SOON = { timeout: 30_000 }
const station = (page: Page) => page.locator('[aria-current="step"]')
const scene = (page: Page) => page.getByRole('img', { name: /from the side/ }).first()
const link = (page: Page, name: string | RegExp) => page.getByRole('link', { name })

async function openLesson(page: Page, title: string) {
  await openBench(page)
  await goTo(page, 'Class')
  await link(page, new RegExp(title)).click()
  await expect(page.getByRole('heading', { name: title })).toBeVisible()
}

test('an instructor runs a lesson through by keyboard', async ({ page }) => {
  await openBench(page)
  await goTo(page, 'Class')
  await expect(page.getByText(/glasses and a hat for everybody/)).toBeVisible()
  const lesson = link(page, /A worn tippet/)
  await lesson.focus()
  await page.keyboard.press('Enter')
  await expect(station(page)).toHaveText('The question')
  await page.keyboard.press('PageDown')
  await expect(station(page), 'a prediction comes first').toHaveText('The question')
  await page.keyboard.press('2')
  await expect(page.getByRole('radio', { name: /Harder/ })).toBeChecked()
  await page.keyboard.press('PageDown')
  await expect(station(page)).toHaveText('The cast')
  await expect(scene(page).locator('.letter')).toHaveText(['A', 'B'], SOON)
  const flying = () => scene(page).locator('g.two .leader').getAttribute('points')
  const before = await flying()
  await page.keyboard.press('ArrowRight')
  await page.keyboard.press('ArrowRight')
  await expect.poll(flying).not.toBe(before)
  await page.keyboard.press('PageDown')
  await expect(page.locator('.outcome')).toHaveText('As predicted: Harder.')
  await expect(page.locator('.why li')).toHaveCount(3)
  await page.keyboard.press('PageDown')
  await expect(station(page)).toHaveText('On the grass')
})

test('the large view fills the window and is left again', async ({ page }) => {
  await openLesson(page, 'The fly first')
  const size = () =>
    page.locator('.question').evaluate((one) => parseFloat(getComputedStyle(one).fontSize))
  const small = await size()
  await page.getByRole('button', { name: 'Present' }).click()
  await expect.poll(size).toBeGreaterThan(small * 1.4)
  await page.getByRole('button', { name: 'Leave the large view' }).click()
  await expect.poll(size).toBe(small)
})

test('a lesson’s leaders go side by side, and one thing of them is changed', async ({ page }) => {
  await openLesson(page, 'A worn tippet')
  await page.keyboard.press('1')
  for (let n = 0; n < 3; n++) await page.keyboard.press('PageDown')
  await link(page, 'Lay these leaders side by side').click()
  await expect(page.getByText('“A: Fresh tippet”')).toBeVisible(SOON)
  await expect(page.getByText(/shorter in the tippet/)).toBeVisible()
})

test('a range is flown ahead, and a drag shows its cast at once', async ({ page }) => {
  await openBench(page)
  await page.goto('./#class/change')
  await expect(page.getByText('All 33 casts of the range are flown.')).toBeVisible(SOON)
  const sentence = page.getByText(/comes round after/)
  const before = await sentence.innerText()
  const slider = page.getByRole('slider', { name: /Length of the tippet/ })
  await slider.focus()
  await page.keyboard.press('End')
  await expect(page.locator('.slide strong')).toHaveText('94.5 in')
  await expect(sentence).not.toHaveText(before)
})

test('what is seen is taken out as picture, table and film', async ({ page }) => {
  await openBench(page)
  await page.goto('./#class/compare')
  await expect(scene(page)).toBeVisible(SOON)
  async function taken(name: string): Promise<Buffer> {
    const download = page.waitForEvent('download', { timeout: 80_000 })
    await page.getByRole('button', { name }).click()
    return readFile(await (await download).path())
  }
  const png = await taken('This moment as PNG')
  // The eight bytes a PNG begins with: W3C, PNG Specification, 2nd edition, 2003, 5.2.
  expect(png.subarray(0, 8).toString('hex')).toBe('89504e470d0a1a0a')
  expect(png.readUInt32BE(16)).toBe(1280)
  expect((await taken('The casts as CSV')).toString()).toMatch(/^leader,time_s,/)
  const film = await taken('The casts as a film')
  // The EBML header of WebM: IETF RFC 8794, 2020, section 8.1.
  expect(film.subarray(0, 4).toString('hex')).toBe('1a45dfa3')
  // On a page without the app's policy, which lets it load no media.
  const blank = await page.context().newPage()
  const played = await blank.evaluate(async (base64) => {
    const bytes = Uint8Array.from(atob(base64), (letter) => letter.charCodeAt(0))
    const video = document.createElement('video')
    video.src = URL.createObjectURL(new Blob([bytes], { type: 'video/webm' }))
    await new Promise((resolve, reject) => {
      video.addEventListener('loadeddata', resolve)
      video.addEventListener('error', reject)
    })
    return [video.videoWidth, video.videoHeight]
  }, film.toString('base64'))
  expect(played[0]).toBe(1280)
})

for (const place of ['class', 'class/compare', 'class/change', 'class/lesson/09-taper-or-level'])
  atEachSize(
    place,
    async (page) => {
      await page.goto(`./#${place}`)
      await expect(page.getByRole('heading', { name: 'Class', exact: true })).toBeVisible()
      if (!place.includes('lesson') && place !== 'class')
        await expect(scene(page)).toBeVisible(SOON)
    },
    [['is accessible and no wider than the page', expectAccessibleWithin]],
  )
