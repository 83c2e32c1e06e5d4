import { createServer } from 'node:net'
import { fileURLToPath } from 'node:url'
import { defineConfig } from '@playwright/test'
import { launchOptions } from '../support/browser.mjs'

const root = fileURLToPath(new URL('../..', import.meta.url))

function freePort(): Promise<number> {
  return new Promise((resolve, reject) => {
    const server = createServer().once('error', reject)
    server.listen(0, '127.0.0.1', () => {
      const address = server.address()
      server.close(() => resolve(typeof address === 'object' && address ? address.port : 0))
    })
  })
}

// Every worker reads this file anew; the environment makes them agree on one port.
process.env.TAPERWRIGHT_PORT ??= String(await freePort())
const port = process.env.TAPERWRIGHT_PORT
const url = `http://127.0.0.1:${port}/`

export default defineConfig({
  testDir: '.',
  testMatch: '**/*.spec.ts',
  outputDir: `${root}test-results`,
  fullyParallel: true,
  // A machine that does other things as well is slow, not wrong; a test that hangs is still found.
  timeout: 90_000,
  expect: { timeout: 15_000 },
  workers: 2,
  reporter: 'list',
  use: {
    baseURL: url,
    browserName: 'chromium',
    launchOptions: await launchOptions(),
    // Every test begins without one; those of working without a network ask for it.
    serviceWorkers: 'block',
    // A trace of every test costs a fifth of the time; "npm run browser -- --trace on" makes one.
    trace: 'off',
  },
  webServer: {
    // The page as it is delivered, not the development server: run "npm run build" first.
    command: `node node_modules/vite/bin/vite.js preview --host 127.0.0.1 --port ${port} --strictPort`,
    cwd: root,
    url,
    reuseExistingServer: false,
  },
})
