// npm start: build the app, serve the result, show it in the browser.
//   --no-open     only print the address
//   --port 5000   first port to try; a port already taken leads to the next one
import { spawn } from 'node:child_process'
import { fileURLToPath } from 'node:url'
import { parseArgs } from 'node:util'
import { build, preview } from 'vite'

const FIRST_PORT = 4173
const root = fileURLToPath(new URL('../..', import.meta.url))

const { values } = parseArgs({
  options: { port: { type: 'string' }, 'no-open': { type: 'boolean', default: false } },
})

const openers = {
  darwin: ['open'],
  win32: ['cmd', '/c', 'start', ''],
}

// A machine without an opener is no reason to stop: the address is on the screen.
function openInBrowser(url) {
  const [command, ...args] = openers[process.platform] ?? ['xdg-open']
  const opener = spawn(command, [...args, url], { stdio: 'ignore', detached: true })
  opener.on('error', () => {})
  opener.unref()
}

await build({ root, logLevel: 'warn' })
const server = await preview({
  root,
  preview: { host: '127.0.0.1', port: Number(values.port ?? FIRST_PORT), strictPort: false },
})
const url = server.resolvedUrls.local[0]
process.stdout.write(`\nTaperwright is at ${url}\nStop it with Ctrl+C.\n`)
if (!values['no-open']) openInBrowser(url)
