// npm run bench: the engine's timings in Node, the cast's figures beside their targets and the same in C, then, where there is one, the
// page's in a browser.
import { spawnSync } from 'node:child_process'
import { existsSync } from 'node:fs'
import { fileURLToPath } from 'node:url'

const at = (path) => fileURLToPath(new URL(`../../${path}`, import.meta.url))

function node(...args) {
  const { status } = spawnSync(process.execPath, args, { cwd: at(''), stdio: 'inherit' })
  if (status !== 0) process.exitCode = 1
}

node(at('node_modules/vitest/vitest.mjs'), 'bench', '--run', '--project=pure')
node(at('tests/bench/cast.mjs'))
const inBrowser = at('tests/bench/browser.mjs')
if (existsSync(inBrowser)) node(inBrowser)
