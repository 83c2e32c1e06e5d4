// Which browser the tests drive. In this order:
//   1. $CHROMIUM_PATH
//   2. the one that comes from npm (Linux on x64 only), unpacked once into node_modules/.cache
//   3. Chromium or Chrome as installed on this machine
import { spawnSync } from 'node:child_process'
import { createReadStream, createWriteStream, existsSync } from 'node:fs'
import { mkdir, mkdtemp, readFile, rename, rm, writeFile } from 'node:fs/promises'
import { dirname, join } from 'node:path'
import { pipeline } from 'node:stream/promises'
import { fileURLToPath } from 'node:url'
import { brotliDecompressSync, createBrotliDecompress } from 'node:zlib'

const modules = fileURLToPath(new URL('../../node_modules', import.meta.url))
const shipped = join(modules, '@sparticuz/chromium')

const ARGS = [
  '--no-sandbox',
  '--disable-quic',
  '--disable-component-update',
  '--disable-background-networking',
  '--disable-sync',
  '--no-first-run',
]

const BLOCK = 512

/** The plain files of a tar archive: [{ name, mode, data }]. Only what the shipped archives use. */
function tarFiles(tar) {
  const files = []
  const text = (from, length) => tar.toString('latin1', from, from + length).replace(/\0.*$/s, '')
  for (let at = 0; at + BLOCK <= tar.length && tar[at] !== 0;) {
    const size = parseInt(text(at + 124, 12), 8) || 0
    const kind = text(at + 156, 1)
    const data = tar.subarray(at + BLOCK, at + BLOCK + size)
    if (kind === '' || kind === '0') {
      files.push({ name: text(at, 100), mode: parseInt(text(at + 100, 8), 8), data })
    }
    at += BLOCK + Math.ceil(size / BLOCK) * BLOCK
  }
  return files
}

async function unpackTar(archive, folder) {
  const tar = brotliDecompressSync(await readFile(archive))
  for (const { name, mode, data } of tarFiles(tar)) {
    const target = join(folder, name)
    await mkdir(dirname(target), { recursive: true })
    await writeFile(target, data, { mode })
  }
}

// Without its own fonts.conf a bare machine shows no text at all; with it, text is as wide everywhere.
const FONTS_CONF = `<?xml version="1.0"?>
<!DOCTYPE fontconfig SYSTEM "urn:fontconfig:fonts.dtd">
<fontconfig>
  <dir prefix="relative">fonts</dir>
  <cachedir prefix="xdg">fontconfig</cachedir>
</fontconfig>
`

async function unpackInto(folder) {
  const bin = (name) => join(shipped, 'bin', name)
  await unpackTar(bin('al2023.tar.br'), join(folder, 'sys'))
  await unpackTar(bin('fonts.tar.br'), folder)
  await writeFile(join(folder, 'fonts.conf'), FONTS_CONF)
  await pipeline(
    createReadStream(bin('chromium.br')),
    createBrotliDecompress({ chunkSize: 2 ** 21 }),
    createWriteStream(join(folder, 'chromium'), { mode: 0o755 }),
  )
}

// Unpacked elsewhere, then renamed in one step: of two workers starting together
// one wins, and neither ever sees half a browser.
async function unpackOnce(folder) {
  if (existsSync(folder)) return
  await mkdir(dirname(folder), { recursive: true })
  const draft = await mkdtemp(`${folder}-`)
  try {
    await unpackInto(draft)
    await rename(draft, folder)
  } catch (error) {
    if (!existsSync(folder)) throw error
  } finally {
    await rm(draft, { recursive: true, force: true })
  }
}

async function fromNpm() {
  const usable = process.platform === 'linux' && process.arch === 'x64' && existsSync(shipped)
  if (!usable) return null
  const { version } = JSON.parse(await readFile(join(shipped, 'package.json'), 'utf8'))
  const folder = join(modules, '.cache/chromium', version)
  await unpackOnce(folder)
  const env = {
    ...process.env,
    LD_LIBRARY_PATH: join(folder, 'sys/lib'),
    FONTCONFIG_FILE: join(folder, 'fonts.conf'),
  }
  return runs({ executablePath: join(folder, 'chromium'), args: ARGS, env })
}

const INSTALLED = {
  linux: ['chromium', 'chromium-browser', 'google-chrome', 'google-chrome-stable'],
  darwin: [
    '/Applications/Google Chrome.app/Contents/MacOS/Google Chrome',
    '/Applications/Chromium.app/Contents/MacOS/Chromium',
  ],
  win32: [
    `${process.env.PROGRAMFILES}\\Google\\Chrome\\Application\\chrome.exe`,
    `${process.env['PROGRAMFILES(X86)']}\\Google\\Chrome\\Application\\chrome.exe`,
  ],
}

function onPath(name) {
  const found = spawnSync('sh', ['-c', `command -v ${name}`], { encoding: 'utf8' })
  return found.stdout?.trim() || null
}

function fromSystem() {
  for (const name of INSTALLED[process.platform] ?? []) {
    const path = process.platform === 'linux' ? onPath(name) : existsSync(name) && name
    const options = path && runs({ executablePath: path, args: ARGS })
    if (options) return options
  }
  return null
}

// Chrome on Windows opens a window when asked for its version; there a file that exists must do.
function runs(options) {
  if (process.platform === 'win32') return options
  const tried = spawnSync(options.executablePath, ['--version'], { env: options.env })
  return tried.status === 0 ? options : null
}

function chosen() {
  const executablePath = process.env.CHROMIUM_PATH
  if (!executablePath) return null
  const options = runs({ executablePath, args: ARGS })
  if (!options) throw new Error(`CHROMIUM_PATH names no browser that starts: ${executablePath}`)
  return options
}

/**
 * What Playwright's chromium.launch() needs on this machine.
 * @returns {Promise<import('@playwright/test').LaunchOptions>}
 */
export async function launchOptions() {
  const options = chosen() ?? (await fromNpm()) ?? fromSystem()
  if (!options) {
    throw new Error(
      'No browser for the tests: install Google Chrome or Chromium (on Debian: apt-get install chromium), or set CHROMIUM_PATH to one.',
    )
  }
  return options
}
