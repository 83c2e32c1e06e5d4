import type { Locator, Page } from '@playwright/test'
import { diameter, handle, length, openBench } from '../support/bench-page'
import { expect, test } from '../support/watched'

test.beforeEach(({ page }) => openBench(page))

const undo = (page: Page) => page.getByRole('button', { name: 'Undo' })
const middleOf = async (one: Locator) => {
  const box = await one.boundingBox()
  if (!box) throw new Error('not on the page')
  return { x: box.x + box.width / 2, y: box.y + box.height / 2 }
}

async function drag(page: Page, from: Locator, dx: number, dy: number) {
  const { x, y } = await middleOf(from)
  await page.mouse.move(x, y)
  await page.mouse.down()
  await page.mouse.move(x + dx / 2, y + dy / 2, { steps: 4 })
  await page.mouse.move(x + dx, y + dy, { steps: 4 })
  await page.mouse.up()
}

test('a diameter dragged up grows in table and drawing, and one undo takes the drag back', async ({
  page,
}) => {
  await drag(page, handle(page, 'Diameter', 2), 0, -6)
  const dragged = await diameter(page, 2).inputValue()
  expect(Number.parseFloat(dragged)).toBeGreaterThan(0.019)
  await expect(handle(page, 'Diameter', 2)).toHaveAttribute('aria-valuetext', dragged)
  await undo(page).click()
  await expect(diameter(page, 2)).toHaveValue('.019 in')
  await expect(undo(page)).toBeDisabled()
})

test('a length dragged towards the fly grows, and one undo takes the drag back', async ({
  page,
}) => {
  const bar = page.locator('.drawing .bar').nth(1)
  const before = await bar.boundingBox()
  await drag(page, handle(page, 'Length', 2), 40, 0)
  const dragged = Number.parseFloat(await length(page, 2).inputValue())
  // As many pixels as the piece was long for an inch, when the drag began.
  const pixelsAnInch = (before?.width ?? 0) / 14
  expect(Math.abs(dragged - 14 - 40 / pixelsAnInch)).toBeLessThanOrEqual(0.5)
  await undo(page).click()
  await expect(length(page, 2)).toHaveValue('14 in')
  await expect(undo(page)).toBeDisabled()
})

test('two drags of one piece are two steps', async ({ page }) => {
  await drag(page, handle(page, 'Diameter', 2), 0, -6)
  const once = await diameter(page, 2).inputValue()
  await drag(page, handle(page, 'Diameter', 2), 0, -6)
  await expect(diameter(page, 2)).not.toHaveValue(once)
  await undo(page).click()
  await expect(diameter(page, 2)).toHaveValue(once)
})

test('by keyboard a diameter moves by half thousandths and a length by half inches', async ({
  page,
}) => {
  await handle(page, 'Diameter', 2).focus()
  await page.keyboard.press('ArrowUp')
  await expect(diameter(page, 2)).toHaveValue('.0195 in')
  await page.keyboard.press('ArrowDown')
  await page.keyboard.press('ArrowDown')
  await expect(diameter(page, 2)).toHaveValue('.0185 in')
  await expect(handle(page, 'Diameter', 2)).toBeFocused()
  await handle(page, 'Length', 2).focus()
  await page.keyboard.press('ArrowRight')
  await expect(length(page, 2)).toHaveValue('14.5 in')
})

const hairline = (page: Page) => page.locator('.hairline')
const readout = (page: Page) => page.locator('.readout')

test('pointing at a chart reads the place out and marks the row', async ({ page }) => {
  const bar = await middleOf(page.locator('.drawing .bar').nth(3))
  for (const chart of await page.locator('figure').all()) {
    const { y } = await middleOf(chart)
    await page.mouse.move(bar.x, y)
    await expect(page.locator('tr.current')).toHaveAttribute('data-row', '3')
    await expect(readout(page)).toContainText('piece 4: mid-section')
    expect(Math.abs((await middleOf(hairline(page))).x - bar.x)).toBeLessThanOrEqual(1)
    await page.mouse.move(5, 5)
    await expect(hairline(page)).toHaveCount(0)
  }
})

test('pointing at a row puts the hairline through the middle of its piece, in drawing and charts', async ({
  page,
}) => {
  for (const row of [0, 4, 6]) {
    await page.locator(`[data-row="${row}"] .figure`).first().hover()
    const bar = await middleOf(page.locator('.drawing .bar').nth(row))
    // The hairline follows within a frame, which may be after the pointer has arrived.
    await expect
      .poll(async () => Math.abs(((await hairline(page).boundingBox())?.x ?? 0) - bar.x))
      .toBeLessThanOrEqual(1)
    const line = await hairline(page).boundingBox()
    const [top, bottom] = await Promise.all([
      page.locator('.drawing').boundingBox(),
      page.locator('figure').last().boundingBox(),
    ])
    expect(line?.y).toBeLessThanOrEqual(top?.y ?? 0)
    expect((line?.y ?? 0) + (line?.height ?? 0)).toBeGreaterThanOrEqual(
      (bottom?.y ?? 0) + (bottom?.height ?? Infinity),
    )
  }
})

test('the slider under the drawing moves the hairline by keyboard', async ({ page }) => {
  await page.getByRole('slider', { name: 'Place along the leader' }).focus()
  await page.keyboard.press('End')
  await expect(readout(page)).toContainText('108 in out, piece 7')
  await page.keyboard.press('Home')
  await expect(readout(page)).toContainText('0 in out, piece 1')
})

interface Ink {
  readonly share: number
  readonly brightness: number
}

/** How much of each chart is drawn on, and how bright that ink is, 0 to 255. */
function inkOf(page: Page): Promise<Ink[]> {
  return page.locator('figure canvas').evaluateAll((canvases) =>
    canvases.map((one) => {
      const canvas = one as HTMLCanvasElement
      const { data } = canvas.getContext('2d')!.getImageData(0, 0, canvas.width, canvas.height)
      const drawn: number[] = []
      for (let i = 0; i < data.length; i += 4) {
        if ((data[i + 3] ?? 0) > 200) drawn.push(data[i + 1] ?? 0)
      }
      const darkFirst = drawn.sort((a, b) => a - b)
      return {
        share: drawn.length / (data.length / 4),
        brightness: darkFirst[Math.floor(drawn.length / 20)] ?? -1,
      }
    }),
  )
}

test('charts are drawn in ink that stands out in light and in dark', async ({ page }) => {
  const light = await inkOf(page)
  expect(light).toHaveLength(4)
  for (const { share, brightness } of light) {
    expect(share).toBeGreaterThan(0.005)
    expect(brightness).toBeLessThan(90)
  }
  await page.emulateMedia({ colorScheme: 'dark' })
  await expect.poll(async () => (await inkOf(page))[0]?.brightness).toBeGreaterThan(60)
  const strongest = await page.locator('figure canvas').evaluateAll((canvases) =>
    canvases.map((one) => {
      const canvas = one as HTMLCanvasElement
      const { data } = canvas.getContext('2d')!.getImageData(0, 0, canvas.width, canvas.height)
      return data.reduce((most, value, i) => (i % 4 === 1 ? Math.max(most, value) : most), 0)
    }),
  )
  for (const brightness of strongest) expect(brightness).toBeGreaterThan(200)
})

test('the curve is where the axis says: it steps under the joints of the drawing', async ({
  page,
}) => {
  const joint = await middleOf(page.locator('.drawing .knot').nth(1))
  const canvas = page.locator('figure canvas').first()
  const box = await canvas.boundingBox()
  const columns = await canvas.evaluate((one) => {
    const { width, height } = one as HTMLCanvasElement
    const { data } = (one as HTMLCanvasElement).getContext('2d')!.getImageData(0, 0, width, height)
    const scale = width / one.getBoundingClientRect().width
    // The lowest dark pixel of a column: the curve, beneath which nothing is drawn in ink.
    const inkAt = (x: number) => {
      for (let y = height - 1; y >= 0; y--) {
        const i = (y * width + Math.round(x * scale)) * 4
        if ((data[i + 3] ?? 0) > 200 && (data[i + 1] ?? 255) < 90) return y / scale
      }
      return -1
    }
    return Array.from({ length: Math.floor(width / scale) }, (_, x) => inkAt(x))
  })
  const x = Math.round(joint.x - (box?.x ?? 0))
  const [before = -1, after = -1] = [columns[x - 4], columns[x + 4]]
  expect(before).toBeGreaterThan(0)
  expect(after).toBeGreaterThan(before)
  expect(columns[x - 40]).toBeCloseTo(before, 0)
})
