import type { Page } from '@playwright/test'
import jsQR from 'jsqr'
import { expectAccessible } from '../support/axe'
import { guideShed } from '../support/guide-shed'
import { readPdf } from '../support/pdf'
import { expect, test } from '../support/watched'

test.setTimeout(120_000)

/** ISO 216 and ANSI/ASME Y14.1, in points of 1/72 in. */
const A4 = { width: (210 / 25.4) * 72, height: (297 / 25.4) * 72 }
const LETTER = { width: 8.5 * 72, height: 11 * 72 }

async function printed(page: Page) {
  return readPdf(await page.pdf({ preferCSSPageSize: true, printBackground: true }))
}

function expectSize(found: { width: number; height: number }, wanted: typeof A4) {
  expect(Math.abs(found.width - wanted.width)).toBeLessThan(1)
  expect(Math.abs(found.height - wanted.height)).toBeLessThan(1)
}

for (const [paper, size] of [
  ['a4', A4],
  ['letter', LETTER],
] as const) {
  test(`a bench sheet on ${paper} is one page with a ruler of 150 mm and every piece`, async ({
    page,
  }) => {
    await page.goto('./#sheets')
    await page.getByLabel('Paper').selectOption(paper)
    await expect(page.getByRole('heading', { name: 'Middle Sallow riffles 9 ft 5X' })).toBeVisible()
    const [sheet, ...others] = await printed(page)
    expect(others).toEqual([])
    expectSize(sheet!, size)
    // 150 mm are 425.2 points; a printer cannot do better than a tenth of a millimetre.
    const ruler = (150 / 25.4) * 72
    expect(Math.min(...sheet!.pathWidths.map((w) => Math.abs(w - ruler)))).toBeLessThan(0.3)
    // The finished lengths of the shipped formula, its checkpoints 36, 50, 59 ... 108, the knots and their steps.
    for (const text of ['36 in', '50 in', '59 in', '67 in', '74 in', '82 in', '108 in'])
      expect(sheet!.text).toContain(text)
    for (const text of [
      'Nail knot',
      'Blood knot',
      "Triple surgeon's",
      '5 + 5 turns',
      'seat',
      'trim',
    ])
      expect(sheet!.text).toContain(text)
    expect(sheet!.text).not.toContain('Formulas')
  })
}

test('wallet labels lie on the grid of their sheet, and their code opens the formula', async ({
  page,
}) => {
  await page.goto('./#share')
  await page.getByLabel('Links begin with').fill('https://leaders.example.org/')
  await page.getByLabel('Links begin with').press('Enter')
  await page.goto('./#sheets/labels')
  await page.getByRole('spinbutton', { name: 'Middle Sallow riffles 9 ft 5X' }).fill('22')
  await page.getByRole('spinbutton', { name: 'Middle Sallow riffles 9 ft 5X' }).press('Enter')
  await expect(page.getByRole('img', { name: 'Opens Middle Sallow riffles 9 ft 5X' })).toHaveCount(
    22,
  )
  const pages = await printed(page)
  expect(pages).toHaveLength(2)
  expectSize(pages[0]!, A4)
  expect(pages[0]!.text.match(/tippet 5X/g)).toHaveLength(21)
  expect(pages[1]!.text.match(/tippet 5X/g)).toHaveLength(1)

  const boxes = await page
    .locator('.label')
    .evaluateAll((labels) =>
      labels.slice(0, 4).map((l) => l.getBoundingClientRect().toJSON() as DOMRect),
    )
  const mm = (px: number) => (px / 96) * 25.4
  expect(mm(boxes[1]!.x - boxes[0]!.x)).toBeCloseTo(66, 1)
  expect(mm(boxes[3]!.y - boxes[0]!.y)).toBeCloseTo(38.1, 1)

  const link = await codeOn(page)
  expect(link).toMatch(/^https:\/\/leaders\.example\.org\/#s\//)
  await page.goto(`./${link.slice(link.indexOf('#'))}`)
  await expect(page.getByRole('heading', { name: 'Middle Sallow riffles 9 ft 5X' })).toBeVisible()
})

/** What a camera would read off the first label, as it stands on the screen at three times its size. */
async function codeOn(page: Page): Promise<string> {
  const code = page.getByRole('img', { name: /^Opens/ }).first()
  const png = await code.evaluate(async (svg) => {
    const copy = svg.cloneNode(true) as SVGElement
    copy.setAttribute('width', '600')
    copy.setAttribute('height', '600')
    const image = new Image()
    image.src = `data:image/svg+xml,${encodeURIComponent(new XMLSerializer().serializeToString(copy))}`
    await image.decode()
    const canvas = document.createElement('canvas')
    canvas.width = canvas.height = 600
    const context = canvas.getContext('2d')!
    context.drawImage(image, 0, 0, 600, 600)
    // As one text: a list of a million and a half numbers takes many seconds to hand over.
    const { data } = context.getImageData(0, 0, 600, 600)
    return btoa(Array.from(data, (byte) => String.fromCharCode(byte)).join(''))
  })
  return jsQR(Uint8ClampedArray.from(Buffer.from(png, 'base64')), 600, 600)?.data ?? ''
}

test('a class hand-out lies across, with its leaders and room to write', async ({ page }) => {
  await page.goto('./#sheets/class')
  await page.getByLabel('Saturday class: even taper').check()
  await page.getByLabel('Saturday class: short butt').check()
  const [sheet, ...others] = await printed(page)
  expect(others).toEqual([])
  expectSize(sheet!, { width: A4.height, height: A4.width })
  for (const text of [
    'Saturday class: even taper',
    'Saturday class: short butt',
    'What I would change',
  ])
    expect(sheet!.text).toContain(text)
})

test('a batch is printed as its cut list and a sheet for each formula', async ({ page }) => {
  await page.goto('./#backup')
  await page.getByLabel('Backup file').setInputFiles({
    name: 'shed.json',
    mimeType: 'application/json',
    buffer: Buffer.from(guideShed()),
  })
  await page.getByRole('button', { name: 'Restore' }).click()
  await expect(page.getByText(/^Restored/)).toBeVisible()
  await page.goto('./#tying')
  await page.getByRole('button', { name: 'Plan a batch' }).click()
  await page.getByLabel('Middle Sallow riffles 9 ft 5X').fill('3')
  await page.getByLabel('Saturday class: even taper').fill('2')
  await page.getByRole('button', { name: 'Begin 5 leaders' }).click()
  await page.getByRole('button', { name: 'Bench sheet' }).click()
  await expect(page.getByRole('heading', { name: /what to cut/ })).toBeVisible()
  const pages = await printed(page)
  expect(pages.length).toBeGreaterThanOrEqual(3)
  const all = pages.map(({ text }) => text).join(' ')
  expect(all).toContain('tie 3')
  expect(all).toContain('tie 2')
})

test('the sheets are accessible and scroll in their own frame on a phone', async ({ page }) => {
  await page.setViewportSize({ width: 390, height: 844 })
  for (const place of ['sheets', 'sheets/labels', 'sheets/class']) {
    await page.goto(`./#${place}`)
    await expect(page.locator('.paper').first()).toBeVisible()
    await expectAccessible(page)
    const scrollWidth = await page.evaluate(() => document.scrollingElement!.scrollWidth)
    expect(scrollWidth).toBe(390)
  }
})
