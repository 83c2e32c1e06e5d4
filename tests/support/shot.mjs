// A picture of a page, to look at while building:
//   node tests/support/shot.mjs http://127.0.0.1:4173/ [out.png] [--size 1440x900] [--dark] [--full] [--wait 3000]
import { mkdir } from 'node:fs/promises'
import { dirname } from 'node:path'
import { parseArgs } from 'node:util'
import { chromium } from '@playwright/test'
import { launchOptions } from './browser.mjs'

const { values, positionals } = parseArgs({
  allowPositionals: true,
  options: {
    size: { type: 'string', default: '1440x900' },
    dark: { type: 'boolean', default: false },
    full: { type: 'boolean', default: false },
    // For what arrives later than the page, such as a simulated cast.
    wait: { type: 'string', default: '0' },
  },
})
const [url, out = 'node_modules/.cache/shots/shot.png'] = positionals
const [width, height] = values.size.split('x').map(Number)

await mkdir(dirname(out), { recursive: true })
const browser = await chromium.launch(await launchOptions())
const page = await browser.newPage({
  viewport: { width, height },
  colorScheme: values.dark ? 'dark' : 'light',
})
page.on('console', (message) => process.stderr.write(`${message.type()}: ${message.text()}\n`))
page.on('pageerror', (error) => process.stderr.write(`page error: ${error.message}\n`))
await page.goto(url, { waitUntil: 'networkidle' })
await page.waitForTimeout(Number(values.wait))
await page.screenshot({ path: out, fullPage: values.full })
await browser.close()
process.stdout.write(`${out}\n`)
