import { readFileSync } from 'node:fs'
import type { Page } from '@playwright/test'
import { expect, test } from '@playwright/test'
import { diameter, expectSaved, formulaName, typeInto } from '../support/bench-page'
import type { DistServer } from '../support/dist-server'
import { serveDist } from '../support/dist-server'
import { readPdf } from '../support/pdf'

test.use({ serviceWorkers: 'allow' })
test.setTimeout(180_000)

const PLACES = [
  'library',
  'cast',
  'spools',
  'tying',
  'sheets',
  'share',
  'paste',
  'backup',
  'versions',
  'model',
]

let server: DistServer
test.beforeEach(async () => {
  server = await serveDist()
})
test.afterEach(() => server.kill())

/** One visit, long enough for everything to be held. */
async function visit(page: Page) {
  await page.goto(server.url)
  await expect(formulaName(page)).toHaveValue(/riffles/)
  await page.waitForFunction(() => navigator.serviceWorker.controller !== null, undefined, {
    timeout: 60_000,
  })
}

test('after one visit everything works without the server: places, simulation, printing', async ({
  page,
}) => {
  const noise: string[] = []
  page.on('pageerror', (error) => noise.push(error.message))
  await visit(page)
  await server.kill()
  await page.reload()
  await expect(formulaName(page)).toHaveValue(/riffles/)
  await typeInto(diameter(page, 3), '.0155 in')
  await expectSaved(page)
  await expect(page.getByText(/of 100 casts/).first()).toBeVisible({ timeout: 60_000 })
  for (const place of PLACES) {
    await page.goto(`${server.url}#${place}`)
    await expect(page.getByRole('heading', { level: 2 }).first()).toBeVisible()
  }
  await page.goto(`${server.url}#sheets`)
  await expect(page.locator('.paper')).toBeVisible()
  const [sheet] = await readPdf(await page.pdf({ preferCSSPageSize: true }))
  expect(sheet?.text).toContain('.0155 in')
  expect(noise).toEqual([])
})

test('a new version is offered and comes when it is asked for, with the edit kept', async ({
  page,
}) => {
  await visit(page)
  await typeInto(diameter(page, 1), '.022 in')
  await expectSaved(page)
  server.change('sw.js', (text) => text.replace(/VERSION = "/, 'VERSION = "new'))
  server.change('index.html', (text) => text.replace('<title>', '<title>Newer '))
  await page.evaluate(async () => void (await (await navigator.serviceWorker.ready).update()))
  const offer = page.getByText('A new version of Taperwright is ready.')
  await expect(offer).toBeVisible({ timeout: 60_000 })
  // Nothing has happened yet, and an edit goes on.
  await expect(page).toHaveTitle('Taperwright')
  await typeInto(diameter(page, 2), '.018 in')
  await page.getByRole('button', { name: 'Reload to get it' }).click()
  await expect(page).toHaveTitle('Newer Taperwright', { timeout: 60_000 })
  await expect(diameter(page, 1)).toHaveValue('.022 in')
  await expect(diameter(page, 2)).toHaveValue('.018 in')
})

test('no request leaves the origin, and the page runs no script but its own', async ({
  page,
  context,
}) => {
  const asked: string[] = []
  context.on('request', (request) => asked.push(request.url()))
  const refused: string[] = []
  page.on('console', (message) => {
    if (/Content.Security.Policy/i.test(message.text())) refused.push(message.text())
  })
  await visit(page)
  for (const place of PLACES) {
    await page.goto(`${server.url}#${place}`)
    await expect(page.getByRole('heading', { level: 2 }).first()).toBeVisible()
  }
  await page.goto(`${server.url}#share`)
  await page.getByRole('button', { name: 'Drawing as PNG' }).click()
  expect(asked.length).toBeGreaterThan(20)
  expect(asked.filter((url) => !url.startsWith(server.url) && !/^(data|blob):/.test(url))).toEqual(
    [],
  )
  expect(refused).toEqual([])
  const ran = await page.evaluate(() => {
    const script = document.createElement('script')
    script.textContent = 'window.inlineRan = true'
    document.head.append(script)
    return 'inlineRan' in window
  })
  expect(ran).toBe(false)
  const reached = await page.evaluate(() =>
    fetch('https://example.org/').then(
      () => true,
      () => false,
    ),
  )
  expect(reached).toBe(false)
})

test('can be installed: a manifest with its icons', async ({ page }) => {
  await page.goto(server.url)
  const manifest = await page.evaluate(async () => {
    const { href } = document.querySelector<HTMLLinkElement>('link[rel=manifest]')!
    return (await (await fetch(href)).json()) as {
      icons: { src: string; sizes: string }[]
      display: string
    }
  })
  expect(manifest.display).toBe('standalone')
  const sizes = await page.evaluate(
    (icons) =>
      Promise.all(
        icons.map(async ({ src }) => {
          const image = new Image()
          image.src = src
          await image.decode()
          return image.naturalWidth
        }),
      ),
    manifest.icons.filter(({ src }) => src.endsWith('.png')),
  )
  expect(sizes).toEqual([192, 512, 512])
})

test('a file that is held damaged is whole again at the next visit with a network', async ({
  page,
}) => {
  await visit(page)
  const damaged = await page.evaluate(async () => {
    const [name] = (await caches.keys()).filter((key) => key.startsWith('taperwright-'))
    const cache = await caches.open(name!)
    const held = (await cache.keys()).find(({ url }) => /assets\/index-.*\.js$/.test(url))!
    await cache.put(
      held,
      new Response('this is no script(', { headers: { 'content-type': 'text/javascript' } }),
    )
    return held.url
  })
  await page.reload()
  await expect(formulaName(page)).toBeHidden()
  const held = () => page.evaluate(async (url) => (await caches.match(url))?.text(), damaged)
  await expect.poll(held, { timeout: 60_000 }).not.toContain('this is no script')
  await page.reload()
  await expect(formulaName(page)).toHaveValue(/riffles/)
})

test('the licences of all that is in the build go with it', async ({ page }) => {
  const notices = await (await page.request.get(`${server.url}notices.txt`)).text()
  // Those that the package file names as part of the page, and what they bring along.
  const { dependencies } = JSON.parse(readFileSync('package.json', 'utf8')) as {
    dependencies: Record<string, string>
  }
  const parts = Object.keys(dependencies).map((name) =>
    name === 'vue' ? '@vue/runtime-dom' : name,
  )
  expect(parts.length).toBeGreaterThan(5)
  for (const name of [...parts, '@vue/reactivity', '@kurkle/color', 'd3-array'])
    expect(notices).toMatch(new RegExp(`^${name} \\d+\\.\\d+\\.\\d+ \\((MIT|ISC)\\)$`, 'm'))
  expect(notices).toContain('The Taperwright authors')
})

test('the preview sends the headers that others are told to send', async ({ page }) => {
  const response = await page.goto('./')
  const configuration = await (await page.request.get(`${server.url}headers.conf`)).text()
  const headers = response!.headers()
  for (const name of ['Content-Security-Policy', 'X-Content-Type-Options', 'Referrer-Policy'])
    expect(configuration).toContain(`add_header ${name} "${headers[name.toLowerCase()]}" always;`)
  expect(headers['content-security-policy']).toContain("frame-ancestors 'none'")
})
