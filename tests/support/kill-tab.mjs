// Kills a tab while it writes, again and again, and looks at what is left:
//   node tests/support/kill-tab.mjs 1000
// Each death comes in the middle of a write drawn from a seed, however fast the machine is. A formula that was acknowledged must be there, whole, and
// none may be older than that or half of anything.
import { createServer } from 'node:http'
import { setTimeout as after } from 'node:timers/promises'
import { fileURLToPath, pathToFileURL } from 'node:url'
import { chromium } from '@playwright/test'
import { build } from 'vite'
import { launchOptions } from './browser.mjs'

/** Writes that a tab begins before it dies: each life has kept something by then. */
const [FEWEST, MOST] = [2, 6]

/** Small, seeded and even enough: the minimal standard of Park and Miller (1988). */
function seeded(seed) {
  let state = seed
  return () => (state = (state * 16807) % 2147483647) / 2147483647
}

async function bundled() {
  const result = await build({
    configFile: false,
    root: fileURLToPath(new URL('../..', import.meta.url)),
    logLevel: 'error',
    build: {
      write: false,
      lib: {
        entry: fileURLToPath(new URL('./kill-tab-entry.ts', import.meta.url)),
        formats: ['es'],
        fileName: 'entry',
      },
    },
  })
  const [first] = Array.isArray(result) ? result : [result]
  return first.output[0].code
}

async function served(code) {
  const server = createServer((request, response) => {
    const isCode = request.url === '/entry.js'
    response.writeHead(200, { 'content-type': isCode ? 'text/javascript' : 'text/html' })
    response.end(isCode ? code : '<script type="module" src="/entry.js"></script>')
  })
  await new Promise((resolve) => server.listen(0, '127.0.0.1', resolve))
  return server
}

async function opened(context, url) {
  const page = await context.newPage()
  await page.goto(url)
  await page.waitForFunction(() => 'look' in globalThis)
  return page
}

/** A moment within a write, which is taken to last as long as the one before it. */
function middleOfWrite(random) {
  const wanted = FEWEST + Math.floor(random() * (MOST - FEWEST + 1))
  const starts = []
  let reach
  const reached = new Promise((resolve) => (reach = resolve))
  function begun() {
    starts.push(Date.now())
    const [before, last] = starts.slice(-2)
    if (starts.length === wanted) void after(random() * (last - before)).then(reach)
  }
  return { begun, reached }
}

/** One life: what the one before has left is looked at, writes begin, and the renderer is killed. */
async function liveAndDie(context, url, random) {
  const [sent, kept] = [{}, {}]
  const page = await opened(context, url)
  const found = await page.evaluate(() => globalThis.look())
  const inWrite = middleOfWrite(random)
  await page.exposeFunction('tell', ({ id, n, is }) => {
    const told = is === 'sent' ? sent : kept
    told[id] = n
    if (is === 'sent') inWrite.begun()
  })
  await page.evaluate(() => void globalThis.writeOn(globalThis.tell))
  await inWrite.reached
  const died = page.waitForEvent('crash').catch(() => undefined)
  const session = await context.newCDPSession(page)
  session.send('Page.crash').catch(() => undefined)
  // Word of the death can get lost on a busy machine; closing the page kills it as well.
  await Promise.race([died, after(5000)])
  await page.close()
  return { found, sent, kept }
}

/** What is wrong after a death; empty where nothing is. */
function faultsOf({ kept, sent }, before, found) {
  const faults = []
  if (!found.isWhole) faults.push('something is half-written')
  if (!found.isTogether) faults.push('two items of one write are not both there')
  for (const id of Object.keys({ ...before, ...kept })) {
    const least = Math.max(before[id] ?? 0, kept[id] ?? 0)
    const most = Math.max(least, sent[id] ?? 0)
    const there = found.numbers[id] ?? 0
    if (there < least) faults.push(`${id} is at ${there}, though ${least} was kept`)
    if (there > most) faults.push(`${id} is at ${there}, though only ${most} was sent`)
  }
  return faults
}

/**
 * Kills so many tabs; gives every fault with the number of the death.
 * @param {number} times
 * @param {number} [seed]
 * @returns {Promise<{ times: number, acknowledged: number, writes: number, faults: string[] }>}
 */
export async function killTabs(times, seed = 20_261_125) {
  const server = await served(await bundled())
  const url = `http://127.0.0.1:${server.address().port}/`
  const browser = await chromium.launch(await launchOptions())
  const random = seeded(seed)
  const faults = []
  let last = { found: { numbers: {} }, sent: {}, kept: {} }
  let acknowledged = 0
  try {
    const context = await browser.newContext()
    // One life more than deaths: the last only looks at what the one before it has left.
    for (let i = 0; i <= times; i++) {
      const life = await liveAndDie(context, url, random)
      const wrong = i === 0 ? [] : faultsOf(last, last.found.numbers, life.found)
      faults.push(...wrong.map((fault) => `death ${i}: ${fault}`))
      acknowledged += Object.keys(life.kept).length
      last = life
      if (wrong.length > 0) process.stderr.write(`death ${i}: ${wrong.join('; ')}\n`)
      if (i % 100 === 99) process.stderr.write(`${i + 1} deaths, ${faults.length} faults\n`)
    }
  } finally {
    await browser.close()
    server.close()
  }
  return {
    times,
    acknowledged,
    writes: Object.values(last.found.numbers).reduce((a, b) => a + b, 0),
    faults,
  }
}

if (import.meta.url === pathToFileURL(process.argv[1] ?? '').href) {
  const start = Date.now()
  const result = await killTabs(Number(process.argv[2] ?? 1000))
  process.stdout.write(`${JSON.stringify({ ...result, seconds: (Date.now() - start) / 1000 })}\n`)
  process.exitCode = result.faults.length > 0 ? 1 : 0
}
