import type { Page } from '@playwright/test'
import { test as base, expect } from '@playwright/test'

/** What the page throws, logs as an error or asks another host for, as it comes. */
function noiseOf(page: Page, baseURL = ''): string[] {
  const noise: string[] = []
  page.on('pageerror', (error) => noise.push(`thrown: ${error.message}`))
  page.on('console', (message) => {
    if (message.type() === 'error') noise.push(`logged: ${message.text()}`)
  })
  page.on('request', (request) => {
    const url = request.url()
    const own = url.startsWith(baseURL) || /^(data|blob|about):/.test(url)
    if (!own) noise.push(`asked another host: ${url}`)
  })
  return noise
}

/** Playwright's test, failing also when the page throws, logs an error or asks another host for anything. */
export const test = base.extend<{ quiet: void }>({
  quiet: [
    async ({ page, baseURL }, use) => {
      const noise = noiseOf(page, baseURL)
      await use()
      expect(noise, 'the page keeps quiet').toEqual([])
    },
    { auto: true },
  ],
})

/**
 * Tests of one state of the page, at several sizes or in several respects: it is brought about once for all of
 * them, watched as above. After a failure Playwright brings it about anew, so each test begins from that state.
 */
export function onOnePage(
  title: string,
  prepare: (page: Page) => Promise<void>,
  tests: (test: typeof base, page: () => Page) => void,
): void {
  base.describe(title, () => {
    base.describe.configure({ mode: 'default' })
    let page: Page
    let noise: string[]
    base.beforeAll(async ({ browser, baseURL }) => {
      page = await browser.newPage()
      noise = noiseOf(page, baseURL)
      await prepare(page)
    })
    base.afterEach(() => expect(noise.splice(0), 'the page keeps quiet').toEqual([]))
    base.afterAll(() => page.close())
    tests(base, () => page)
  })
}

export const SIZES = [
  { width: 1440, height: 900 },
  { width: 390, height: 844 },
] as const

/** The same tests at a desk's size and at a phone's, of a page that is resized in between. */
export function atEachSize(
  title: string,
  prepare: (page: Page) => Promise<void>,
  tests: readonly (readonly [title: string, (page: Page, width: number) => Promise<void>])[],
): void {
  onOnePage(title, prepare, (test, page) => {
    for (const viewport of SIZES)
      for (const [title, look] of tests)
        test(`at ${viewport.width} × ${viewport.height} ${title}`, async () => {
          await page().setViewportSize(viewport)
          await look(page(), viewport.width)
        })
  })
}

export { expect }
